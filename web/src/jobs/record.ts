/// What is kept of a job.
import type { Job } from '../core/door';

/// What is being typed, kept so that a killed page loses no more than a keystroke. `place`: a JSON Pointer into the job.
export interface Draft { place: string; text: string }

export type Cutting = NonNullable<Job['cutting']>[number];
/// What still serves of a spoiled piece.
export interface Sound { sound_width: string | number; sound_length: string | number }
/// From where a piece was cut anew: the part, and the strokes that were made in it.
export interface Made { carpet: string; of: string; u_mm: number; v_mm: number; placed: string; strokes: unknown[] }

export interface Progress {
  cut: string[]; // pieces, by id
  hung: string[];
  spoiled: string[];
  sound?: Record<string, Sound>; // of the spoiled ones
  cutting?: Cutting[]; // what core was last asked of, and which way is taken
  anew?: Record<string, Made>; // pieces cut from what was left, not where the plan has them
  sizes?: Record<string, [number, number]>; // to which the cut ones were cut, across and along, in mm
}

export interface Signature { name: string; when: string; strokes: number[][] } // x, y, x, y … in thousandths of its box's width

/// What a choice took out of the job, to be put back: what, and of which carpet.
export type Aside = Record<string, unknown>;

export interface JobRecord {
  id: string;
  changed: string; // ISO 8601
  step: number; // how many changes lie behind it: undo counts down
  job: Job;
  progress: Progress;
  brought?: Cutting[]; // what the file said of its cutting, as it came
  begun?: true; // and the ticks have it
  draft?: Draft;
  signature?: Signature;
  aside?: Aside;
}

/// With another job, and what it was to be had back by undo.
export function changedTo({ draft: _, ...record }: JobRecord, job: Job): JobRecord {
  return { ...record, job, step: record.step + 1, changed: new Date().toISOString() };
}

export const title = (record: JobRecord) => record.job.site.title;
export const words = (record: JobRecord) =>
  [record.job.site.title, record.job.site.customer, record.job.site.address].filter(Boolean).join(' ').toLowerCase();

export const noProgress = (): Progress => ({ cut: [], hung: [], spoiled: [] });
