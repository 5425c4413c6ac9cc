/// The goods as the app asks for them: the first roll width of each carpet, its repeat, the cushion, the strip.
import type { Job } from '../core/door';
import { at, put } from '../jobs/place';
import type { Choice, Field } from './fields';

const patterns: readonly Choice[] = [{ word: 'plain', key: 'measure-plain' }, { word: 'set', key: 'measure-set-match' }, { word: 'half-drop', key: 'measure-half-drop' }];
const cushions: readonly Choice[] = [{ word: 'none', key: 'measure-no-cushion' }, { word: 'some', key: 'measure-cushion' }];
const directions: readonly Choice[] = [{ word: 'yes', key: 'measure-directional-yes' }, { word: 'no', key: 'measure-directional-no' }];
const codes: readonly Choice[] = ['IRC', 'IBC', 'UK private', 'none'].map((word) => ({ word, key: `measure-code-${word.toLowerCase().replace(' ', '-')}` as Choice['key'] }));

const read = (path: string, key: Field['key'], number?: number): Field => ({ path, key, kind: 'length', ...(number !== undefined && { number }) });

export function goodsFields(job: Job): Field[] {
  const several = job.carpets.length > 1;
  return [
    ...job.carpets.flatMap((carpet, i): Field[] => {
      const base = `/carpets/${i}`, number = several ? i + 1 : undefined;
      return [
        ...carpet.widths.map((_, w) => read(`${base}/widths/${w}`, 'measure-roll-width', number)),
        read(`${base}/roll_length`, 'measure-roll-length', number), { ...read(`${base}/longest_in_hand`, 'measure-in-hand', number), optional: true }, read(`${base}/sold_in`, 'measure-sold-in', number),
        read(`${base}/thickness`, 'measure-carpet-thickness', number), read(`${base}/backing`, 'measure-backing', number),
        { path: `${base}/pattern`, page: `${base}/pattern/match`, key: 'measure-pattern', kind: 'choice', choices: patterns, ...(number !== undefined && { number }) },
        { path: `${base}/directional`, key: 'measure-directional', kind: 'choice', choices: directions, ...(number !== undefined && { number }) },
        ...(carpet.pattern ? [read(`${base}/pattern/width`, 'measure-repeat-width', number), read(`${base}/pattern/length`, 'measure-repeat-length', number)] : []),
      ];
    }),
    { path: '/cushion', page: '/cushion/some', key: 'measure-cushion', kind: 'choice', choices: cushions },
    ...(job.cushion === 'none' ? [] : [read('/cushion/thickness', 'measure-cushion-thickness'), read('/cushion/roll_width', 'measure-cushion-width'), read('/cushion/roll_length', 'measure-cushion-length')]),
    read('/strip/stock_length', 'measure-strip'),
    read('/finished_floors/foot', 'measure-floor-foot'), read('/finished_floors/landing', 'measure-floor-landing'),
    { path: '/code', key: 'measure-code', kind: 'choice', choices: codes },
  ];
}

export function goodsWord(field: Field, value: unknown): string | undefined {
  if (field.path === '/cushion') return value === 'none' ? 'none' : 'some';
  if (field.path.endsWith('/directional')) return value === false ? 'no' : 'yes';
  if (!field.path.endsWith('/pattern')) return typeof value === 'string' ? value : undefined;
  const match = (value as { match?: unknown } | undefined)?.match;
  return value === undefined ? 'plain' : typeof match === 'string' ? match : undefined;
}

/// One more roll width, to be read, or one less: a carpet has one at least.
export const addWidth = (job: Job, i: number): Job => put(job, `/carpets/${i}/widths`, [...job.carpets[i]!.widths, '']);
export const removeWidth = (job: Job, i: number): Job =>
  job.carpets[i]!.widths.length > 1 ? put(job, `/carpets/${i}/widths`, job.carpets[i]!.widths.slice(0, -1)) : job;

/// One more carpet, like `begun`, with an id and a name of its own.
export function addCarpet(job: Job, begun: Job['carpets'][number], word: string): Job {
  const taken = new Set(job.carpets.flatMap(({ id, name }) => [id, name]));
  let n = job.carpets.length + 1;
  while (taken.has(`carpet-${n}`) || taken.has(`${word} ${n}`)) ++n;
  return put(job, '/carpets', [...job.carpets, { ...begun, id: `carpet-${n}`, name: `${word} ${n}` }]);
}
/// A flight or floor is of it.
export const inUse = (job: Job, id: string): boolean =>
  job.stairs.some((stair) => [...stair.flights, ...(stair.floors ?? [])].some((part) => (part as { carpet?: unknown }).carpet === id));
export const removeCarpet = (job: Job, i: number): Job =>
  job.carpets.length < 2 || inUse(job, job.carpets[i]!.id) ? job : put(job, '/carpets', job.carpets.filter((_, k) => k !== i));

export const withCushion = (job: Job, begun: unknown): Job => {
  if (begun === undefined) return put(job, '/cushion', 'none');
  return job.cushion === 'none' ? put(job, '/cushion', begun) : job;
};
/// Goods have a direction unless the job says that they have none.
export const withDirection = (job: Job, path: string, word: string): Job => put(job, path, word === 'no' ? false : undefined);
/// A repeat's sizes are to be measured; they stay when only the match changes.
export const withPattern = (job: Job, path: string, word: string): Job =>
  put(job, path, word === 'plain' ? undefined : { width: '', length: '', ...(at(job, path) as object | undefined), match: word });
