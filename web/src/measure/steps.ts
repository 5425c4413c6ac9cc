/// Where a measure of a step stands in the job: with the flight for the usual step, in `steps` for what differs.
import type { Job } from '../core/door';
import { at, put } from '../jobs/place';

export interface FlightAt { stair: number; flight: number }
/// A step's number from the bottom, or the usual one.
export type Which = number | 'usual';
export type Exception = Record<string, unknown>;
type Exceptions = Record<string, Exception>;
/// What this app reads of a flight; core reads all of it.
export interface FlightText extends Record<string, unknown> { name: string; risers: number; steps?: Exceptions }

export const flightPlace = ({ stair, flight }: FlightAt) => `/stairs/${stair}/flights/${flight}`;
export const flightOf = (job: Job, where: FlightAt) => at(job, flightPlace(where)) as FlightText | undefined;

const range = (key: string): [number, number] => {
  const [from, to] = key.split('-').map(Number);
  return [from!, to ?? from!];
};
const named = (from: number, to: number) => (from === to ? `${from}` : `${from}-${to}`);
const keyOf = (steps: Exceptions | undefined, step: number) =>
  Object.keys(steps ?? {}).find((key) => range(key)[0] <= step && step <= range(key)[1]);

export function exception(flight: FlightText, step: Which): Exception | undefined {
  const key = step === 'usual' ? undefined : keyOf(flight.steps, step);
  return key === undefined ? undefined : flight.steps![key];
}

/// Taken whole from the exception or from the flight; a nosing differs member by member.
export function measureOf(flight: FlightText, step: Which, path: string): unknown {
  const own = exception(flight, step);
  const [, head] = path.split('/');
  if (own && head !== 'nosing' && head! in own) return at(own, path);
  // Posts of the usual tread are not on the landing.
  if ((head === 'balusters' || head === 'newels') && step === flight.risers) return undefined;
  // A tread stands in place of going and width, and these in place of a tread.
  if (own && 'tread' in own && (head === 'going' || head === 'width')) return undefined;
  if (own && head === 'tread' && ('going' in own || 'width' in own)) return undefined;
  return at(own, path) ?? at(flight, path);
}

/// Whether the step says it for itself.
export function differs(flight: FlightText, step: Which, path: string): boolean {
  const own = exception(flight, step);
  const [, head] = path.split('/');
  return own !== undefined && (head === 'nosing' ? at(own, path) !== undefined : head! in own);
}

/// The exceptions with one for this step alone, split off a range if need be, in order from the bottom.
function withOwn(steps: Exceptions | undefined, step: number, change: (own: Exception) => Exception): Exceptions {
  const key = keyOf(steps, step);
  const next: [number, number, Exception][] = Object.entries(steps ?? {})
    .filter(([k]) => k !== key)
    .map(([k, own]) => [...range(k), own]);
  if (key !== undefined) {
    const [from, to] = range(key);
    if (from < step) next.push([from, step - 1, steps![key]!]);
    if (step < to) next.push([step + 1, to, steps![key]!]);
  }
  const own = change(key === undefined ? {} : steps![key]!);
  if (Object.keys(own).length) next.push([step, step, own]);
  return Object.fromEntries(next.sort((a, b) => a[0] - b[0]).map(([from, to, e]) => [named(from, to), e]));
}

const same = (a: unknown, b: unknown): boolean =>
  a === b || (typeof a === 'object' && typeof b === 'object' && a !== null && b !== null && JSON.stringify(a) === JSON.stringify(b));

const without = (own: Exception, head: string): Exception => put(own, `/${head}`, undefined);

function changed(flight: FlightText, own: Exception, path: string, value: unknown): Exception {
  const [, head, ...rest] = path.split('/') as [string, string, ...string[]];
  if (head === 'nosing') {
    const next = put(own, path, same(value, at(flight, path)) ? undefined : value);
    return Object.keys(next.nosing as object).length ? next : without(next, head);
  }
  // What is more than a word or a length is said whole: begin from the usual.
  const begun = rest.length && own[head] === undefined ? { ...own, [head]: flight[head] ?? {} } : own;
  let next = put(begun, path, value);
  if (same(next[head], flight[head])) next = without(next, head);
  if (head === 'tread' && 'tread' in next) next = without(without(next, 'going'), 'width');
  if ((head === 'going' || head === 'width') && head in next) next = without(next, 'tread');
  return next;
}

/// `value` undefined takes that member away. A step's value that is the usual one is not kept as an exception.
export function setMeasure(job: Job, where: FlightAt, step: Which, path: string, value: unknown): Job {
  const place = flightPlace(where);
  const flight = flightOf(job, where)!;
  if (step === 'usual') return same(at(flight, path), value) ? job : put(job, place + path, value);
  if (same(measureOf(flight, step, path), value) && exception(flight, step)?.tread === undefined) return job;
  return put(job, `${place}/steps`, withOwn(flight.steps, step, (own) => changed(flight, own, path, value)));
}

/// What the step said for itself in place of `path` is taken away.
export function asUsual(job: Job, where: FlightAt, step: number, path: string): Job {
  const flight = flightOf(job, where)!;
  if (!differs(flight, step, path)) return job;
  const [, head] = path.split('/') as [string, string];
  return put(job, `${flightPlace(where)}/steps`, withOwn(flight.steps, step, (own) => {
    if (head !== 'nosing') return without(own, head);
    const next = put(own, path, undefined);
    return Object.keys(next.nosing as object).length ? next : without(next, head);
  }));
}

/// Another number of risers; exceptions above the last step go.
export function setRisers(job: Job, where: FlightAt, risers: number): Job {
  const flight = flightOf(job, where)!;
  const kept = Object.entries(flight.steps ?? {}).flatMap(([key, own]) => {
    const [from, to] = range(key);
    return from > risers ? [] : [[named(from, Math.min(to, risers)), own] as const];
  });
  return put(put(job, `${flightPlace(where)}/risers`, risers), `${flightPlace(where)}/steps`, Object.fromEntries(kept));
}

export interface Place { where: FlightAt; step: Which; path: string }
/// Of a JSON Pointer into a flight; a range's first step stands for it.
export function placeOf(pointer: string): Place | undefined {
  const found = /^\/stairs\/(\d+)\/flights\/(\d+)(?:\/steps\/(\d+)(?:-\d+)?)?(\/.*)?$/.exec(pointer);
  if (!found) return undefined;
  const [, stair, flight, step, path = ''] = found;
  return { where: { stair: Number(stair), flight: Number(flight) }, step: step ? Number(step) : 'usual', path };
}
export const pointerOf = ({ where, step, path }: Place) => flightPlace(where) + (step === 'usual' ? '' : `/steps/${step}`) + path;

/// Whether a problem is of this step: by its place, or because it names it.
export const concerns = (problem: { where: string; steps?: number[] }, where: FlightAt, step: Which): boolean =>
  pointsInto(problem.where, where, step) ||
  (step !== 'usual' && problem.steps?.includes(step) === true && `${problem.where}/`.startsWith(`${flightPlace(where)}/`));

/// Whether a pointer is to this step, or lies within it.
export function pointsInto(pointer: string, where: FlightAt, step: Which): boolean {
  const found = new RegExp(`^${flightPlace(where)}(?:/steps/([0-9-]+))?(?=/|$)`).exec(pointer);
  if (!found) return false;
  if (step === 'usual' || found[1] === undefined) return (step === 'usual') === (found[1] === undefined);
  const [from, to] = range(found[1]);
  return from <= step && step <= to;
}
