import { describe, expect, it } from 'vitest';
import { area, chord, label } from './label';

describe('the place of a name', () => {
  it('is the middle of a rectangle, as wide as that', () =>
    expect(label([[[10, 20], [110, 20], [110, 60], [10, 60]]], 10)).toEqual({ u: 60, v: 40, wide: 100 }));
  it('lies on the goods of a piece that slants, with room for its lines', () => {
    const triangle = [[[0, 0], [90, 90], [0, 90]]];
    expect(chord(triangle, 30)).toEqual([0, 30]);
    expect(label(triangle, 10)).toEqual({ u: 25, v: 60, wide: 50 }); // 50 across at 50, a third of the height below the middle
    expect(chord(triangle, 91)).toBeUndefined();
  });
  it('keeps out of the hollow of a piece that goes in', () => {
    const hook = [[[0, 0], [100, 0], [100, 40], [20, 40], [20, 60], [100, 60], [100, 100], [0, 100]]];
    expect(chord(hook, 50)).toEqual([0, 20]);
    expect(chord([[[0, 0], [10, 0], [10, 40], [60, 40], [60, 0], [100, 0], [100, 90], [0, 90]]], 20)).toEqual([60, 100]); // the wider leg
    expect(label(hook, 5)).toEqual({ u: 10, v: 50, wide: 20 });
  });
  it('is the same whichever way round the corners are told', () =>
    expect(label([[[0, 90], [90, 90], [0, 0]]], 10)).toEqual(label([[[0, 0], [90, 90], [0, 90]]], 10)));
  describe('of a piece with a hole', () => {
    const square = [[0, 0], [100, 0], [100, 100], [0, 100]];
    const hole = (u0: number, v0: number, u1: number, v1: number) => [[u0, v0], [u1, v0], [u1, v1], [u0, v1]];
    it('is beside the hole, whichever way round that is told', () => {
      const tall = hole(30, 5, 60, 95);
      expect(chord([square, tall], 50)).toEqual([60, 100]);
      for (const told of [tall, [...tall].reverse()]) {
        expect(area([square, told])).toBe(7300);
        expect(label([square, told], 10)).toMatchObject({ u: 80, wide: 40 });
      }
    });
    it('is before or behind it where there is more room, if its lines fit there', () => {
      const middle = hole(20, 30, 80, 70);
      expect(label([square, middle], 10)).toEqual({ u: 50, v: 15, wide: 100 });
      expect(label([square, middle], 16)).toMatchObject({ wide: 20 }); // too near to the hole or the edge: in a strip beside it
    });
    it('keeps its lines out of one that lies between them', () =>
      expect(label([square, hole(10, 48, 90, 49), hole(10, 10, 90, 40), hole(10, 60, 90, 90)], 9).wide).toBe(10));
  });
});
