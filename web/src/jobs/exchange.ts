/// Jobs as files: one, as the command reads it, or all that are kept.
import type { Cutting, JobRecord } from './record';
import type { Job } from '../core/door';

export interface Backup { treadfold_jobs: 1; jobs: JobRecord[] }

export const jobText = (job: Job) => JSON.stringify(job, null, 2) + '\n';
export const backupText = (jobs: JobRecord[]) => JSON.stringify({ treadfold_jobs: 1, jobs } satisfies Backup, null, 1) + '\n';

export type Imported = { job: Job } | { jobs: JobRecord[] } | { fault: 'not-json' | 'no-job' | 'newer' };

const isObject = (x: unknown): x is Record<string, unknown> => typeof x === 'object' && x !== null && !Array.isArray(x);

function isRecord(x: unknown): x is JobRecord {
  return isObject(x) && typeof x.id === 'string' && x.id !== '' && typeof x.changed === 'string' && Number.isInteger(x.step) && isJob(x.job) &&
    isProgress(x.progress) && isCuttings(x.brought ?? []);
}
const isProgress = (x: unknown) =>
  isObject(x) && ['cut', 'hung', 'spoiled'].every((k) => Array.isArray(x[k])) && Array.isArray(x.cutting ?? []) &&
  isObject(x.anew ?? {}) && Object.values(x.anew ?? {}).every((made) => isObject(made) && Array.isArray(made.strokes));
const isPiece = (x: unknown) => typeof x === 'string' || (isObject(x) && typeof x.piece === 'string');
const isCuttings = (x: unknown): x is Cutting[] =>
  Array.isArray(x) && x.every((c) => isObject(c) && typeof c.carpet === 'string' && [c.cut, c.spoiled].every((list) => Array.isArray(list ?? []) && ((list ?? []) as unknown[]).every(isPiece)) &&
    Array.isArray(c.flaws ?? []) && ((c.flaws ?? []) as unknown[]).every(isObject));

/// What a job says of its cutting is kept beside it, with the ticks. What makes no sense stays, and the core says so.
export function parted<T extends { job: Job; brought?: Cutting[] }>(kept: T): T {
  const { cutting, ...job } = kept.job;
  return cutting !== undefined && isCuttings(cutting) ? { ...kept, job: job as Job, brought: cutting } : kept;
}

/// The least by which a job is known; the core says what is wrong inside it.
function isJob(x: unknown): x is Job {
  return isObject(x) && x.treadfold === 1 && isObject(x.site) && typeof x.site.title === 'string' && Array.isArray(x.stairs);
}

/// Lines of `//` notes, as the command's own files may have, outside of strings.
const withoutNotes = (text: string) => text.replace(/"(?:[^"\\]|\\.)*"|\/\/[^\n]*/g, (part) => (part.startsWith('//') ? '' : part));

export function read(text: string): Imported {
  let value: unknown;
  try {
    value = JSON.parse(withoutNotes(text));
  } catch {
    return { fault: 'not-json' };
  }
  if (isObject(value) && 'treadfold_jobs' in value) {
    if (typeof value.treadfold_jobs === 'number' && value.treadfold_jobs > 1) return { fault: 'newer' };
    return Array.isArray(value.jobs) && value.jobs.every(isRecord) ? { jobs: value.jobs } : { fault: 'no-job' };
  }
  if (isObject(value) && typeof value.treadfold === 'number' && value.treadfold > 1) return { fault: 'newer' };
  return isJob(value) ? { job: value } : { fault: 'no-job' };
}
