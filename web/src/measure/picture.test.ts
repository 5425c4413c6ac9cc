/// The dimension lines are as long as what they measure: each is read back from the picture and held against the tape's reading.
import { describe, expect, it } from 'vitest';
import type { Dimension } from './draft';
import type { Step } from './outline';
import type { Given } from './readings';
import { picture, viewOf } from './picture';
import { schematic } from './schematic';
import { begun, shapes, treadFields } from './treads';

const inch = 25.4;
const closed = { kind: 'wall', overhang_mm: 0, return_past_mm: 0 } as const;
const step = (more: Partial<Step> = {}): Step => ({
  number: 2, rise_mm: 7.5 * inch, going_mm: 10 * inch, width_mm: 36 * inch, nosing: { projection_mm: inch, thickness_mm: 1.25 * inch, radius_mm: 3 },
  left: closed, right: { kind: 'open', overhang_mm: 1.25 * inch, return_past_mm: 0.75 * inch }, landing_edge: false,
  left_side_mm: [[0, 0], [0, 254]], right_side_mm: [[914.4, 0], [914.4, 254]], uprights: [], ...more,
} as Step);
const none: Given = { tread: undefined, starter: undefined, balusters: undefined, newels: undefined };
const size = { width: 340, height: 190, profile: 'square', given: none };

/// A line between the first two points of its path.
const long = ({ lines }: Dimension) => {
  const [ax, ay, bx, by] = /^M ([-\d.]+) ([-\d.]+) L ([-\d.]+) ([-\d.]+)/.exec(lines)!.slice(1).map(Number) as [number, number, number, number];
  return Math.hypot(bx - ax, by - ay);
};
/// In inches, by another whose length is known in the same view.
const ratio = (of: Step, path: string, known: string, given = none, view = viewOf(path)) => {
  const { dimensions } = picture(of, path, { ...size, given }, view);
  return long(dimensions[path]!) / long(dimensions[known]!);
};

describe('a straight step', () => {
  it('shows rise and going in one scale', () => expect(ratio(step(), '/rise', '/going')).toBeCloseTo(7.5 / 10, 2));
  it('shows the nosing close to', () => expect(ratio(step(), '/nosing/projection', '/nosing/thickness')).toBeCloseTo(1 / 1.25, 2));
  it('shows the overhang within the width', () => expect(ratio(step(), '/right/open/overhang', '/width', none, 'plan')).toBeCloseTo(1.25 / 36, 2));
  it('comes close for an open end', () => {
    for (const path of ['/right/open/overhang', '/right/open/return']) expect(long(picture(step(), path, size).dimensions[path]!)).toBeGreaterThan(20);
  });
});

describe('a kite by offsets', () => {
  // A winder whose readings are 41 1/2 along the front; corner 50 3/4 and 16; back right 35 3/4 and 24 11/16; back left 1 1/16 to the left, 3 1/2 off.
  const given = { ...none, tread: begun('offsets-right') };
  const kite = step({
    width_mm: 1076.495125, going_mm: 601.6625, right: closed,
    left_side_mm: [[0, 0], [-19.2768, 63.5]], right_side_mm: [[1076.4951, 0], [1296.7607, 381], [915.7607, 601.6625]],
  } as Partial<Step>);
  const readings: [string, number][] = [
    ['/tread/right_corner/along', 50.75], ['/tread/right_corner/off', 16], ['/tread/back_right/along', 35.75], ['/tread/back_right/off', 24.6875],
    ['/tread/back_left/left_of', 1.0625], ['/tread/back_left/off', 3.5],
  ];
  for (const [path, inches] of readings) it(`draws ${path}`, () => expect(ratio(kite, path, '/tread/front', given)).toBeCloseTo(inches / 41.5, 2));
});

describe('a curved front', () => {
  // Half an ellipse: 8 past the riser's end, 7 along the front, 6 1/2 across.
  const past = 8 * inch, along = 7 * inch, across = 6.5 * inch, p = -inch;
  const curve = Array.from({ length: 181 }, (_, i) => {
    const a = Math.PI - (i * Math.PI) / 180;
    return [-past + along - along * Math.sin(a), p + across - across * Math.cos(a)] as [number, number];
  });
  const given = { ...none, starter: { left: { round: 'half' } } };
  const starter = step({ left: { ...closed, kind: 'open' }, right: closed, curved_front_mm: [...curve, [914.4, p]] } as unknown as Partial<Step>);
  it('shows how far it goes past, along and across', () => {
    expect(ratio(starter, '/starter/left/along', '/starter/left/past', given)).toBeCloseTo(7 / 8, 2);
    expect(ratio(starter, '/starter/left/across', '/starter/left/past', given)).toBeCloseTo(6.5 / 8, 2);
  });
});

describe('posts', () => {
  const rows = [{ side: 'right', shape: 'round', count: 2 }];
  const upright = (y: number) => ({ what: 'baluster', round: true, centre_mm: [914.4 + 1.25 * inch - 2 * inch, -inch + y * inch], width_mm: 32, depth_mm: 32 });
  const posts = step({ uprights: [upright(2.5), upright(7.5)] } as unknown as Partial<Step>);
  const given = { ...none, balusters: rows };
  it('are measured from the end, from the nosing and from each other', () => {
    expect(ratio(posts, '/balusters/0/from_nosing', '/balusters/0/spacing', given)).toBeCloseTo(2.5 / 5, 1);
    expect(ratio(posts, '/balusters/0/from_end', '/balusters/0/spacing', given)).toBeCloseTo(2 / 5, 1);
  });
});

describe('a likeness, while readings are missing', () => {
  for (const { word } of shapes.slice(1))
    it(`has a line for every reading of ${word}`, () => {
      const tread = begun(word as Parameters<typeof begun>[0]);
      const given = { ...none, tread };
      const made = schematic(step(), given);
      for (const { path } of treadFields(tread).slice(1)) expect(picture(made, path, { ...size, given, made: true }).dimensions, path).toHaveProperty([path]);
    });
  it('has every post and both rounds', () => {
    const given = { ...none, newels: [{ side: 'left' }], starter: { left: { round: 'half' }, right: { round: 'quarter' } } };
    const made = schematic(step(), given);
    const { dimensions } = picture(made, '/newels/0/size', { ...size, given, made: true });
    for (const path of ['/newels/0/from_end', '/newels/0/from_nosing', '/newels/0/size', '/starter/left/past', '/starter/right/across']) expect(dimensions).toHaveProperty([path]);
  });
});
