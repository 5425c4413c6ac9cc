/// What each choice would come to, planned beside the open job in a core of its own.
import { Core, type Job, type Problem } from '../core/door';
import { figures, type Figures } from './figures';

/// `figures` is missing where the changed job cannot be planned; the problems say why.
export interface Outcome { figures?: Figures; problems: Problem[] }
export interface Asked { id: string; job: Job }

const KEPT = 300;

export class Compare {
  found = $state.raw<Record<string, Outcome>>({});
  #core = new Core();
  #known = new Map<string, Outcome>(); // by the job's text: the way back costs nothing
  #round = 0;
  #closed = false;

  async #outcome(job: Job): Promise<Outcome> {
    const text = JSON.stringify(job);
    const known = this.#known.get(text);
    if (known) return known;
    let outcome: Outcome;
    try {
      const { plan, problems } = await this.#core.plan(job);
      outcome = { figures: plan && figures(plan), problems };
    } catch (cause) {
      if (this.#closed) return { problems: [] };
      return { problems: [{ severity: 'error', where: '', found: '', expected: '', sentence: (cause as Error).message }] };
    }
    if (this.#known.size >= KEPT) this.#known.clear();
    this.#known.set(text, outcome);
    return outcome;
  }

  /// Plans one after another; a later call puts an end to an earlier one's.
  async ask(asked: Asked[]) {
    const round = ++this.#round;
    this.found = Object.fromEntries(asked.flatMap(({ id, job }) => {
      const known = this.#known.get(JSON.stringify(job));
      return known ? [[id, known]] : [];
    }));
    for (const { id, job } of asked) {
      if (this.found[id]) continue;
      const outcome = await this.#outcome(job);
      if (round !== this.#round || this.#closed) return;
      this.found = { ...this.found, [id]: outcome };
    }
  }

  close() {
    this.#closed = true;
    this.#core.close();
  }
}

/// The last choice that was taken in a job, and what the job came to before it.
export interface Taken { step: number; id: string; words: string; before: Figures }
export const taken = new Map<string, Taken>();
