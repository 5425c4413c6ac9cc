/// The words of choices and of what they come to.
import { shown, shownArea, type Units } from '../app/length';
import { money } from '../app/money';
import { said } from '../text/said.svelte';
import { reader, t, type Key } from '../text/text.svelte';
import type { Problem } from '../core/door';
import type { Group, Option } from './choices';
import { lengthApart, type Figures } from './figures';

const joinWords: Record<string, string> = { 1: 'own', best: 'best' };
export const optionWords = (group: Group, option: Option) =>
  t(`choose-${group.key}-${group.key === 'join' ? joinWords[option.key] ?? 'up-to' : option.key.replace(/-.*/, '')}` as Key, option.given);
export const groupWords = (group: Group) => t(`choose-${group.key}`) + (group.of ? ` · ${group.of}` : '');

const percent = (share: number) => new Intl.NumberFormat(reader.language, { style: 'percent', maximumFractionDigits: 0 }).format(share);

export interface Cell { what: string; value: string; small?: string; apart?: string; better?: boolean }

const sign = (n: number) => (n > 0 ? '+' : '−');
/// "+3", "−3" or the words for no difference; less is better in all that is compared here.
function apart(n: number, words: (size: number) => string): Pick<Cell, 'apart' | 'better'> {
  return n === 0 ? { apart: t('choose-same') } : { apart: `${sign(n)}${words(Math.abs(n))}`, better: n < 0 };
}

/// Four cells: to buy, waste, work, price; each with how far it is from `now`, if that is given.
export function cells(figures: Figures, units: Units, now?: Figures): Cell[] {
  const rolls = figures.bought.map((roll) => t('choose-of-width', { length: shown(roll.length_mm, units), width: shown(roll.width_mm, units) }));
  const length = now && lengthApart(figures, now);
  const areaApart = now ? Math.round((figures.area_m2 - now.area_m2) * 1e4) / 1e4 : 0;
  const points = (f: Figures) => Math.round(f.waste * 100);
  const works = (pieces: number, strokes: number) => `${t('choose-pieces', { n: pieces })}, ${t('choose-strokes', { n: strokes })}`;
  const work: Pick<Cell, 'apart' | 'better'> = {};
  if (now) {
    const pieces = figures.pieces - now.pieces, strokes = figures.strokes - now.strokes;
    const told = [pieces && `${sign(pieces)}${t('choose-pieces', { n: Math.abs(pieces) })}`, strokes && `${sign(strokes)}${t('choose-strokes', { n: Math.abs(strokes) })}`].filter(Boolean);
    work.apart = told.join(', ') || t('choose-same');
    if (told.length && pieces <= 0 && strokes <= 0) work.better = true;
    else if (told.length && pieces >= 0 && strokes >= 0) work.better = false;
  }
  return [
    {
      what: t('choose-buy'), value: rolls.join(' + ') || t('choose-nothing'), small: shownArea(figures.area_m2, units),
      ...(now && (length !== undefined ? apart(length, (mm) => shown(mm, units)) : apart(areaApart, (m2) => shownArea(m2, units)))),
    },
    { what: t('choose-waste'), value: percent(figures.waste), ...(now && apart(points(figures) - points(now), (n) => t('choose-points', { n }))) },
    { what: t('choose-work'), value: works(figures.pieces, figures.strokes), ...work },
    {
      what: t('choose-price'), value: figures.priced ? money(figures.cents, figures.currency) : t('choose-no-rates'),
      ...(now && figures.priced && apart(figures.cents - now.cents, (cents) => money(cents, figures.currency))),
    },
  ];
}

/// What no layout of the chosen width can be under.
export const bounds = (figures: Figures, units: Units) =>
  figures.bought.map((roll) => t(roll.least ? 'choose-least' : 'choose-bound', { length: shown(roll.bound_mm, units), buy: shown(roll.length_mm, units), why: said(roll.because) }));

/// A problem without its place in the file. What has no more than a sentence is the core's own end.
export function plainly({ sentence, found, expected }: Problem): string {
  if (!found) return sentence;
  const words = t('measure-found', { found: said(found) });
  return `${words.charAt(0).toUpperCase()}${words.slice(1)} ${t('measure-expected', { expected: said(expected) })}`;
}
