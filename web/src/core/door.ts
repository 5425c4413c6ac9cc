/// The page's side of the core: every answer is a promise. What core computes is drawn and never computed again.
import type { Job } from './generated/job';
import type { Plan, Problem } from './generated/plan';
import type { Fold } from './generated/fold';
import type { Recut } from './generated/recut';
import type { Call, Reply } from './worker';

export type { Job, Plan, Problem, Fold, Recut };
export interface NewJob { risers?: number; units?: Job['units']; left?: Side; right?: Side }
export type Side = 'wall' | 'skirt' | 'open';
/// `plan` is missing where the job cannot be read as one; the problems say why.
export interface Answer { plan?: Plan; problems: Problem[] }

export class Core {
  #worker?: Worker;
  #next = 0;
  #waiting = new Map<number, { done: (answer: unknown) => void; failed: (cause: Error) => void }>();

  #start(): Worker {
    const worker = new Worker(new URL('./worker.ts', import.meta.url), { type: 'module' });
    worker.onmessage = ({ data }: MessageEvent<Reply>) => {
      const waiting = this.#waiting.get(data.id);
      this.#waiting.delete(data.id);
      if (data.stopped === undefined) waiting?.done(data.answer);
      else {
        this.#stop(new Error(data.stopped));
        waiting?.failed(new Error(data.stopped));
      }
    };
    worker.onerror = () => this.#stop(new Error('the core could not be started'));
    return worker;
  }

  /// A stopped core is thrown away; the next call starts another.
  #stop(cause: Error) {
    this.#worker?.terminate();
    this.#worker = undefined;
    for (const { failed } of this.#waiting.values()) failed(cause);
    this.#waiting.clear();
  }

  #call<T>(call: Call, ...given: unknown[]): Promise<T> {
    this.#worker ??= this.#start();
    const id = ++this.#next;
    return new Promise<T>((done, failed) => {
      this.#waiting.set(id, { done: done as (answer: unknown) => void, failed });
      this.#worker!.postMessage({ id, call, given });
    });
  }

  async newJob(choices: NewJob): Promise<Job> {
    const text = await this.#call<string | undefined>('newJob', choices);
    if (text === undefined) throw new Error('a choice that no starting job has');
    return JSON.parse(text) as Job;
  }

  async plan(job: Job): Promise<Answer> {
    const { planned, json } = await this.#call<{ planned: boolean; json: string }>('plan', JSON.stringify(job));
    const answer = JSON.parse(json);
    return planned ? { plan: answer as Plan, problems: (answer as Plan).problems } : { problems: answer.problems as Problem[] };
  }

  /// Of a job with "cutting": the rest on what is left. The plan held stays.
  async recut(job: Job): Promise<Recut> {
    const { planned, json } = await this.#call<{ planned: boolean; json: string }>('recut', JSON.stringify(job));
    const answer = JSON.parse(json);
    return planned ? answer : { treadfold_recut: 1, carpets: [], problems: answer.problems };
  }

  /// A file of its sheet, recut.pdf or recut.csv; none if the rest cannot be planned.
  recutFile = (job: Job, name: string) => this.#call<Uint8Array<ArrayBuffer> | undefined>('recutFile', JSON.stringify(job), name);

  /// Of the job planned last, as are all below.
  async fold(): Promise<Fold | undefined> {
    const json = await this.#call<string | undefined>('fold');
    return json === undefined ? undefined : (JSON.parse(json) as Fold);
  }
  close = () => this.#stop(new Error('closed'));
  files = () => this.#call<string[]>('files');
  templates = (piece: string, side: 'backing' | 'pile') => this.#call<string[] | undefined>('templates', piece, side);
  file = (name: string) => this.#call<Uint8Array<ArrayBuffer> | undefined>('file', name);
}
