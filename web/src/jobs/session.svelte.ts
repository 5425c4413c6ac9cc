/// The job that is open: every change is kept, then planned, and what came of it can be looked at.
import { Core, type Job, type Plan, type Problem } from '../core/door';
import { seeded } from '../cut/carry';
import { reader } from '../text/text.svelte';
import { parted } from './exchange';
import { changedTo, type Draft, type JobRecord } from './record';
import { Store, type Change } from './store';

export const store = new Store();

/// Jobs of which changes could not be kept, for the device has no room: as they are now, and what is to be done to keep them so, in
/// order. They stand here, over the screens of other jobs too, until it can be done.
const unkept = new Map<string, { record: JobRecord; works: Change['keep'][] }>();

async function keep(record: JobRecord, ...more: Change['keep'][]) {
  const works = [...(unkept.get(record.id)?.works ?? []), ...more];
  try {
    for (; works.length; works.shift()) await works[0]!();
    unkept.delete(record.id);
  } catch (cause) {
    unkept.set(record.id, { record, works });
    throw cause;
  }
}
export async function keepUnkept() {
  for (const { record } of [...unkept.values()]) await keep(record);
}
export const forget = (id: string) => unkept.delete(id);
export const lastOf = async (id: string) => unkept.get(id)?.record ?? (await store.get(id));
export const lastOfAll = async () => (await store.all()).map((record) => unkept.get(record.id)?.record ?? record);
addEventListener('beforeunload', (event) => { if (unkept.size) event.preventDefault(); });

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
    this.record = parted(record);
    if (unkept.has(record.id)) void this.note({}); // it may find room now
    void this.#replan(this.record.job);
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
        const { plan, problems } = await this.core.plan({ language: reader.language, ...next }); // of the sheets, if the job names none
        this.problems = problems;
        if (plan) this.plan = plan;
        if (plan && this.record.brought && !this.record.begun) await this.#begin(plan);
        this.stopped = undefined;
      } catch (cause) {
        this.stopped = (cause as Error).message;
      }
      ++this.planned;
    }
    this.planning = false;
  }

  /// Changes are made one after another, so that none is lost. One that cannot be kept is made all the same, and kept with the next
  /// that can.
  #last: Promise<unknown> = Promise.resolve();
  #queue(what: () => Change | undefined | Promise<Change | undefined>): Promise<boolean> {
    const next = this.#last.then(async () => {
      let made: Change | undefined;
      try {
        made = await what();
        if (!made) return false;
        await keep(made.record, made.keep);
        this.fault = undefined;
      } catch (cause) {
        this.fault = (cause as Error).message || (cause as Error).name;
        if (!made) return false;
      }
      const before = this.record.job;
      this.record = made.record;
      if (made.record.job !== before) void this.#replan(made.record.job);
      return true;
    });
    this.#last = next;
    return next;
  }

  edit = (change: (job: Job) => Job) =>
    this.#queue(() => {
      const job = change(this.record.job);
      if (job === this.record.job) return undefined;
      const record = changedTo(this.record, job);
      const was = this.record;
      return { record, keep: () => store.changed(was, record) };
    });
  undo = () => this.#queue(() => store.undone(this.record));
  redo = () => this.#queue(() => store.redone(this.record));
  /// What is no part of the job: ticks, a half-typed measure, the signature.
  note = (change: Partial<Pick<JobRecord, 'progress' | 'draft' | 'signature' | 'aside'>>) =>
    this.#queue(() => {
      const record = { ...this.record, ...change };
      return { record, keep: () => store.save(record) };
    });
  /// What a file said of its cutting becomes ticks, now that its pieces are known.
  #begin = (plan: Plan) =>
    this.#queue(() => {
      const record: JobRecord = { ...this.record, begun: true, progress: seeded(this.record.progress, this.record.brought!, plan) };
      return { record, keep: () => store.save(record) };
    });
  draft = (draft: Draft | undefined) => this.note({ draft });
  close = () => this.core.close();
}
