/// Where a problem of the core is to be mended: a place in this part of the app.
import type { Problem } from '../core/door';
import { link } from '../app/route.svelte';
import { placeOf, type FlightAt, type Which } from './steps';

export const flightWord = ({ stair, flight }: FlightAt) => `${stair}.${flight}`;
export function flightFrom(word: string | undefined): FlightAt | undefined {
  const found = /^(\d+)\.(\d+)$/.exec(word ?? '');
  return found ? { stair: Number(found[1]), flight: Number(found[2]) } : undefined;
}
export const stepLink = (id: string, where: FlightAt, step: Which, path = '') =>
  link(id, 'measure', flightWord(where), String(step), ...path.split('/').filter(Boolean));

export function problemLink(id: string, problem: Problem): string | undefined {
  const place = placeOf(problem.where);
  if (place) return stepLink(id, place.where, place.step);
  const floor = /^\/stairs\/(\d+)\/floors(?:\/(\d+))?/.exec(problem.where);
  if (floor) return link(id, 'measure', 'floors', ...(floor[2] ? [floor[1]!, floor[2]] : []));
  if (/^\/(carpets|cushion|strip|finished_floors|site)/.test(problem.where)) return link(id, 'measure', 'goods');
  return undefined;
}
