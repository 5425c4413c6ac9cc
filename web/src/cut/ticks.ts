/// Ticks at the cutting table and on the stair.
import type { Plan } from '../core/door';
import type { Progress } from '../jobs/record';

const without = (list: string[], id: string) => list.filter((one) => one !== id);
const withIt = (list: string[], id: string) => [...without(list, id), id];

/// A cut piece is no longer spoiled; its size is kept, so that a later measure cannot pass it by.
export function tickCut(progress: Progress, id: string, on: boolean, plan: Plan): Progress {
  const piece = plan.pieces.find((p) => p.id === id);
  const sizes = { ...progress.sizes };
  if (on && piece) sizes[id] = [piece.cut_width_mm, piece.cut_length_mm];
  else delete sizes[id];
  return { ...progress, sizes, cut: on ? withIt(progress.cut, id) : without(progress.cut, id), spoiled: on ? without(progress.spoiled, id) : progress.spoiled };
}
/// A spoiled piece has to be cut again before it can be hung. Not spoiled after all: cut, if it was.
export const tickSpoiled = (progress: Progress, id: string, on: boolean): Progress => ({
  ...progress,
  spoiled: on ? withIt(progress.spoiled, id) : without(progress.spoiled, id),
  cut: on ? without(progress.cut, id) : progress.sizes?.[id] ? withIt(progress.cut, id) : progress.cut,
  hung: on ? without(progress.hung, id) : progress.hung,
});
export const tickHung = (progress: Progress, id: string, on: boolean): Progress => ({ ...progress, hung: on ? withIt(progress.hung, id) : without(progress.hung, id) });

/// The size it was cut to, if the plan now asks for another.
export function cutOtherwise(progress: Progress, id: string, plan: Plan): [number, number] | undefined {
  const size = progress.cut.includes(id) ? progress.sizes?.[id] : undefined;
  const piece = plan.pieces.find((p) => p.id === id);
  return size && piece && (size[0] !== piece.cut_width_mm || size[1] !== piece.cut_length_mm) ? size : undefined;
}
