/// A step's likeness while its readings are not all there: the shape, not to scale.
import type { Pt, Step } from './outline';
import { rowsOf } from './posts';
import { roundOf, starterOf } from './starters';
import { shapeOf } from './treads';

const points = (...all: [number, number][]) => all;
const mirrored = (path: [number, number][], width: number) => path.map(([x, y]): [number, number] => [width - x, y]);

function tread(step: Step, value: unknown): Step {
  const shape = shapeOf(value);
  if (shape === 'square') return step;
  const kite = shape.endsWith('-right') || shape.endsWith('-left');
  const width = kite ? 1050 : 900;
  const narrow = points([0, 0], [-15, 90]);
  const wide = kite ? points([1050, 0], [1250, 380], [880, 600]) : points([900, 0], [880, 520]);
  const turned = shape.endsWith('-left');
  return {
    ...step, width_mm: width, going_mm: 560, uprights: [],
    left_side_mm: turned ? mirrored(wide, width) : narrow, right_side_mm: turned ? mirrored(narrow, width) : wide,
    left: { ...step.left, overhang_mm: 0, return_past_mm: 0 }, right: { ...step.right, overhang_mm: 0, return_past_mm: 0 },
  };
}

/// A half or quarter round at each end that has one, or a bow for offsets.
function starter(step: Step, value: unknown): Step {
  const kind = starterOf(value);
  if (kind === 'none') return step;
  const { width_mm: w, going_mm: g } = step, p = -step.nosing.projection_mm;
  const given = value as Record<string, unknown>;
  const arc = (from: number, to: number, cx: number, turn: 1 | -1) =>
    Array.from({ length: 25 }, (_, i): Pt => {
      const a = from + ((to - from) * i) / 24;
      return [cx + turn * 190 * Math.sin(a), p + (g - p) / 2 - ((g - p) / 2) * Math.cos(a)];
    });
  const end = (which: 'left' | 'right'): Pt[] => {
    const round = kind === 'offsets' ? 'half' : roundOf(given[which]);
    const at = which === 'left' ? 0 : w;
    if (round === 'square') return [[at, p]];
    const out = arc(0, round === 'half' ? Math.PI : Math.PI / 2, at, which === 'left' ? -1 : 1);
    return round === 'half' ? out : [...out, [out.at(-1)![0], g]];
  };
  const ended = (which: 'left' | 'right'): Step['left'] =>
    kind === 'offsets' || roundOf(given[which]) !== 'square' ? { kind: 'open', overhang_mm: 0, return_past_mm: 0 } : step[which].kind === 'open' ? { kind: 'skirt', overhang_mm: 0, return_past_mm: 0 } : step[which];
  return { ...step, left: ended('left'), right: ended('right'), curved_front_mm: [...end('left').reverse(), ...end('right')] as unknown as Step['curved_front_mm'] };
}

/// A post for each that is asked for.
function posts(step: Step, rows: Record<string, unknown>[], what: 'baluster' | 'newel'): NonNullable<Step['uprights']> {
  return rows.flatMap((row) => {
    const size = what === 'newel' ? 90 : 34, right = row.side === 'right';
    return Array.from({ length: Number(row.count ?? 1) > 1 ? 2 : 1 }, (_, i) => ({
      what, round: row.shape !== 'square', width_mm: size, depth_mm: size,
      centre_mm: [right ? step.width_mm - 50 : 50, 35 + i * 125] as [number, number],
    }));
  });
}

export function schematic(step: Step, given: { tread: unknown; starter: unknown; balusters: unknown; newels: unknown }): Step {
  const made = starter(tread(step, given.tread), given.starter);
  return { ...made, uprights: [...posts(made, rowsOf(given.balusters), 'baluster'), ...posts(made, rowsOf(given.newels), 'newel')] };
}
