/// The pieces as the knife frees them, each with the strokes that lead to it from the piece before.
import type { Plan } from '../core/door';

export type Roll = Plan['layouts'][number]['rolls'][number];
export type Stroke = Roll['knife_order'][number];
export type Placement = Roll['placements'][number];
export interface CutLine { placement: Placement; strokes: Stroke[] }
export interface Stretch { carpet: string; stock: string; remnant: boolean; lines: CutLine[]; last: Stroke[] } // last: strokes after the last piece

export function stretch(carpet: string, roll: Roll): Stretch {
  const left = new Map(roll.placements.map((placement) => [placement.piece, placement]));
  const lines: CutLine[] = [];
  let strokes: Stroke[] = [];
  for (const stroke of roll.knife_order) {
    strokes.push(stroke);
    const placement = left.get(stroke.frees);
    if (!placement) continue;
    left.delete(stroke.frees);
    lines.push({ placement, strokes });
    strokes = [];
  }
  const rest = [...left.values()].map((placement) => ({ placement, strokes: [] })); // freed by a stroke that names another
  return { carpet, stock: roll.stock, remnant: roll.remnant, lines: [...lines, ...rest], last: strokes };
}

export const stretches = (plan: Plan): Stretch[] => plan.layouts.flatMap((layout) => layout.rolls.map((roll) => stretch(layout.carpet, roll)));

/// Strokes towards pieces that are left out lead on to the next piece that is not.
export function carriedOn(lines: CutLine[], leftOut: (piece: string) => boolean): CutLine[] {
  let carried: Stroke[] = [];
  return lines.map(({ placement, strokes }) => {
    const all = [...carried, ...strokes];
    carried = leftOut(placement.piece) ? all : [];
    return { placement, strokes: carried.length ? [] : all };
  });
}

/// Pieces that lie on no roll: they do not fit their step, or no roll; the problems say why.
export function notLaid(plan: Plan): string[] {
  const laid = new Set(plan.layouts.flatMap((layout) => layout.rolls.flatMap((roll) => roll.placements.map((p) => p.piece))));
  return plan.pieces.map((piece) => piece.id).filter((id) => !laid.has(id));
}
