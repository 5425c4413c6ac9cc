/// What can be chosen for a job, each choice as the change it makes to the job. What a choice takes out of the job (a remnant, the
/// cushion) is laid aside, so that it can be put back.
import type { Job } from '../core/door';
import type { Aside } from '../jobs/record';
import { at, put } from '../jobs/place';

export type GroupKey = 'cover' | 'join' | 'width' | 'laid' | 'remnant' | 'cushion' | 'pattern' | 'motif';
export interface Option {
  key: string; // within its group
  given?: Record<string, string | number>; // for its words
  now: boolean;
  change: (job: Job) => Job;
  aside?: Aside; // what this choice takes out
}
export interface Group { key: GroupKey; of: string; id: string; options: Option[] } // of: the carpet's name, where there are several

export interface FlightPlace { pointer: string; name: string }
type Loose = Record<string, unknown>;

export const flights = (job: Job): FlightPlace[] =>
  job.stairs.flatMap((stair, s) =>
    stair.flights.map((flight, f) => ({ pointer: `/stairs/${s}/flights/${f}`, name: String((flight as Loose).name) })));

const MOST_JOINED = 6;

function ofFlights(job: Job, chosen: FlightPlace[]): Group[] {
  const all = (key: string, usual: unknown, value: unknown) => chosen.every(({ pointer }) => (at(job, `${pointer}/${key}`) ?? usual) === value);
  const set = (key: string, value: unknown) => (given: Job) =>
    chosen.reduce((next, { pointer }) => put(next, `${pointer}/${key}`, value), given);
  const option = (key: string, usual: unknown, value: string | number): Option =>
    ({ key: String(value), given: { n: value }, now: all(key, usual, value), change: set(key, value) });
  const most = Math.min(MOST_JOINED, Math.max(...chosen.map(({ pointer }) => Number(at(job, `${pointer}/risers`)))));
  const joins = Array.from({ length: most }, (_, i) => option('join', 1, i + 1));
  const limits = chosen.map(({ pointer }) => at(job, `${pointer}/join/at_most`)), limit = limits[0];
  const left = typeof limit === 'number' && limits.every((each) => each === limit); // to the layout already
  const upTo = left ? limit : most;
  if (left || most > 1) joins.push({ key: 'best', given: { n: upTo }, now: left, change: set('join', { at_most: upTo }) });
  return [
    { key: 'cover', of: '', id: 'cover', options: ['waterfall', 'wrapped'].map((style) => option('cover', undefined, style)) },
    { key: 'join', of: '', id: 'join', options: joins },
  ];
}

/// With it or without: `value` is what the job has or what was laid aside.
function withOrWithout(key: GroupKey, of: string, id: string, pointer: string, there: boolean, value: unknown, none: unknown): Group {
  return {
    key, of, id,
    options: [
      { key: 'with', now: there, change: (job) => put(job, pointer, value) },
      { key: 'without', now: !there, change: (job) => put(job, pointer, none), aside: there ? { [id]: value } : undefined },
    ],
  };
}

function ofCarpet(job: Job, index: number, of: string, aside: Aside): Group[] {
  const carpet = job.carpets[index]!, pointer = `/carpets/${index}`, groups: Group[] = [];
  const widths = carpet.widths as (number | string)[];
  const id = (what: string) => `${what}:${carpet.id}`;
  const known = (aside[id('width')] as typeof widths | undefined) ?? widths;
  const offered = [...known, ...widths.filter((width) => !known.includes(width))];
  const is = (list: typeof widths) => list.length === widths.length && list.every((width) => widths.includes(width));
  const widthOption = (key: string, list: typeof widths, width?: number | string): Option => ({
    key, given: width === undefined ? undefined : { width: typeof width === 'number' ? `${width} ${job.units}` : width },
    now: is(list), change: (given) => put(given, `${pointer}/widths`, list), aside: { [id('width')]: offered },
  });
  if (offered.length > 1)
    groups.push({
      key: 'width', of, id: id('width'),
      options: [widthOption('all', offered), ...offered.map((width, i) => ({ ...widthOption('one', [width], width), key: `one-${i}` }))],
    });
  const laid = carpet.laid ?? 'straight';
  groups.push({
    key: 'laid', of, id: id('laid'),
    options: ['straight', 'close', 'outlines'].map((key) => ({ key, now: laid === key, change: (given) => put(given, `${pointer}/laid`, key === 'straight' ? undefined : key) })),
  });
  const remnants = carpet.remnants?.length ? carpet.remnants : aside[id('remnant')];
  if (remnants) groups.push(withOrWithout('remnant', of, id('remnant'), `${pointer}/remnants`, !!carpet.remnants?.length, remnants, undefined));
  const pattern = carpet.pattern ?? aside[id('pattern')];
  if (pattern) groups.push(withOrWithout('pattern', of, id('pattern'), `${pointer}/pattern`, !!carpet.pattern, pattern, undefined));
  const motif = carpet.pattern?.motif ?? 'nosings';
  if (carpet.pattern)
    groups.push({
      key: 'motif', of, id: id('motif'),
      options: ['nosings', 'flows'].map((key) => ({ key, now: motif === key, change: (given) => put(given, `${pointer}/pattern/motif`, key === 'nosings' ? undefined : key) })),
    });
  return groups;
}

/// `chosen`: the flights that cover and join are chosen for, one or more.
export function choices(job: Job, chosen: FlightPlace[], aside: Aside = {}): Group[] {
  const inUse = new Set(job.stairs.flatMap((stair) => [...stair.flights, ...(stair.floors ?? [])].map((part) => (part as Loose).carpet)));
  const carpets = job.carpets.map((carpet, index) => ({ carpet, index })).filter(({ carpet }) => inUse.has(carpet.id));
  const groups = chosen.length ? ofFlights(job, chosen) : [];
  for (const { carpet, index } of carpets) groups.push(...ofCarpet(job, index, carpets.length > 1 ? carpet.name : '', aside));
  const cushion = job.cushion !== 'none' ? job.cushion : aside.cushion;
  if (cushion) groups.push(withOrWithout('cushion', '', 'cushion', '/cushion', job.cushion !== 'none', cushion, 'none'));
  return groups;
}
