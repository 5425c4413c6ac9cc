/// Landings and floors: square ones by width and length, others by sides and diagonals or by offsets from the front.
import type { Job } from '../core/door';
import { at, put } from '../jobs/place';
import { margins, around, dimension, Fit, pathOf, type Dimension } from './draft';
import { carpetFields, type Choice, type Field } from './fields';
import type { Pt } from './outline';
import type { Picture } from './picture';
import { either } from './treads';

export type FloorShape = 'square' | 'sides' | 'corners';
type Floor = Record<string, unknown>;
const shapes: readonly Choice[] = [
  { word: 'square', key: 'measure-floor-square' }, { word: 'sides', key: 'measure-floor-sides' }, { word: 'corners', key: 'measure-floor-corners' },
];
export const floorsOf = (job: Job, stair: number) => (at(job, `/stairs/${stair}/floors`) as Floor[] | undefined) ?? [];
export const floorShape = (floor: Floor): FloorShape => ('corners' in floor ? 'corners' : 'width' in floor || 'length' in floor ? 'square' : 'sides');
export const cornersOf = (floor: Floor) => (Array.isArray(floor.corners) ? (floor.corners as Floor[]) : []);

/// Its name and carpet stay, its measures are to be taken.
export function begunFloor(shape: FloorShape, { name, carpet, front }: Floor): Floor {
  const kept = { name, carpet };
  if (shape === 'square') return { ...kept, width: front ?? '', length: '' };
  return { ...kept, ...(front !== undefined && { front }), ...(shape === 'corners' && { corners: [{}, {}] }) };
}

/// Named apart from every flight and floor there is.
export function addFloor(job: Job, stair: number, word: string): Job {
  const names = new Set(job.stairs.flatMap((s) => [...(s.flights as unknown as Floor[]), ...((s.floors ?? []) as unknown as Floor[])].map(({ name }) => name)));
  let name = word;
  for (let n = 2; names.has(name); n++) name = `${word} ${n}`;
  return put(job, `/stairs/${stair}/floors`, [...floorsOf(job, stair), { name, carpet: job.carpets[0].id, width: '', length: '' }]);
}
/// A flight that arrived at it arrives nowhere.
export function removeFloor(job: Job, stair: number, index: number): Job {
  const floors = floorsOf(job, stair);
  const flights = (at(job, `/stairs/${stair}/flights`) as Floor[]).map((flight) => {
    if ((flight.landing as Floor | undefined)?.floor !== floors[index]?.name) return flight;
    const { landing: _, ...rest } = flight;
    return rest;
  });
  return put(put(job, `/stairs/${stair}/flights`, flights), `/stairs/${stair}/floors`, floors.filter((_, i) => i !== index));
}

export function floorFields(floor: Floor, job: Job): Field[] {
  const read = (name: string, optional = false): Field => ({ path: `/${name}`, key: `measure-floor-${name.replaceAll('_', '-')}` as Field['key'], kind: 'length', ...(optional && { optional }) });
  const choice: Field = { path: '', page: '/shape', key: 'measure-floor-shape', kind: 'choice', choices: shapes };
  const shape = floorShape(floor);
  const last: Field[] = [{ path: '/fill_pieces', key: 'measure-floor-fill-pieces', kind: 'count', optional: true }, ...carpetFields(job)];
  if (shape === 'square') return [choice, read('width'), read('length'), ...last];
  if (shape === 'sides') return [choice, ...['front', 'right', 'back', 'left'].map((name) => read(name)), read('diagonal_from_front_left', true), read('diagonal_from_front_right', true), ...last];
  return [choice, read('front'), ...cornersOf(floor).flatMap((corner, i) => [
    { ...either(`/corners/${i}`, ['along', 'left_of'], corner, ['measure-corner-along', 'measure-corner-left-of']), number: i + 1 },
    { ...either(`/corners/${i}`, ['off', 'before'], corner, ['measure-corner-off', 'measure-corner-before']), number: i + 1 },
  ]), ...last];
}

/// `planned`: its corners counter-clockwise from the front left one, in millimetres; without them the shape only.
export function floorPicture(floor: Floor, planned: readonly Pt[] | undefined, width: number, height: number): Picture {
  const shape = floorShape(floor), count = shape === 'corners' ? cornersOf(floor).length + 2 : 4;
  const likeness = (): Pt[] => [[0, 0], [1000, 0], ...Array.from({ length: count - 2 }, (_, i): Pt => [1000 - (1000 * i) / Math.max(count - 3, 1), 900 + (i % 2) * 120])];
  const corners = planned && planned.length === count ? planned : likeness();
  const fit = new Fit(around(corners), width, height, margins(34));
  const [fl, fr, br, bl] = corners as [Pt, Pt, Pt, Pt];
  const line = (a: Pt, b: Pt, off: number) => dimension(fit.of(a), fit.of(b), off);
  const dimensions: Record<string, Dimension> = { '/front': line(fl, fr, -18), '/width': line(fl, fr, -18) };
  if (shape !== 'corners')
    Object.assign(dimensions, {
      '/length': line(fl, bl, 16), '/left': line(fl, bl, 16), '/right': line(fr, br, -16), '/back': line(bl, br, 16),
      '/diagonal_from_front_left': line(fl, br, 0), '/diagonal_from_front_right': line(fr, bl, 0),
    });
  else
    cornersOf(floor).forEach((_, i) => {
      const corner = corners[i + 2]!, foot: Pt = [corner[0], fl[1]];
      const way = pathOf([fl, foot, corner].map(fit.of));
      const helped = (d: Dimension): Dimension => ({ ...d, lines: `${d.lines} ${way}` });
      dimensions[`/corners/${i}/along`] = dimensions[`/corners/${i}/left_of`] = helped(line(fl, foot, corner[0] < fl[0] ? 16 : -16));
      dimensions[`/corners/${i}/off`] = dimensions[`/corners/${i}/before`] = helped(line(foot, corner, 0));
    });
  return { width, height, shapes: [{ d: fit.path(corners, true), role: 'wood' }, { d: fit.path([fl, fr]), role: 'edge' }], dimensions };
}
