/// What becomes of a spoiled piece. The one place for a plan of the rest on what is left, once the core makes one. Until then:
/// which offcuts of the same goods are at least as wide and as long, sizes against sizes, with the pile as it ran.
import type { Plan } from '../core/door';

export interface Offcut { stock: string; u_mm: number; v_mm: number; width_mm: number; length_mm: number }
export interface RecutAnswer { width_mm: number; length_mm: number; offcuts: Offcut[]; patterned: boolean }

export function recutAnswer(plan: Plan, piece: string, patterned: (carpet: string) => boolean): RecutAnswer | undefined {
  const spoiled = plan.pieces.find((p) => p.id === piece);
  if (!spoiled) return undefined;
  const { cut_width_mm: width_mm, cut_length_mm: length_mm, carpet } = spoiled;
  const offcuts = plan.layouts
    .filter((layout) => layout.carpet === carpet)
    .flatMap((layout) => layout.rolls.flatMap((roll) => roll.offcuts.map((offcut) => ({ stock: roll.stock, ...offcut }))))
    .filter((offcut) => offcut.width_mm >= width_mm && offcut.length_mm >= length_mm)
    .sort((a, b) => a.width_mm * a.length_mm - b.width_mm * b.length_mm);
  return { width_mm, length_mm, offcuts, patterned: patterned(carpet) };
}
