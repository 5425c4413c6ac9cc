import { describe, expect, it } from 'vitest';
import { pageOf, stepFields, asked, below } from './fields';
import { oneMore, rowFields } from './posts';
import { begunStarter, starterFields, withRound } from './starters';
import type { FlightText } from './steps';
import { begun, shapeOf, treadFields, shapes } from './treads';

const flight = (more: object = {}): FlightText => ({
  name: 'f', risers: 5, rise: '7', going: '10', width: '36', left: 'wall', right: { open: { overhang: '1', return: '1' } },
  nosing: { projection: '1', thickness: '1', profile: 'square', arris_radius: '0' }, cover: 'waterfall', ...more,
});

describe('what a step is asked', () => {
  it('follows its sides and its nosing', () => {
    expect(stepFields(flight(), 2).map((f) => f.path)).toEqual(['/rise', '/rise_right', '/going', '/width', '/nosing/projection', '/nosing/thickness',
      '/nosing/profile', '/nosing/arris_radius', '/left', '/right', '/right/open/overhang', '/right/open/return']);
    const other = flight({ steps: { 2: { right: 'wall', nosing: { profile: 'half-round' }, tread: {} } } });
    expect(stepFields(other, 2).map((f) => f.path)).toEqual(['/rise', '/rise_right', '/nosing/projection', '/nosing/thickness', '/nosing/profile', '/left', '/right']);
  });
  it('leaves the going of the topmost step to the landing edge', () => expect(stepFields(flight(), 5).map((f) => f.path)).not.toContain('/going'));
  it('ends with how a new stair is covered', () => expect(asked(flight()).at(-1)!.path).toBe('/cover'));
  it('leaves out of a new stair\'s questions what most stairs have not', () => expect(asked(flight()).map((f) => f.path)).not.toContain('/rise_right'));
  it('offers what the nearest step below says', () => {
    const some = flight({ steps: { 2: { rise: '8' }, 3: { rise: '9' } } });
    expect(below(some, 4, '/rise')).toBe('9');
    expect(below(some, 3, '/rise')).toBe('8');
    expect(below(some, 2, '/rise')).toBeUndefined();
  });
});

describe('treads', () => {
  it('are known again by what was begun', () => {
    for (const { word } of shapes) expect(shapeOf(begun(word as ReturnType<typeof shapeOf>))).toBe(word);
  });
  it('keep what two shapes share', () => {
    const kite = { front: '41', back_left: { left_of: '1', off: '3' }, back_right: { along: '36', off: '25' }, right_corner: { along: '51', off: '16' } };
    expect(begun('offsets', kite)).toEqual({ front: '41', back_left: kite.back_left, back_right: kite.back_right });
    expect(begun('sides', kite)).toEqual({ front: '41' });
  });
  it('ask for the side of the start that was told', () => {
    const paths = treadFields({ front: '41', back_left: { left_of: '1' }, back_right: {} }).map(pageOf);
    expect(paths).toEqual(['/tread/shape', '/tread/front', '/tread/back_right/along', '/tread/back_right/off', '/tread/back_left/left_of', '/tread/back_left/off']);
  });
});

describe('posts and fronts', () => {
  it('begin a row at the open end, and the next like it at the other', () => {
    const [first] = oneMore([], 'left');
    expect(first).toEqual({ side: 'left', shape: 'round' });
    expect(oneMore([{ ...first, size: '2' }], 'left')[1]).toEqual({ side: 'right', shape: 'round', size: '2' });
  });
  it('ask for the spacing of several, and the depth of square ones', () => {
    const names = (row: object) => rowFields('balusters', [row as Record<string, unknown>], 0).map((f) => f.path.split('/').at(-1));
    expect(names({ shape: 'round' })).not.toContain('spacing');
    expect(names({ shape: 'square', count: 2 })).toEqual(['side', 'shape', 'size', 'depth', 'from_end', 'from_nosing', 'count', 'spacing']);
  });
  it('are no curve when both ends are square', () => {
    const begun = begunStarter('rounds', {}, 'left')!;
    expect(begun).toEqual({ left: { round: 'half' } });
    expect(withRound({ left: { round: 'half', past: '8' } }, 'left', 'quarter')).toEqual({ left: { round: 'quarter', past: '8' } });
    expect(withRound(begun, 'left', 'square')).toBeUndefined();
    expect(starterFields(undefined)).toHaveLength(1);
    expect(starterFields({ offsets: [{}, {}, {}, { left_of: '2' }] }).map((f) => f.path)).toContain('/starter/offsets/3/left_of');
  });
});
