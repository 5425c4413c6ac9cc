/// Core's sentences in Spanish: every one the app can show, over examples, jobs at random and jobs gone wrong; and none besides.
import { readFileSync, readdirSync } from 'node:fs';
import { beforeAll, describe, expect, it } from 'vitest';
import { start } from '@wasm/treadfold.mjs';
import type { Job, Plan, Problem, Recut } from '../core/door';
import { phrases } from '../../tools/phrases.mjs';
import { randomJob } from '../../../tests/wasm/random_job.mjs';
import { read } from '../jobs/exchange';
import { at, put } from '../jobs/place';
import catalogue from '../../../core/text/rooms.es.json';
import { matcher } from './matcher';

const root = new URL('../../../', import.meta.url).pathname;
const said = matcher(catalogue);
const examples = readdirSync(`${root}examples`).filter((name) => name.endsWith('.json'))
  .flatMap((name) => {
    const found = read(readFileSync(`${root}examples/${name}`, 'utf8'));
    return 'job' in found ? [found.job] : [];
  });

/// Every sentence of core's that the app can show of a plan.
const shownOf = (plan: Plan) => [
  ...plan.pieces.map(({ proof }) => proof.reason), plan.quote.deposit_name,
  ...plan.layouts.flatMap(({ rolls }) => rolls).flatMap((roll) => [...(roll.remnant ? [] : [roll.stock]), ...roll.knife_order.map(({ frees }) => frees)]),
].filter(Boolean);
const shownOfProblems = (problems: Problem[]) => problems.flatMap(({ found, expected }) => [found, expected]);

let core: Awaited<ReturnType<typeof start>>;
beforeAll(async () => void (core = await start(readFileSync(`${root}build/wasm/treadfold.wasm`))));

/// What no Spanish is known for, by the sentence. Names in the job stand as they are.
function unsaid(job: object): string[] {
  const { planned, json } = core.plan(JSON.stringify(job));
  const answer = JSON.parse(json) as Plan;
  return unsaidOf([...(planned ? shownOf(answer) : []), ...shownOfProblems(answer.problems)], JSON.stringify(job));
}
function unsaidOf(sentences: string[], own: string): string[] {
  return sentences.flatMap((sentence) => {
    seen.add(sentence);
    const { unknown, ways } = said(sentence);
    const foreign = unknown.filter((words) => !own.includes(JSON.stringify(words)));
    return [...foreign.map((words) => `${words} ← ${sentence}`), ...(ways.length > 1 ? [`${sentence} → ${ways.join(' | ')}`] : [])];
  });
}
const seen = new Set<string>();
const allUnsaid = (jobs: Iterable<object>) => [...new Set([...jobs].flatMap(unsaid))];

/// Every sentence of core's that the app can show of a recut.
const shownOfRecut = ({ carpets, problems }: Recut) => [
  ...shownOfProblems(problems), ...carpets.flatMap(({ why_not, ways }) => [why_not, ...ways.flatMap(({ words, parts }) =>
    [words, ...parts.flatMap(({ of, layout }) => [of, layout.stock, ...layout.knife_order.map(({ frees }) => frees)])])]),
].filter(Boolean);

/// Each piece in turn spoiled when all before it are cut: as planned, on a roll that came short, with some of it sound; by turns.
function* cuttings(job: Job): Generator<object> {
  for (const { carpet, rolls } of (JSON.parse(core.plan(JSON.stringify(job)).json) as Plan).layouts)
    for (const { stock, placements } of rolls) {
      const pieces = placements.map(({ piece }) => piece);
      for (const [i, piece] of pieces.entries()) {
        const befell = [
          { spoiled: [piece], of: stock, roll_length: '4 ft', flaws: [{ from: '1 ft', to: '14 in' }] },
          { spoiled: [{ piece, sound_width: '1 ft', sound_length: '1 ft' }] },
          { spoiled: [piece] },
        ];
        yield { ...job, cutting: [{ carpet, cut: pieces.slice(0, i), ...befell[i % befell.length] }] };
      }
    }
}

function pointers(value: unknown, here = ''): string[] {
  if (typeof value !== 'object' || value === null) return [here];
  return [...(here ? [here] : []), ...Object.entries(value).flatMap(([key, inner]) => pointers(inner, `${here}/${key.replaceAll('~', '~0').replaceAll('/', '~1')}`))];
}

/// What may be wrong at a place of a job. `kind`: variants of one kind are as good as one another; `much`: it changes most of what it
/// bears on.
interface Variant { kind: string; much?: boolean; job: object }

/// Dropped, or with something that does not belong there.
const garbled = (job: object, pointer: string): Variant[] => [
  ...[undefined, null, 'x', -1, 1e9, [], {}].map((wrong) => ({ kind: String(JSON.stringify(wrong)), much: wrong === undefined, job: put(job, pointer, wrong) })),
  ...(typeof at(job, pointer) === 'object' ? [{ kind: 'strange', job: put(job, `${pointer}/strange`, 1) }] : []),
];
/// A length or number made smaller and larger: some break a limit, some only the stair.
function mismeasured(job: object, pointer: string): Variant[] {
  const value = at(job, pointer);
  if (typeof value !== 'number' && (typeof value !== 'string' || !/^\d/.test(value))) return [];
  const times = (factor: number) =>
    typeof value === 'number' ? Math.round(value * factor) : value.replace(/^[\d.]+/, (n) => String(Math.round(Number(n) * factor * 100) / 100));
  return [0, 0.7, 1.06, 5].map((factor) => ({ kind: factor && factor < 2 ? 'near' : String(factor), much: !factor || factor > 2, job: put(job, pointer, times(factor)) }));
}

