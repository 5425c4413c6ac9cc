/// The bottom step's curved front: rounds at its ends, or offsets to the nosing's edge.
import type { Choice, Field } from './fields';
import { either } from './treads';

type Starter = Record<string, unknown>;
const kinds: readonly Choice[] = [
  { word: 'none', key: 'measure-front-straight' }, { word: 'rounds', key: 'measure-front-rounds' }, { word: 'offsets', key: 'measure-front-offsets' },
];
const rounds: readonly Choice[] = [
  { word: 'square', key: 'measure-round-none' }, { word: 'quarter', key: 'measure-round-quarter' }, { word: 'half', key: 'measure-round-half' },
];
const closings: readonly Choice[] = [{ word: 'band', key: 'measure-closing-band' }, { word: 'cuts', key: 'measure-closing-cuts' }];

export const starterOf = (starter: unknown): 'none' | 'rounds' | 'offsets' =>
  typeof starter !== 'object' || starter === null ? 'none' : 'offsets' in starter ? 'offsets' : 'rounds';
export const roundOf = (end: unknown): string => (typeof end === 'object' && end !== null && 'round' in end ? String(end.round) : 'square');
export const offsetsOf = (starter: unknown): Starter[] => ((starter as { offsets?: Starter[] } | undefined)?.offsets ?? []);

/// How it is covered, whatever its shape.
const kept = ({ closing, give }: Starter): Starter => ({ ...(closing !== undefined && { closing }), ...(give !== undefined && { give }) });

/// Four are the least that make a curve.
export const begunStarter = (kind: string, starter: Starter = {}, open: 'left' | 'right' = 'right'): Starter | undefined =>
  kind === 'none' ? undefined : kind === 'offsets' ? { ...kept(starter), offsets: [{}, {}, {}, {}] } : { ...kept(starter), [open]: { round: 'half' } };

export function withRound(starter: Starter, end: 'left' | 'right', round: string): Starter | undefined {
  const old = starter[end];
  const next = { ...starter, [end]: round === 'square' ? undefined : { ...(typeof old === 'object' ? old : {}), round } };
  if (next[end] === undefined) delete next[end];
  return 'left' in next || 'right' in next ? next : undefined;
}

export function starterFields(starter: unknown): Field[] {
  const kind = starterOf(starter);
  const choice: Field = { path: '/starter', page: '/starter/kind', key: 'measure-front', kind: 'choice', choices: kinds };
  const given = (starter ?? {}) as Starter;
  const end = (which: 'left' | 'right'): Field[] => [
    { path: `/starter/${which}`, key: `measure-front-${which}`, kind: 'choice', choices: rounds },
    ...(roundOf(given[which]) === 'square' ? [] : ['past', 'along', 'across'].map((name): Field => ({ path: `/starter/${which}/${name}`, key: `measure-round-${name}` as Field['key'], kind: 'length' }))),
  ];
  const closing: Field = { path: '/starter/closing', key: 'measure-closing', kind: 'choice', choices: closings };
  const give: Field = { path: '/starter/give', key: 'measure-give', kind: 'percent', optional: true };
  if (kind === 'none') return [choice];
  if (kind === 'rounds') return [choice, ...end('left'), ...end('right'), closing, give];
  return [choice, ...offsetsOf(starter).flatMap((offset, i) => [
    { ...either(`/starter/offsets/${i}`, ['along', 'left_of'], offset, ['measure-offset-along', 'measure-offset-left-of']), number: i + 1 },
    { ...either(`/starter/offsets/${i}`, ['out', 'behind'], offset, ['measure-offset-out', 'measure-offset-behind']), number: i + 1 },
  ]), closing, give];
}
