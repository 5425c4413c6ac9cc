/// Several flights, one above another, and where each arrives.
import type { Job } from '../core/door';
import { at, put } from '../jobs/place';
import type { Choice, Field } from './fields';
import { floorsOf } from './floors';
import { flightOf, flightPlace, type FlightAt, type FlightText } from './steps';

export const flightsOf = (job: Job): { where: FlightAt; stair: string; name: string }[] =>
  job.stairs.flatMap((stair, s) => (stair.flights as unknown as FlightText[]).map(({ name }, f) => ({ where: { stair: s, flight: f }, stair: stair.name, name })));

/// One more above the others of its stair: like the one below it in all that is usual.
export function addFlight(job: Job, stair: number, word: string): Job {
  const place = `/stairs/${stair}/flights`;
  const flights = at(job, place) as FlightText[];
  const names = new Set([...flightsOf(job).map(({ name }) => name), ...job.stairs.flatMap((_, s) => floorsOf(job, s).map(({ name }) => name))]);
  let n = flights.length + 1;
  while (names.has(`${word} ${n}`)) n++;
  const { total_rise: _, treads_counted: __, landing: ___, ...like } = flights.at(-1)!;
  return put(job, place, [...flights, { ...like, name: `${word} ${n}`, steps: {} }]);
}
/// A stair keeps one flight at least.
export function removeFlight(job: Job, { stair, flight }: FlightAt): Job {
  const place = `/stairs/${stair}/flights`;
  const flights = at(job, place) as FlightText[];
  return flights.length > 1 ? put(job, place, flights.filter((_, i) => i !== flight)) : job;
}

const joins: readonly Choice[] = [{ word: 'seamed', key: 'measure-seamed' }, { word: 'joined', key: 'measure-joined' }];
const nowhere = 'nowhere'; // no floor has this name: it is none

/// At which of the stair's floors a flight arrives, and how it meets it.
export function arrivalFields(job: Job, where: FlightAt): Field[] {
  const floors = floorsOf(job, where.stair);
  if (!floors.length) return [];
  const arrives = flightOf(job, where)!.landing !== undefined;
  return [
    { path: '/landing', page: '/landing/floor', key: 'measure-arrives', kind: 'choice', choices: [{ word: nowhere, key: 'measure-arrives-nowhere' }, ...floors.map(({ name }): Choice => ({ word: `=${String(name)}`, key: 'measure-own', text: String(name) }))] },
    ...(arrives ? [{ path: '/landing/from_left', key: 'measure-from-left', kind: 'length' } as const, { path: '/landing/joined', key: 'measure-meets', kind: 'choice', choices: joins } as const] : []),
  ];
}
export function arrivalWord(path: string, value: unknown): string | undefined {
  if (path === '/landing') return value === undefined ? nowhere : `=${String((value as { floor: unknown }).floor)}`;
  return path === '/landing/joined' ? (value === true ? 'joined' : 'seamed') : undefined;
}
export function arrive(job: Job, where: FlightAt, path: string, word: string): Job {
  const place = flightPlace(where) + path;
  if (path === '/landing/joined') return put(job, place, word === 'joined');
  if (word === nowhere) return put(job, place, undefined);
  return put(job, place, { ...(at(job, place) as object | undefined), floor: word.slice(1) });
}
