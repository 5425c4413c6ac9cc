import { describe, expect, it } from 'vitest';
import { finished, press, pressOf, type Kind } from './keypad';

const typed = (kind: Kind, ...keys: string[]) => keys.reduce((text, key) => press(text, key, kind), '');
const byHand = (text: string) => typed('in', ...text);

describe('feet, inches and fractions', () => {
  it('takes whole figures, then an eighth', () => {
    expect(typed('in', '7', '1/2')).toBe('7 1/2');
    expect(typed('in', '2', '7', '3/8')).toBe('27 3/8');
    expect(typed('in', '5/8')).toBe('5/8');
  });
  it('reaches every sixteenth in two', () => {
    const reached = new Set<string>();
    const keys = ['1/16', '1/8', '1/4', '3/8', '1/2', '5/8', '3/4', '7/8'];
    for (const one of keys) for (const two of ['', ...keys]) reached.add(two ? typed('in', '9', one, two) : typed('in', '9', one));
    for (let n = 1; n < 16; n++) {
      let [a, b] = [n, 16];
      while (a % 2 === 0) [a, b] = [a / 2, b / 2];
      expect(reached).toContain(`9 ${a}/${b}`);
    }
  });
  it('changes a fraction for another, and takes one off again', () => {
    expect(typed('in', '7', '1/2', '5/8')).toBe('7 5/8');
    expect(typed('in', '7', '1/2', '1/2')).toBe('7');
    expect(typed('in', '7', '1/2', '1/16')).toBe('7 9/16');
    expect(typed('in', '7', '1/2', '1/16', '1/16')).toBe('7 1/2');
  });
  it('makes feet of what stands there, and back', () => {
    expect(typed('in', '2', 'feet', '3', '1/2')).toBe("2' 3 1/2");
    expect(typed('in', '2', 'feet')).toBe("2'");
    expect(typed('in', '2', 'feet', 'feet')).toBe('2');
    expect(typed('in', '2', 'feet', '1/4')).toBe("2' 1/4");
    expect(typed('in', '2', 'feet', '.', '5')).toBe("2' 0.5");
  });
  it('goes back by a fraction or a figure', () => {
    expect(typed('in', '2', '7', '1/2', 'back')).toBe('27');
    expect(typed('in', '2', '7', 'back')).toBe('2');
    expect(typed('in', '2', 'feet', '3', 'back')).toBe("2'");
    expect(typed('in', '1/2', 'back')).toBe('');
    expect(typed('in', '2', '7', 'clear')).toBe('');
    expect(press('', 'back', 'in')).toBe('');
  });
  it('lets no figure follow a finished fraction', () => {
    expect(typed('in', '7', '1/2', '5')).toBe('7 1/2');
    expect(typed('in', '7', '1/16', '0')).toBe('7 1/16');
  });
  it('takes what a keyboard types', () => {
    expect(byHand('27 1/2')).toBe('27 1/2');
    expect(byHand('7 13/16')).toBe('7 13/16');
    expect(byHand('2\' 3-1/2"')).toBe('2\' 3-1/2"');
    expect(byHand('2\' 3-1/2"9')).toBe('2\' 3-1/2"');
    expect(byHand('7.5')).toBe('7.5');
    expect(byHand('7 1/2/2')).toBe('7 1/2');
    expect(byHand('7  1')).toBe('7 1');
  });
  it('exchanges decimals for a fraction', () => expect(typed('in', '7', '.', '5', '1/4')).toBe('7 1/4'));
});

describe('metric and counts', () => {
  it('takes figures and one decimal mark, either way written', () => {
    expect(typed('metric', '6', '8', ',', '5')).toBe('68.5');
    expect(typed('metric', '6', '8', '.', '5', '.', '2')).toBe('68.52');
    expect(typed('metric', '.', '5')).toBe('0.5');
    expect(typed('metric', '0', '6')).toBe('6');
    expect(typed('metric', '6', '1/2', 'feet', '/')).toBe('6');
  });
  it('counts up to three figures', () => {
    expect(typed('count', '1', '4', '.', 'feet')).toBe('14');
    expect(typed('count', '1', '2', '3', '4')).toBe('123');
  });
  it('leaves nothing hanging', () => {
    expect(finished('68.')).toBe('68');
    expect(finished('7 1/')).toBe('7');
    expect(finished("2' ")).toBe("2'");
    expect(finished('27 1/2')).toBe('27 1/2');
  });
});

it('knows its keys on a keyboard and leaves the others alone', () => {
  const plain = { ctrlKey: false, metaKey: false, altKey: false };
  expect(pressOf({ ...plain, key: 'Backspace' })).toBe('back');
  expect(pressOf({ ...plain, key: '7' })).toBe('7');
  expect(pressOf({ ...plain, key: 'z', ctrlKey: true })).toBeUndefined();
  expect(pressOf({ ...plain, key: '1', ctrlKey: true })).toBeUndefined();
  expect(pressOf({ ...plain, key: 'Enter' })).toBeUndefined();
});
