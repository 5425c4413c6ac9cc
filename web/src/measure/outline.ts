/// The bare step's lines as the plan has them, in millimetres: what a picture needs and the plan leaves to its reader.
import type { Plan } from '../core/door';

export type Step = Plan['stairs'][number]['flights'][number]['steps'][number];
export type Pt = readonly [number, number];

const minus = (a: Pt, b: Pt): Pt => [a[0] - b[0], a[1] - b[1]];
const along = (p: Pt, d: Pt, k: number): Pt => [p[0] + d[0] * k, p[1] + d[1] * k];
export const unit = (a: Pt, b: Pt): Pt => {
  const [x, y] = minus(b, a);
  const size = Math.hypot(x, y) || 1;
  return [x / size, y / size];
};

/// The tread's own end in plan, from the nosing's edge back: over a riser's end by the overhang, past the next face by the return.
function end(path: readonly Pt[], outward: 1 | -1, { overhang_mm, return_past_mm }: Step['left'], projection: number): Pt[] {
  const first = path[0]!, last = path.at(-1)!;
  const d0 = unit(first, path[1] ?? [first[0], first[1] + 1]), d1 = unit(path.at(-2) ?? [last[0], last[1] - 1], last);
  const shift = (p: Pt, d: Pt): Pt => along(p, [outward * d[1], -outward * d[0]], overhang_mm);
  const from = shift(first, d0);
  const start = Math.abs(d0[1]) > 0.05 ? along(from, d0, (-projection - from[1]) / d0[1]) : from;
  return [start, ...path.slice(1, -1), along(shift(last, d1), d1, return_past_mm)];
}

/// An end's last point, without the return.
const short = (line: readonly Pt[], past: number): Pt => along(line.at(-1)!, unit(line.at(-2)!, line.at(-1)!), -past);

export interface Outline {
  left: Pt[]; // the tread's ends, front to back
  right: Pt[];
  front: Pt[]; // left to right
  riser: [Pt, Pt]; // the face below
  back: [Pt, Pt]; // the next riser's face
  meets: [Pt, Pt]; // where the tread's ends meet the line of it
}

export function outline(step: Step): Outline {
  const leftPath: readonly Pt[] = step.left_side_mm ?? [[0, 0], [0, step.going_mm]];
  const rightPath: readonly Pt[] = step.right_side_mm ?? [[step.width_mm, 0], [step.width_mm, step.going_mm]];
  const p = step.nosing.projection_mm;
  const curve = step.curved_front_mm;
  const left = end(leftPath, -1, step.left, p), right = end(rightPath, 1, step.right, p);
  return {
    left: curve ? [curve[0]!, ...(step.left.kind === 'open' ? [] : left.slice(1))] : left,
    right: curve ? [curve.at(-1)!, ...(step.right.kind === 'open' ? [] : right.slice(1))] : right,
    front: curve ? [...curve] : [left[0]!, right[0]!],
    riser: [leftPath[0]!, rightPath[0]!],
    back: [leftPath.at(-1)!, rightPath.at(-1)!],
    meets: [short(left, step.left.return_past_mm), short(right, step.right.return_past_mm)],
  };
}

/// The board's outline. An open end runs on past the next riser's face, in front of that riser's end.
export function treadOf({ left, right, front, back }: Outline, step: Step): Pt[] {
  const corner = (end: readonly Pt[], side: Step['left'], face: Pt): Pt[] => {
    const d = unit(end.at(-2) ?? [face[0], face[1] - 1], end.at(-1)!);
    return side.kind === 'open' && end.length > 1 ? [along(face, d, side.return_past_mm), face] : [];
  };
  return [...front, ...right.slice(1), ...corner(right, step.right, back[1]), ...[...left.slice(1), ...corner(left, step.left, back[0])].reverse()];
}

/// Side view, the stair rising to the right: y into the stair, z up from the tread below. As an SVG path, mapped by `at`.
export function section(step: Step, profile: string, at: (y: number, z: number) => Pt, scale: number): string {
  const { rise_mm: r, going_mm: g } = step;
  const { projection_mm: p, thickness_mm: t, radius_mm } = step.nosing;
  const c = profile === 'bevelled' ? t / 3 : 0; // its size is no part of the plan: the shape only
  const a = c ? 0 : Math.min(radius_mm, t / 2, Math.max(p, 0.01));
  const xy = (y: number, z: number) => at(y, z).map((v) => v.toFixed(2)).join(' ');
  const arc = (y: number, z: number) => (a ? `A ${a * scale} ${a * scale} 0 0 1 ${xy(y, z)}` : `L ${xy(y, z)}`);
  const up = step.landing_edge ? [`L ${xy(g * 1.4, r)}`, `L ${xy(g * 1.4, -t)}`] : [`L ${xy(g, r)}`, `L ${xy(g, r * 1.35)}`, `L ${xy(g * 1.15, r * 1.35)}`, `L ${xy(g * 1.15, -t)}`];
  return [
    `M ${xy(-g - p, 0)}`, `L ${xy(0, 0)}`, `L ${xy(0, r - t)}`, `L ${xy(-p + a, r - t)}`, arc(-p, r - t + a), `L ${xy(-p, r - a - c)}`,
    c ? `L ${xy(-p + c, r)}` : arc(-p + a, r), ...up, `L ${xy(-g - p, -t)}`, 'Z',
  ].join(' ');
}

/// How the carpet lies over one step, from the side: falling from the nosing, or fastened under it.
export function carpetLine(step: Step, wrapped: boolean): Pt[] {
  const { rise_mm: r, going_mm: g } = step, { projection_mm: p, thickness_mm: t } = step.nosing, c = 8;
  const over: Pt[] = [[g - c, r + c], [-p - c, r + c]];
  return wrapped ? [...over, [-p - c, r - t - c], [-c, r - t - c], [-c, c]] : [...over, [-p - c, r - t], [-c, c]];
}
