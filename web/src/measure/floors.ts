/// Landings and floors: square ones by width and length, others by sides and diagonals or by offsets from the front. Openings in
/// them are square to the front; a job file may tell others, by corners.
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
export const openingsOf = (floor: Floor) => (Array.isArray(floor.openings) ? (floor.openings as Floor[]) : []);

/// What does not tell its shape stays, its measures are to be taken.
export function begunFloor(shape: FloorShape, { name, carpet, front, fill_pieces, openings }: Floor): Floor {
  const kept = { name, carpet, ...(fill_pieces !== undefined && { fill_pieces }), ...(openings !== undefined && { openings }) };
  if (shape === 'square') return { ...kept, width: front ?? '', length: '' };
  return { ...kept, ...(front !== undefined && { front }), ...(shape === 'corners' && { corners: [{}, {}] }) };
}

function apart(word: string, others: readonly Floor[]): string {
  const names = new Set(others.map(({ name }) => name));
  let name = word;
  for (let n = 2; names.has(name); n++) name = `${word} ${n}`;
  return name;
}
/// Named apart from every flight and floor there is.
export function addFloor(job: Job, stair: number, word: string): Job {
  const name = apart(word, job.stairs.flatMap((s) => [...(s.flights as unknown as Floor[]), ...((s.floors ?? []) as unknown as Floor[])]));
  return put(job, `/stairs/${stair}/floors`, [...floorsOf(job, stair), { name, carpet: job.carpets[0].id, width: '', length: '' }]);
}
/// `place`: the floor's. Named apart from its others.
export function addOpening(job: Job, place: string, word: string): Job {
  const openings = openingsOf(at(job, place) as Floor);
  return put(job, `${place}/openings`, [...openings, { name: apart(word, openings), along: '', off: '', width: '', length: '' }]);
}
export function removeOpening(job: Job, place: string, index: number): Job {
  const left = openingsOf(at(job, place) as Floor).filter((_, i) => i !== index);
  return put(job, `${place}/openings`, left.length ? left : undefined);
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
  const offsets = (place: string, corner: Floor, i: number): Field[] => [
    { ...either(place, ['along', 'left_of'], corner, ['measure-corner-along', 'measure-corner-left-of']), number: i + 1 },
    { ...either(place, ['off', 'before'], corner, ['measure-corner-off', 'measure-corner-before']), number: i + 1 },
  ];
  const openings = openingsOf(floor).flatMap((opening, i): Field[] => {
    const place = `/openings/${i}`;
    const fields = 'corners' in opening ? cornersOf(opening).flatMap((corner, k) => offsets(`${place}/corners/${k}`, corner, k))
      : (['along', 'off', 'width', 'length'] as const).map((name): Field => ({ path: `${place}/${name}`, key: `measure-opening-${name}`, kind: 'length' }));
    return fields.map((field) => ({ ...field, of: String(opening.name ?? '') }));
  });
  const last: Field[] = [...openings, { path: '/fill_pieces', key: 'measure-floor-fill-pieces', kind: 'count', optional: true }, ...carpetFields(job)];
  if (shape === 'square') return [choice, read('width'), read('length'), ...last];
  if (shape === 'sides') return [choice, ...['front', 'right', 'back', 'left'].map((name) => read(name)), read('diagonal_from_front_left', true), read('diagonal_from_front_right', true), ...last];
  return [choice, read('front'), ...cornersOf(floor).flatMap((corner, i) => offsets(`/corners/${i}`, corner, i)), ...last];
}

/// As the plan has it, in millimetres: counter-clockwise from the front left corner; an opening's corners as the job tells them.
export interface PlannedFloor { corners_mm: readonly Pt[]; openings?: readonly { corners_mm: readonly Pt[] }[] }

/// Side by side in the likeness of a floor, the i-th of so many.
function openingLikeness(corners: number, i: number, of: number): Pt[] {
  const x = (1000 * (i + 0.5)) / of, y = 400, across = 220 / of, along = 170;
  return Array.from({ length: corners }, (_, k): Pt => {
    const angle = Math.PI * ((2 * k + 1) / corners - 1);
    return [x + across * Math.cos(angle), y + along * Math.sin(angle)];
  });
}

/// Without `planned` the shape only.
export function floorPicture(floor: Floor, planned: PlannedFloor | undefined, width: number, height: number): Picture {
  const shape = floorShape(floor), count = shape === 'corners' ? cornersOf(floor).length + 2 : 4, openings = openingsOf(floor);
  const likeness = (): Pt[] => [[0, 0], [1000, 0], ...Array.from({ length: count - 2 }, (_, i): Pt => [1000 - (1000 * i) / Math.max(count - 3, 1), 900 + (i % 2) * 120])];
  const counts = openings.map((opening) => ('corners' in opening ? Math.max(cornersOf(opening).length, 3) : 4));
  const known = planned && planned.corners_mm.length === count && counts.length === (planned.openings?.length ?? 0) &&
    counts.every((corners, i) => planned.openings![i]!.corners_mm.length === corners);
  const corners = known ? planned.corners_mm : likeness();
  const holes = counts.map((corners, i) => (known ? planned.openings![i]!.corners_mm : openingLikeness(corners, i, counts.length)));
  const fit = new Fit(around(corners), width, height, margins(34, { bottom: 44 }));
  const [fl, fr, br, bl] = corners as [Pt, Pt, Pt, Pt];
  const line = (a: Pt, b: Pt, off: number) => dimension(fit.of(a), fit.of(b), off);
  const dimensions: Record<string, Dimension> = { '/front': line(fl, fr, -18), '/width': line(fl, fr, -18) };
  /// Of a corner, along the front and off it.
  const offsets = (place: string, corner: Pt) => {
    const foot: Pt = [corner[0], fl[1]], way = pathOf([fl, foot, corner].map(fit.of));
    const helped = (d: Dimension): Dimension => ({ ...d, lines: `${d.lines} ${way}` });
    dimensions[`${place}/along`] = dimensions[`${place}/left_of`] = helped(line(fl, foot, corner[0] < fl[0] ? 16 : -16));
    dimensions[`${place}/off`] = dimensions[`${place}/before`] = helped(line(foot, corner, 0));
  };
  if (shape !== 'corners')
    Object.assign(dimensions, {
      '/length': line(fl, bl, 16), '/left': line(fl, bl, 16), '/right': line(fr, br, -16), '/back': line(bl, br, 16),
      '/diagonal_from_front_left': line(fl, br, 0), '/diagonal_from_front_right': line(fr, bl, 0),
    });
  else cornersOf(floor).forEach((_, i) => offsets(`/corners/${i}`, corners[i + 2]!));
  openings.forEach((opening, i) => {
    const place = `/openings/${i}`;
    if ('corners' in opening) return cornersOf(opening).forEach((_, k) => offsets(`${place}/corners/${k}`, holes[i]![k]!));
    const { x0, y0, x1, y1 } = around(holes[i]!);
    offsets(place, [x0, y0]);
    Object.assign(dimensions, { [`${place}/width`]: line([x0, y0], [x1, y0], -16), [`${place}/length`]: line([x0, y0], [x0, y1], 16) });
  });
  const shapes: Picture['shapes'] = [{ d: fit.path(corners, true), role: 'wood' }, ...holes.map((hole) => ({ d: fit.path(hole, true), role: 'opening' as const })), { d: fit.path([fl, fr]), role: 'edge' }];
  return { width, height, shapes, dimensions };
}
