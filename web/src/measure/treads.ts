/// A tread that is no rectangle, by what the tape can reach: its kinds and the measures of each.
import type { Field } from './fields';
import type { Choice } from './fields';

export type Shape = 'square' | 'offsets' | 'offsets-right' | 'offsets-left' | 'sides' | 'sides-right' | 'sides-left';
export const shapes: readonly Choice[] = [
  { word: 'square', key: 'measure-shape-square' },
  { word: 'offsets', key: 'measure-shape-offsets' }, { word: 'offsets-right', key: 'measure-shape-offsets-right' }, { word: 'offsets-left', key: 'measure-shape-offsets-left' },
  { word: 'sides', key: 'measure-shape-sides' }, { word: 'sides-right', key: 'measure-shape-sides-right' }, { word: 'sides-left', key: 'measure-shape-sides-left' },
];

type Tread = Record<string, unknown>;
export function shapeOf(tread: unknown): Shape {
  if (typeof tread !== 'object' || tread === null) return 'square';
  const has = (...keys: string[]) => keys.some((key) => key in tread);
  if (has('back_left', 'back_right')) return has('right_corner') ? 'offsets-right' : has('left_corner') ? 'offsets-left' : 'offsets';
  return has('right_to_corner', 'right_from_corner') ? 'sides-right' : has('left_to_corner', 'left_from_corner') ? 'sides-left' : 'sides';
}

/// A tread of that shape with what is measured already, the rest still to be: core asks for each by name.
export function begun(shape: Shape, tread: Tread = {}): Tread | undefined {
  if (shape === 'square') return undefined;
  const keep = (...keys: string[]) => Object.fromEntries(keys.filter((key) => key in tread).map((key) => [key, tread[key]]));
  if (shape.startsWith('offsets')) {
    const corner = shape === 'offsets-right' ? 'right_corner' : shape === 'offsets-left' ? 'left_corner' : undefined;
    return { ...keep('front'), back_left: tread.back_left ?? {}, back_right: tread.back_right ?? {}, ...(corner && { [corner]: tread[corner] ?? {} }) };
  }
  const common = keep('front', 'back', 'diagonal_from_front_left', 'diagonal_from_front_right');
  if (shape === 'sides') return { ...common, ...keep('right', 'left') };
  const side = shape === 'sides-right' ? 'right' : 'left';
  return { ...common, ...keep(side === 'right' ? 'left' : 'right'), [`${side}_to_corner`]: tread[`${side}_to_corner`] ?? '' };
}

const read = (name: string, optional = false): Field => ({ path: `/tread/${name}`, key: `measure-tread-${name.replaceAll('_', '-')}` as Field['key'], kind: 'length', ...(optional && { optional }) });

/// Two places that stand for each other, such as to the right and to the left.
export function either(base: string, [one, other]: readonly [string, string], value: unknown, keys: readonly [Field['key'], Field['key']]): Field {
  const left = typeof value === 'object' && value !== null && other in value;
  const [name, rest] = left ? [other, one] : [one, other];
  return { path: `${base}/${name}`, key: left ? keys[1] : keys[0], kind: 'length', other: { path: `${base}/${rest}`, key: left ? keys[0] : keys[1] } };
}
const corner = (tread: Tread, name: string): Field[] => {
  const base = `/tread/${name}`, word = name.replaceAll('_', '-') as 'back-left' | 'back-right' | 'left-corner' | 'right-corner';
  return [
    either(base, ['along', 'left_of'], tread[name], [`measure-${word}-along`, `measure-${word}-left-of`]),
    either(base, ['off', 'before'], tread[name], [`measure-${word}-off`, `measure-${word}-before`]),
  ];
};

export function treadFields(tread: unknown): Field[] {
  const shape = shapeOf(tread);
  const choice: Field = { path: '/tread', page: '/tread/shape', key: 'measure-shape', kind: 'choice', choices: shapes };
  if (shape === 'square') return [choice];
  const given = tread as Tread;
  const diagonals = [read('diagonal_from_front_left', true), read('diagonal_from_front_right', true)];
  const inTurn: Record<Exclude<Shape, 'square'>, () => Field[]> = {
    offsets: () => [read('front'), ...corner(given, 'back_right'), ...corner(given, 'back_left')],
    'offsets-right': () => [read('front'), ...corner(given, 'right_corner'), ...corner(given, 'back_right'), ...corner(given, 'back_left')],
    'offsets-left': () => [read('front'), ...corner(given, 'back_right'), ...corner(given, 'left_corner'), ...corner(given, 'back_left')],
    sides: () => [read('front'), read('right'), read('back'), read('left'), ...diagonals],
    'sides-right': () => [read('front'), read('right_to_corner'), read('right_from_corner'), read('back'), read('left'), ...diagonals,
      read('corner_from_front_left', true), read('corner_from_back_left', true), read('right_past_corner', true)],
    'sides-left': () => [read('front'), read('right'), read('back'), read('left_from_corner'), read('left_to_corner'), ...diagonals,
      read('corner_from_front_right', true), read('corner_from_back_right', true), read('left_past_corner', true)],
  };
  return [choice, ...inTurn[shape]()];
}
