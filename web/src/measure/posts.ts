/// Balusters and newels on a tread, row by row.
import type { Choice, Field } from './fields';

export type Posts = 'balusters' | 'newels';
export type Row = Record<string, unknown>;
const ends: readonly Choice[] = [{ word: 'left', key: 'measure-end-left' }, { word: 'right', key: 'measure-end-right' }];
const sections: readonly Choice[] = [{ word: 'round', key: 'measure-round' }, { word: 'square', key: 'measure-square' }];

export const rowsOf = (value: unknown): Row[] => (Array.isArray(value) ? (value as Row[]) : []);

export function rowFields(posts: Posts, rows: readonly Row[], index: number): Field[] {
  const row = rows[index];
  if (!row) return [];
  const field = (name: string, key: Field['key'], kind: Field['kind'] = 'length'): Field => ({ path: `/${posts}/${index}/${name}`, key, kind });
  return [
    { ...field('side', 'measure-post-side', 'choice'), choices: ends },
    { ...field('shape', 'measure-post-shape', 'choice'), choices: sections },
    field('size', 'measure-post-size'),
    ...(row.shape === 'square' ? [{ ...field('depth', 'measure-post-depth'), optional: true }] : []),
    field('from_end', 'measure-post-from-end'), field('from_nosing', 'measure-post-from-nosing'),
    ...(posts === 'newels' ? [] : [{ ...field('count', 'measure-post-count', 'count'), optional: true }]),
    ...(posts === 'newels' || !(Number(row.count ?? 1) > 1) ? [] : [field('spacing', 'measure-post-spacing')]),
  ];
}

/// One row more: like the last, from the other end; or the first, from the open end.
export function oneMore(rows: readonly Row[], open: 'left' | 'right'): Row[] {
  const last = rows.at(-1);
  return [...rows, last ? { ...last, side: last.side === 'left' ? 'right' : 'left' } : { side: open, shape: 'round' }];
}
