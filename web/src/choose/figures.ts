/// What a plan comes to, for choices to be compared by. All of it stands in the plan; here it is only added up.
import type { Plan } from '../core/door';
import { area } from '../look/label';

export interface Bought { carpet: string; width_mm: number; length_mm: number; bound_mm: number; least: boolean; because: string }
export interface Figures {
  bought: Bought[]; // one for each roll; what comes from remnants is not bought
  area_m2: number; // ordered
  waste: number; // share of what is ordered that lies in no piece as it is cut
  pieces: number;
  strokes: number;
  cents: number;
  priced: boolean;
  currency: string;
}

type Placement = Plan['layouts'][number]['rolls'][number]['placements'][number];
/// Its outline's area, without its holes, where it is laid by that: rectangles then reach into each other.
const covered = ({ width_mm, length_mm, outline_mm, holes_mm = [] }: Placement): number =>
  outline_mm ? area([outline_mm, ...holes_mm]) : width_mm * length_mm;

export function figures(plan: Plan): Figures {
  const rolls = plan.layouts.flatMap((layout) => layout.rolls.map((roll) => ({ layout, roll })));
  const bought = rolls.filter(({ roll }) => !roll.remnant);
  const ordered = bought.reduce((sum, { roll }) => sum + roll.width_mm * roll.length_to_buy_mm, 0);
  const cut = bought.flatMap(({ roll }) => roll.placements).reduce((sum, piece) => sum + covered(piece), 0);
  return {
    bought: bought.map(({ layout, roll }) => ({
      carpet: layout.carpet, width_mm: roll.width_mm, length_mm: roll.length_to_buy_mm, bound_mm: layout.lower_bound_mm, least: layout.proved_least, because: layout.because,
    })),
    area_m2: plan.quote.ordered_area_m2,
    waste: ordered > 0 ? 1 - cut / ordered : 0,
    pieces: plan.pieces.length,
    strokes: rolls.reduce((sum, { roll }) => sum + roll.knife_order.length, 0),
    cents: plan.quote.total_cents,
    priced: plan.quote.lines.length > 0,
    currency: plan.quote.currency,
  };
}

/// By how much the length bought differs; undefined where rolls of other goods or widths stand against each other.
export function lengthApart(a: Figures, b: Figures): number | undefined {
  if (a.bought.length !== b.bought.length) return undefined;
  let apart = 0;
  for (const [i, roll] of a.bought.entries()) {
    const other = b.bought[i]!;
    if (roll.carpet !== other.carpet || roll.width_mm !== other.width_mm) return undefined;
    apart += roll.length_mm - other.length_mm;
  }
  return apart;
}
