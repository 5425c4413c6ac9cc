import { Box3, type BufferGeometry, Vector3 } from 'three';
import { expect, test } from 'vitest';
import type { Plan } from '../core/door';
import { Eye } from './camera';
import { landingOf } from './landing';
import { pad, strips } from './under';
import { wood, type Step } from './wood';

const closed = { kind: 'wall', overhang_mm: 0, return_past_mm: 0 } as const;
const step: Step = {
  number: 2, rise_mm: 190, going_mm: 250, width_mm: 900, landing_edge: false,
  frame: { at_mm: [0, 250], z_mm: 190, turn_rad: 0 },
  nosing: { projection_mm: 25, thickness_mm: 30, radius_mm: 15 },
  left: closed, right: { kind: 'open', overhang_mm: 32, return_past_mm: 20 },
};
const ends = (geometry: BufferGeometry) => {
  const box = new Box3().setFromBufferAttribute(geometry.getAttribute('position') as never);
  return [box.min.toArray(), box.max.toArray()].map((p) => p.map((x) => Math.round(x * 10) / 10 + 0));
};

test('a board reaches from the nosing to behind the next riser, and over the open end', () => {
  const [board, body] = wood(step, false);
  expect(ends(board!.geometry)).toEqual([[0, -25, 160], [932, 270, 190]]);
  expect(ends(body!.geometry)).toEqual([[0, 0, -190], [900, 250, 160]]);
});

test('a tread without a riser is carried by nothing', () => {
  expect(wood({ ...step, open_riser: true }, false)).toHaveLength(1);
});

test('every corner is in the picture, wherever one stands', () => {
  const points = [new Vector3(0, 0, 0), new Vector3(900, 0, 0), new Vector3(900, 3000, 2500), new Vector3(0, 3000, 2500), new Vector3(0, 3000, 0)];
  const eye = new Eye();
  for (const aspect of [0.5, 1, 2.4])
    for (const turn of [-2, -0.6, 0, 0.6, 3])
      for (const height of [-0.2, 0.4, 1.5]) {
        eye.shape(aspect);
        eye.lookAt(points);
        eye.stand(turn, height);
        const seen = points.map((p) => p.clone().project(eye.camera));
        const most = Math.max(...seen.flatMap((p) => [Math.abs(p.x), Math.abs(p.y)]));
        expect(most).toBeLessThan(1.0001);
        expect(most).toBeGreaterThan(0.99);
      }
});

const strip = { from_mm: 0, to_mm: 860, set_off_mm: 6, left_angle_deg: 90, right_angle_deg: 45 };
const flight = { flight: 'a', strip_width_mm: 25, strip_thickness_mm: 7, steps: [] };
const fixings = {
  step: 2, strips: [{ place: 'tread' as const, ...strip }, { place: 'riser' as const, ...strip, right_angle_deg: 90 }],
  pad: { width_mm: 860, length_mm: 280, riser_y_mm: 219, outline_mm: [[0, 0], [860, 0], [860, 280], [0, 280]] as [number, number][], holes_mm: [] },
  hot_melt_mm: 0, latex_mm: 0, staple_run_mm: 0, seam_tape_mm: 0,
};

test('strip lies off the riser by its set-off, mitred toward it', () => {
  const [tread] = strips(fixings, flight, 'tread'), [riser] = strips(fixings, flight, 'riser');
  expect(ends(tread!)).toEqual([[0, -31, 0], [860, -6, 7]]);
  const at = tread!.getAttribute('position');
  const near = Array.from({ length: at.count }, (_, i) => (Math.abs(at.getY(i) + 6) < 0.01 ? at.getX(i) : 0));
  expect(Math.max(...near)).toBeCloseTo(835);
  expect(ends(riser!)).toEqual([[0, -7, 6], [860, 0, 31]]);
});

test('the pad lies on the board up to the strip and hangs over the nosing', () => {
  const [on, over] = pad(fixings, step);
  expect(ends(on!)).toEqual([[0, -25, 191.5], [860, 219, 191.5]]);
  expect(ends(over!)).toEqual([[0, -26.5, 155.5], [860, -26.5, 191.5]]);
});

test('a floor is drawn where a flight arrives at it, with its own carpet or that of the edge', () => {
  const piece = (id: string, flight: number, steps: number[], floor = -1) => ({ id, stair: 0, flight, floor, steps });
  const floors = [{ name: 'hall' }, { name: 'landing' }];
  const at = (arrival: object | undefined, pieces: object[]) =>
    landingOf({ stairs: [{ floors, flights: [{ steps: [step], arrival }] }], pieces } as unknown as Plan, 0, 0);
  const edge = piece('A-02', 0, [2]), own = piece('B', -1, [], 1), other = piece('C', -1, [], 0);
  const arrival = { floor: 'landing', from_left_mm: 80, joined: false };
  expect(at(undefined, [edge, own])).toBeUndefined();
  expect(at(arrival, [other, edge, own])).toMatchObject({ from_left_mm: 80, floor: floors[1], edge, own: [own] });
  const breadth = piece('B-2', -1, [], 1);
  expect(at(arrival, [edge, own, breadth])!.own).toEqual([own, breadth]);
  expect(at(arrival, [other, edge])!.own).toEqual([]);
});