/// What reading alone finds. One fault more keeps core from planning what else reads well, and that is what takes its time.
const faults = (job: object) =>
  (JSON.parse(core.plan(JSON.stringify({ ...job, strange: 1 })).json) as Plan).problems.filter(({ where }) => where !== '/strange');

/// The same place of whichever flight, step, rate …
const like = (pointer: string) => pointer.replace(/\/\d[\d-]*(?=\/|$)/g, '/*');

/// Every variant of every place of every example is read. Of those that read well are planned: what is much, on a stair, in the
/// backing that every fold depends on, or a rate, in every example; of the rest, which leaves the pieces nearly as they are, one of
/// each kind and like place, the first and the second that there are by turns.
function unsaidOfVariants(variants: (job: object, pointer: string) => Variant[]): string[] {
  const missing: string[] = [], well = new Map<string, object[]>();
  examples.forEach((example, n) => pointers(example).forEach((pointer) => variants(example, pointer).forEach(({ kind, much, job }) => {
    const found = faults(job);
    missing.push(...unsaidOf(shownOfProblems(found), JSON.stringify(job)));
    if (found.some(({ severity }) => severity === 'error')) return;
    const own = much && /^\/stairs|\/backing$|^\/terms\/rates\/\d+$/.test(pointer);
    const key = own ? `${n} ${pointer} ${kind}` : `${like(pointer)} ${kind}`;
    well.set(key, [...(well.get(key) ?? []), job]);
  })));
  [...well.values()].forEach((jobs, turn) => missing.push(...unsaid(jobs[turn % Math.min(2, jobs.length)]!)));
  return [...new Set(missing)];
}

describe('core in Spanish', () => {
  it('says all of the examples, by every code', () => expect(allUnsaid(examples.flatMap((job) => ['IRC', 'IBC', 'UK private'].map((code) => ({ ...job, code }))))).toEqual([]), 600_000);
  it('says all of 200 jobs at random', () => expect(allUnsaid(Array.from({ length: 200 }, (_, n) => JSON.parse(randomJob(n)) as object))).toEqual([]), 600_000);
  it('says all of jobs gone wrong', () => expect(unsaidOfVariants(garbled)).toEqual([]), 600_000);
  it('says all of recuts of the examples', () => {
    const missing = examples.flatMap((job) => [...cuttings(job)]).flatMap((job) => unsaidOf(shownOfRecut(JSON.parse(core.recut(JSON.stringify(job)).json) as Recut), JSON.stringify(job)));
    expect([...new Set(missing)]).toEqual([]);
  }, 600_000);
  it('says all of jobs mismeasured', () => expect(unsaidOfVariants(mismeasured)).toEqual([]), 600_000);
});

describe('the catalogue', () => {
  const said = phrases();
  it('has nothing that core does not say', () => {
    const all = new Set([...said.values()].flatMap((inOne) => [...inOne]));
    expect(Object.keys(catalogue).filter((format) => !all.has(format))).toEqual([]);
  });

  it('has every value of each format once', () => {
    for (const [english, spanish] of Object.entries(catalogue)) {
      const places = english.match(/\{\d*(:[^{}\s]*)?\}/g) ?? [];
      expect((spanish.match(/\{\d\}/g) ?? []).sort(), english).toEqual(places.map((_, n) => `{${n}}`));
    }
  });

  it('has every phrase of several words in the rooms that find fault with a job', () => {
    const rooms = /^(?:units|measure|job|cut\/(?:layout|stretch|recover)|plan\.cpp|recut\.cpp|cover\/(?:handling|refold|starter_proof|runner_proof|folded_check|folded_runner_proof)|price\/quote)/;
    const notShown = new Set([
      'line {}, column {}', 'something that is not JSON', '; expected ', 'number overflow', 'a number too large to hold', 'a number within reason',
      '{} at {}', 'byte 0x{:02X} at {}', 'text in UTF-8', // of a file that is no JSON: the app hands over none
      'a kind of step belongs to a rate per step', 'an area of what is not said', 'binding has no area; it is measured by length',
      'strip has no area; it is measured by length', 'a length of what is not said', 'net carpet has no length; it is measured by area',
      'steps, hours and lumps do not measure goods', ' (not counted: {})', '{} {} on materials', 'Tax {}', 'sq yd', // on the quote's sheet
      'tuck into the crotch', 'between relief cuts', 'nothing to buy', // on other sheets
      'the job file', '{}: found {}, expected {}.', // of sentences that the app puts together itself
      'add the upgrade from the version before, and a test with an old job', // to us
      'UK private', 'Approved Document K', '{}{} cm', '{}{} mm', // the same in Spanish
    ]);
    const missing = [...said].filter(([name]) => rooms.test(name) && !name.endsWith('new_job.cpp')).flatMap(([, inOne]) => [...inOne])
      .filter((phrase) => /\S \S/.test(phrase) && /[a-z]{2}/i.test(phrase) && !(phrase in catalogue) && !notShown.has(phrase));
    expect(missing).toEqual([]);
  });
});
