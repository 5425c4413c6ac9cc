/// The job that is open: every change is kept, then planned, and what came of it can be looked at.
import { Core, type Job, type Plan, type Problem } from '../core/door';
import type { Draft, JobRecord } from './record';
import { Store } from './store';

export const store = new Store();

export class Session {
  record = $state.raw<JobRecord>() as JobRecord;
  plan = $state.raw<Plan>(); // the last that could be made
  problems = $state.raw<Problem[]>([]);
  planning = $state(false);
  stopped = $state<string>(); // why the core gave up
  fault = $state<string>(); // why the last change could not be kept
  planned = $state(0); // grows with every new plan
  readonly core = new Core();
  #wanted?: Job;

  constructor(record: JobRecord) {
    this.record = record;
    void this.#replan(record.job);
  }
  get job(): Job {
    return this.record.job;
  }

  /// Plans the latest job; those asked for in between are passed over.
  async #replan(job: Job) {
    this.#wanted = job;
    if (this.planning) return;
    this.planning = true;
    while (this.#wanted) {
      const next: Job = this.#wanted;
      this.#wanted = undefined;
      try {
        const { plan, problems } = await this.core.plan(next);
        this.problems = problems;
        if (plan) this.plan = plan;
        this.stopped = undefined;
      } catch (cause) {
        this.stopped = (cause as Error).message;
      }
      ++this.planned;
    }
    this.planning = false;
  }

  /// Changes are made one after another, so that none is lost.
  #last: Promise<unknown> = Promise.resolve();
  #queue(what: () => Promise<JobRecord | undefined>): Promise<boolean> {
    const next = this.#last.then(async () => {
      const before = this.record.job;
      try {
        const record = await what();
        if (!record) return false;
        this.record = record;
        this.fault = undefined;
        if (record.job !== before) void this.#replan(record.job);
        return true;
      } catch (cause) {
        this.fault = (cause as Error).message;
        return false;
      }
    });
    this.#last = next;
    return next;
  }

  edit = (change: (job: Job) => Job) =>
    this.#queue(async () => {
      const job = change(this.record.job);
      return job === this.record.job ? undefined : store.changed(this.record, job);
    });
  undo = () => this.#queue(() => store.undone(this.record));
  redo = () => this.#queue(() => store.redone(this.record));
  /// What is no part of the job: ticks, a half-typed measure, the signature.
  note = (change: Partial<Pick<JobRecord, 'progress' | 'draft' | 'signature' | 'aside'>>) =>
    this.#queue(async () => {
      const record = { ...this.record, ...change };
      await store.save(record);
      return record;
    });
  draft = (draft: Draft | undefined) => this.note({ draft });
  close = () => this.core.close();
}
