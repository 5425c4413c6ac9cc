/// What the hand adds to net sizes, and how far off a length may be. Each that is left empty is core's, as is usual in the trade.
import type { Field } from './fields';

const allowances = ['side_trim', 'open_side_trim', 'tuck_back', 'tuck_foot', 'gully', 'hem', 'strip_stop', 'crease', 'relief', 'floor_trim'] as const;
const tolerances = ['tape', 'knife', 'spread'] as const;

const read = (base: string, name: string): Field =>
  ({ path: `/${base}/${name}`, key: `measure-${base}-${name.replaceAll('_', '-')}` as Field['key'], kind: 'length', optional: true });

export const allowanceFields: readonly Field[] = [
  ...allowances.map((name) => read('allowances', name)), ...tolerances.map((name) => read('tolerances', name)),
];
