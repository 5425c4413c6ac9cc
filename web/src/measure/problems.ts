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

/// Where a place in the job is measured.
export function placeLink(id: string, pointer: string): string | undefined {
  const place = placeOf(pointer);
  if (place) return stepLink(id, place.where, place.step, place.path);
  const floor = /^\/stairs\/(\d+)\/floors(?:\/(\d+)(\/.*)?)?$/.exec(pointer);
  if (floor) return link(id, 'measure', 'floors', ...(floor[2] ? [floor[1]!, floor[2], ...(floor[3] ?? '').split('/').filter(Boolean)] : []));
  if (/^\/(allowances|tolerances)(\/|$)/.test(pointer)) return link(id, 'measure', 'allowances', ...pointer.split('/').slice(2).length ? pointer.split('/').filter(Boolean) : []);
  return /^\/(carpets|cushion|strip|finished_floors|site|code)/.test(pointer) ? link(id, 'measure', 'goods', ...pointer.split('/').filter(Boolean)) : undefined;
}
/// To the page of it rather than to its pad.
export function problemLink(id: string, { where }: Problem): string | undefined {
  const page = /^(\/stairs\/\d+\/(?:flights\/\d+(?:\/steps\/[\d-]+)?|floors\/\d+))(?:\/|$)/.exec(where);
  if (page) return placeLink(id, page[1]!);
  return placeLink(id, where) && link(id, 'measure', /^\/(allowances|tolerances)/.test(where) ? 'allowances' : 'goods');
}
