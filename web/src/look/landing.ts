/// The floor at the top of a flight, where the plan tells how they meet.
import type { Plan } from '../core/door';
import type { Piece } from './pieces';
import type { Step } from './wood';

/// `step`: the topmost. `edge`: the piece on it. `own`: the floor's own pieces; none where the edge's covers it all.
export interface Landing { step: Step; floor: Plan['stairs'][number]['floors'][number]; from_left_mm: number; edge?: Piece; own: Piece[] }

export function landingOf(plan: Plan, stair: number, flight: number): Landing | undefined {
  const { flights, floors } = plan.stairs[stair]!, { arrival, steps } = flights[flight]!;
  const index = floors.findIndex(({ name }) => name === arrival?.floor), step = steps.at(-1);
  if (!arrival || index < 0 || !step) return undefined;
  return {
    step, floor: floors[index]!, from_left_mm: arrival.from_left_mm,
    edge: plan.pieces.find((p) => p.stair === stair && p.flight === flight && p.steps.includes(step.number)),
    own: plan.pieces.filter((p) => p.stair === stair && p.flight < 0 && p.floor === index),
  };
}
