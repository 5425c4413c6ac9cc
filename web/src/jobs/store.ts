/// Jobs in the browser's database. Every change is written at once, as a whole: a page killed at any moment leaves the job as it
/// was before the change or after it. Behind each job stand its former states, so that undo has no end.
import { parted } from './exchange';
import { noProgress, type JobRecord } from './record';
import type { Job } from '../core/door';

interface Former { id: string; step: number; job: Job }
/// A job as changed, and what keeps it so.
export interface Change { record: JobRecord; keep: () => Promise<void> }

const VERSION = 1;

/// A UUID of random bits. crypto.randomUUID is not to be had where a page came without encryption, as from `treadfold serve --lan`.
function newId(): string {
  const bytes = crypto.getRandomValues(new Uint8Array(16));
  bytes[6] = (bytes[6]! & 0x0f) | 0x40; // version 4, variant 10 (RFC 9562, from memory)
  bytes[8] = (bytes[8]! & 0x3f) | 0x80;
  const hex = Array.from(bytes, (byte) => byte.toString(16).padStart(2, '0')).join('');
  return hex.replace(/^(.{8})(.{4})(.{4})(.{4})/, '$1-$2-$3-$4-');
}

function asked<T>(request: IDBRequest<T>): Promise<T> {
  return new Promise((done, failed) => {
    request.onsuccess = () => done(request.result);
    request.onerror = () => failed(request.error ?? new Error('the database gave no reason'));
  });
}

function ended(work: IDBTransaction): Promise<void> {
  return new Promise((done, failed) => {
    work.oncomplete = () => done();
    work.onerror = work.onabort = () => failed(work.error ?? new Error('the database gave no reason'));
  });
}

export class Store {
  #open?: Promise<IDBDatabase>;
  constructor(private readonly name = 'treadfold') {}

  #database(): Promise<IDBDatabase> {
    this.#open ??= (() => {
      const request = indexedDB.open(this.name, VERSION);
      request.onupgradeneeded = () => {
        request.result.createObjectStore('jobs', { keyPath: 'id' });
        request.result.createObjectStore('former', { keyPath: ['id', 'step'] });
      };
      return asked(request);
    })();
    return this.#open;
  }

  async #work(mode: IDBTransactionMode, what: (jobs: IDBObjectStore, former: IDBObjectStore) => void): Promise<void> {
    const work = (await this.#database()).transaction(['jobs', 'former'], mode, { durability: 'strict' });
    try {
      what(work.objectStore('jobs'), work.objectStore('former'));
    } catch (cause) {
      work.abort(); // what was put before goes too
      throw cause;
    }
    await ended(work);
  }

  /// Latest first.
  async all(): Promise<JobRecord[]> {
    const records = await asked<JobRecord[]>((await this.#database()).transaction('jobs').objectStore('jobs').getAll());
    return records.sort((a, b) => b.changed.localeCompare(a.changed));
  }
  async get(id: string): Promise<JobRecord | undefined> {
    return asked((await this.#database()).transaction('jobs').objectStore('jobs').get(id));
  }

  async add(job: Job): Promise<JobRecord> {
    const record: JobRecord = parted({ id: newId(), changed: new Date().toISOString(), step: 0, job, progress: noProgress() });
    await this.save(record);
    return record;
  }
  /// All of them or none.
  addAll = (records: JobRecord[]) => this.#work('readwrite', (jobs) => records.forEach((record) => jobs.put(record)));
  save = (record: JobRecord) => this.#work('readwrite', (jobs) => jobs.put(record));

  /// `next` in place of `record`, as changedTo makes it; what it was can be had back with `undone`.
  changed = (record: JobRecord, next: JobRecord) =>
    this.#work('readwrite', (jobs, former) => {
      former.put({ id: record.id, step: record.step, job: record.job } satisfies Former);
      former.delete(IDBKeyRange.bound([record.id, next.step], [record.id, Infinity])); // no redo past a change
      jobs.put(next);
    });

  async #at(record: JobRecord, step: number): Promise<Change | undefined> {
    const database = await this.#database();
    const there = await asked<Former | undefined>(database.transaction('former').objectStore('former').get([record.id, step]));
    if (!there) return undefined;
    const next: JobRecord = { ...record, job: there.job, step, changed: new Date().toISOString() };
    const keep = () => this.#work('readwrite', (jobs, former) => {
      former.put({ id: record.id, step: record.step, job: record.job } satisfies Former);
      jobs.put(next);
    });
    return { record: next, keep };
  }
  /// The job before its last change, or after the next; undefined if there is none.
  undone = (record: JobRecord) => this.#at(record, record.step - 1);
  redone = (record: JobRecord) => this.#at(record, record.step + 1);

  remove = (id: string) =>
    this.#work('readwrite', (jobs, former) => {
      jobs.delete(id);
      former.delete(IDBKeyRange.bound([id, -Infinity], [id, Infinity]));
    });

  async close() {
    (await this.#open)?.close();
    this.#open = undefined;
  }
}
