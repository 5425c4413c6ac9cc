import { expect, test } from 'vitest';
import { spread } from './spread';

test('labels keep their order and their gap', () => {
  expect(spread([0, 5, 100], 10, 0, 200)).toEqual([0, 10, 100]);
  expect(spread([190, 195, 200], 10, 0, 200)).toEqual([180, 190, 200]);
});
