import { expect, test } from 'vitest';
import { folded, lines, type Shape } from './carpet';

/// Two triangles of one face beside one of another, which has points of its own along the hinge.
const shape: Shape = {
  faces: [{ from: 0, to: 2 }, { from: 2, to: 3 }],
  triangles: [0, 1, 2, 0, 2, 3, 4, 6, 5],
  flat_mm: [0, 0, 10, 0, 10, 10, 0, 10, 10, 0, 10, 10, 20, 5],
  lines: [{ line: 0, role: 'fold', vertices: [1, 2] }, { line: 1, role: 'tuck', vertices: [0, 1] }, { line: 2, role: 'hem', vertices: [4, 6] }],
  positions_mm: [[0, 0, 0], [0, 0, 10], [0, 20, 10]],
};

test('between two stages a point goes straight, and at a stage it is there', () => {
  const out = new Float32Array(3);
  const at = (f: number) => (folded(shape, [0, 0.5, 1], f, out), [...out]);
  expect(at(0)).toEqual([0, 0, 0]);
  expect(at(0.25)).toEqual([0, 0, 5]);
  expect(at(0.5)).toEqual([0, 0, 10]);
  expect(at(0.75)).toEqual([0, 10, 10]);
  expect(at(1)).toEqual([0, 20, 10]);
});

test('the outline leaves out diagonals and hinges; lines are gathered by what one switches', () => {
  const found = lines(shape);
  const pairs = found.get('edge')!;
  expect(pairs.length / 2).toBe(5);
  expect(found.get('folds')).toEqual([1, 2]);
  expect(found.get('hems')).toEqual([0, 1, 4, 6]);
});
