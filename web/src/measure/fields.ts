/// What is asked of a step, in the order a tape goes: places under the flight or the step's exception, each with its words.
import type { Job } from '../core/door';
import type { Key } from '../text/text.svelte';
import { arrivalWord } from './flights';
import type { Kind } from './keypad';
import { rowFields, rowsOf, type Posts } from './posts';
import { roundOf, starterFields, starterOf } from './starters';
import { differs, measureOf, type FlightText, type Which } from './steps';
import { shapeOf, treadFields } from './treads';

/// `text` in place of the key's words: a name of the job's own.
export interface Choice { word: string; key: Key; text?: string }
export interface Field {
  path: string;
  key: Key;
  kind: 'length' | 'count' | 'percent' | 'choice';
  choices?: readonly Choice[];
  /// Never asked of itself; a value may be taken away.
  optional?: boolean;
  /// The place that a value may stand at instead.
  other?: { path: string; key: Key };
  /// Where it is asked, if its place is a page of its own.
  page?: string;
  /// Which of several alike.
  number?: number;
  /// Of which part, by the job's own name for it.
  of?: string;
}

export const sides: readonly Choice[] = [
  { word: 'wall', key: 'measure-wall' }, { word: 'skirt', key: 'measure-skirt' }, { word: 'open', key: 'measure-open' },
];
export const profiles: readonly Choice[] = [
  { word: 'square', key: 'measure-square' }, { word: 'half-round', key: 'measure-half-round' }, { word: 'bevelled', key: 'measure-bevelled' },
];
export const covers: readonly Choice[] = [
  { word: 'waterfall', key: 'measure-waterfall' }, { word: 'wrapped', key: 'measure-wrapped' },
];

const length = (path: string, key: Key): Field => ({ path, key, kind: 'length' });
/// The word of a choice, whatever hangs on it.
export const wordOf = (value: unknown): string | undefined =>
  typeof value === 'string' ? value : typeof value === 'object' && value !== null && 'open' in value ? 'open' : undefined;

function nosing(flight: FlightText, step: Which): Field[] {
  const profile = measureOf(flight, step, '/nosing/profile');
  return [
    length('/nosing/projection', 'measure-projection'),
    length('/nosing/thickness', 'measure-thickness'),
    { path: '/nosing/profile', key: 'measure-profile', kind: 'choice', choices: profiles },
    ...(profile === 'square' ? [length('/nosing/arris_radius', 'measure-arris')] : []),
    ...(profile === 'bevelled' ? [length('/nosing/bevel', 'measure-bevel')] : []),
  ];
}

function side(flight: FlightText, step: Which, which: 'left' | 'right'): Field[] {
  const open = wordOf(measureOf(flight, step, `/${which}`)) === 'open';
  return [
    { path: `/${which}`, key: `measure-${which}`, kind: 'choice', choices: sides },
    ...(open ? [length(`/${which}/open/overhang`, `measure-${which}-overhang`), length(`/${which}/open/return`, `measure-${which}-return`)] : []),
  ];
}

const risers: readonly Choice[] = [{ word: 'closed', key: 'measure-risers-closed' }, { word: 'open', key: 'measure-risers-open' }];

const isTop = (flight: FlightText, step: Which) => step === flight.risers;

export const pageOf = (field: Field) => field.page ?? field.path;

/// What is measured on a page of its own, where the step has it.
export type Group = '/tread' | '/balusters' | '/newels' | '/starter';
export const groupOf = (path: string): Group | undefined => /^\/(tread|balusters|newels|starter)(?=\/|$)/.exec(path)?.[0] as Group | undefined;
export const groups = (flight: FlightText, step: Which): Group[] => [
  ...(isTop(flight, step) ? [] : ['/tread' as const]), '/balusters', '/newels', ...(step === 1 ? ['/starter' as const] : []),
];
export function groupFields(flight: FlightText, step: Which, group: Group): Field[] {
  const value = measureOf(flight, step, group);
  if (group === '/tread') return treadFields(value);
  if (group === '/starter') return starterFields(value);
  const posts = group.slice(1) as Posts, rows = rowsOf(value);
  return rows.flatMap((_, i) => rowFields(posts, rows, i).map((field) => ({ ...field, number: i + 1 })));
}

/// Of one step, or of the usual one.
export function stepFields(flight: FlightText, step: Which): Field[] {
  const tread = measureOf(flight, step, '/tread') !== undefined;
  return [
    length('/rise', 'measure-rise'),
    { ...length('/rise_right', 'measure-rise-right'), optional: true },
    ...(tread ? [] : [...(isTop(flight, step) ? [] : [length('/going', 'measure-going')]), length('/width', 'measure-width')]),
    ...nosing(flight, step), ...side(flight, step, 'left'), ...side(flight, step, 'right'),
  ];
}

/// Of the flight as a whole, after its usual step.
export const flightFields: readonly Field[] = [
  { path: '/cover', key: 'measure-cover', kind: 'choice', choices: covers },
  { path: '/open_risers', key: 'measure-open-risers', kind: 'choice', choices: risers },
  length('/landing_edge', 'measure-landing-edge'),
  { path: '/risers', key: 'measure-risers', kind: 'count' },
  { ...length('/total_rise', 'measure-total-rise'), optional: true },
  { path: '/treads_counted', key: 'measure-treads-counted', kind: 'count', optional: true },
];

/// What a new stair is asked, one after another.
export const asked = (flight: FlightText): Field[] => [...stepFields(flight, 'usual').filter(({ optional }) => !optional), flightFields[0]!];

/// Of which carpet a flight or floor is, where there are several.
export const carpetFields = ({ carpets }: Job): Field[] =>
  carpets.length < 2 ? [] : [{ path: '/carpet', key: 'measure-carpet', kind: 'choice', choices: carpets.map(({ id, name }): Choice => ({ word: `=${id}`, key: 'measure-carpet', text: name })) }];

/// What the pad for it has: fractions for inches, decimals else.
export const padOf = ({ kind }: Field, units: Job['units']): Kind => (kind === 'count' ? 'count' : kind === 'length' && units === 'in' ? 'in' : 'metric');

/// Shown for a value: as it was typed, or the words of a choice.
export function chosenWord(field: Field, value: unknown): string | undefined {
  if (field.path.startsWith('/landing')) return arrivalWord(field.path, value);
  if (field.path === '/open_risers') return value === true ? 'open' : 'closed';
  if (field.path === '/carpet') return `=${String(value)}`;
  if (field.path === '/tread') return shapeOf(value);
  if (field.path === '/starter') return starterOf(value);
  if (field.path === '/starter/closing') return String(value ?? 'band'); // as core takes it
  return /^\/starter\/(left|right)$/.test(field.path) ? roundOf(value) : wordOf(value);
}
export const shownChoice = (field: Field, value: unknown): Choice | undefined => field.choices?.find(({ word }) => word === chosenWord(field, value));

/// What the nearest step below says for itself in this measure, for one tap.
export function below(flight: FlightText, step: Which, path: string): unknown {
  if (step === 'usual') return undefined;
  for (let n = step - 1; n > 0; n--) if (differs(flight, n, path)) return measureOf(flight, n, path);
  return undefined;
}
