/// Which piece is looked at, and how one goes from it to the next.
import type { Job, Plan } from '../core/door';
import { size } from '../app/length';
import { said } from '../text/said.svelte';
import { t } from '../text/text.svelte';

export type Piece = Plan['pieces'][number];

/// Pieces in the order in which one walks up: the plan tells them from the top.
export const upwards = (plan: Plan): Piece[] => [...plan.pieces].reverse();

export function next(plan: Plan, id: string | undefined, by: 1 | -1): string | undefined {
  const pieces = upwards(plan);
  if (!pieces.length) return undefined;
  const now = pieces.findIndex((piece) => piece.id === id);
  const at = now < 0 ? (by > 0 ? 0 : pieces.length - 1) : (now + by + pieces.length) % pieces.length;
  return pieces[at]!.id;
}

export const covers = (piece: Piece | undefined, flight: number, step: number, stair: number) =>
  piece !== undefined && piece.stair === stair && piece.flight === flight && piece.steps.includes(step);

export const where = (piece: Piece, plan: Plan): string =>
  piece.flight < 0
    ? (plan.stairs[piece.stair]?.floors[piece.floor]?.name ?? '')
    : t('look-steps', { n: piece.steps.length, steps: [...piece.steps].reverse().join(', ') });

export const carpetName = (job: Job, id: string) => job.carpets.find((carpet) => carpet.id === id)?.name ?? id;
/// A remnant's name is the user's.
export const stockName = ({ stock, remnant }: { stock: string; remnant: boolean }) => (remnant ? stock : said(stock));

export const cutSize = (piece: Piece, plan: Plan) => size(piece.cut_width_mm, piece.cut_length_mm, plan.unit);
