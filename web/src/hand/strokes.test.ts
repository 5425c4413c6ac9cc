import { expect, test } from 'vitest';
import { HEIGHT, inBox, longer, path } from './strokes';

test('a point is kept in thousandths of the box, within it', () => {
  const box = { left: 10, top: 20, width: 500 };
  expect(inBox({ clientX: 260, clientY: 70 }, box)).toEqual([500, 100]);
  expect(inBox({ clientX: -5, clientY: 9000 }, box)).toEqual([0, HEIGHT]);
});

test('a hand that hardly moves adds nothing; a dot is drawn', () => {
  expect(longer([10, 10], [11, 10])).toEqual([10, 10]);
  expect(longer([10, 10], [20, 10])).toEqual([10, 10, 20, 10]);
  expect(path([10, 10])).toBe('M10,10h0.1');
  expect(path([10, 10, 20, 30])).toBe('M10,10L20,30');
});
