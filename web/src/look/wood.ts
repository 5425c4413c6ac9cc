/// A step's bare wood in its own frame: the board with its nosing, what carries it, and what stands on it.
import { type BufferGeometry, CylinderGeometry } from 'three';
import type { Plan } from '../core/door';
import { block, box, loft, type Level, type Point } from './loft';

export type Step = Plan['stairs'][number]['flights'][number]['steps'][number];
/// `edges`: pairs of points to ink; else every sharp edge is.
export interface Solid { geometry: BufferGeometry; edges?: number[] }
const SHOWN_UPRIGHT_MM = 240;

/// A side from the riser's end into the stair; steps drawn as rectangles where the plan tells no sides.
export function sides(step: Step): [Point[], Point[]] {
  const { width_mm: w, going_mm: g } = step;
  return [(step.left_side_mm ?? [[0, 0], [0, g]]) as Point[], (step.right_side_mm ?? [[w, 0], [w, g]]) as Point[]];
}

/// The board's edge along a side, from the nosing's front to the back; `out`: 1 to the right, -1 to the left.
function edge(line: Point[], side: Step['left'], out: 1 | -1, front: number, landing: boolean): Point[] {
  const [a, b] = [line[0]!, line[1]!], last = line.at(-1)!;
  const size = Math.hypot(b[0] - a[0], b[1] - a[1]);
  const [dx, dy] = landing || !size ? [0, 1] : [(b[0] - a[0]) / size, (b[1] - a[1]) / size];
  const e = side.kind === 'open' ? side.overhang_mm : 0, q = side.kind === 'open' ? side.return_past_mm : 0;
  const start: Point = [a[0] + out * dy * e, a[1] - out * dx * e];
  const run = dy > 0.01 ? (front - start[1]) / dy : 0;
  const foremost: Point = [start[0] + run * dx, start[1] + run * dy];
  if (side.kind !== 'open') return [foremost, ...line];
  const behind: Point = [last[0] + dx * q, last[1] + dy * q];
  return [foremost, [behind[0] + out * dy * e, behind[1] - out * dx * e], behind, last];
}

/// The front from left to right, moved back by `inset`.
function inward(front: Point[], inset: number): Point[] {
  return front.map(([x, y], i) => {
    const [px, py] = front[Math.max(0, i - 1)]!, [nx, ny] = front[Math.min(front.length - 1, i + 1)]!;
    const size = Math.hypot(nx - px, ny - py) || 1;
    return [x - ((ny - py) / size) * inset, y + ((nx - px) / size) * inset];
  });
}

function board(step: Step): BufferGeometry {
  const { projection_mm: o, thickness_mm: t, radius_mm: r } = step.nosing;
  const [left, right] = sides(step), top = step.rise_mm;
  let front: Point[], rest: Point[];
  if (step.curved_front_mm?.length) {
    front = step.curved_front_mm as Point[];
    rest = [right.at(-1)!, left.at(-1)!];
  } else {
    const onRight = edge(right, step.right, 1, -o, step.landing_edge), onLeft = edge(left, step.left, -1, -o, step.landing_edge);
    front = [onLeft[0]!, onRight[0]!];
    rest = [...onRight.slice(1), ...onLeft.slice(1).reverse()];
  }
  const level = (inset: number, z: number): Level => ({ outline: [...inward(front, inset), ...rest], z });
  if (r <= 0) return loft([level(0, top - t), level(0, top)]);
  const ARC = 4, levels: Level[] = [];
  for (let i = 0; i <= ARC; ++i) {
    const a = (i / ARC) * (Math.PI / 2);
    levels.push(level(r * (1 - Math.sin(a)), top - t + r * (1 - Math.cos(a))));
  }
  for (let i = 0; i <= ARC; ++i) {
    const a = (i / ARC) * (Math.PI / 2);
    levels.push(level(r * (1 - Math.cos(a)), top - r + r * Math.sin(a)));
  }
  return loft(levels);
}

/// From the floor up to the board; inked where the whole stair has an edge, not where one step's ends at the next.
function body(step: Step, last: boolean): Solid | undefined {
  if (step.open_riser) return undefined;
  const [left, right] = sides(step), { projection_mm: o, thickness_mm: t } = step.nosing;
  const front: Point[] = step.curved_front_mm?.length ? inward(step.curved_front_mm as Point[], o) : [left[0]!, right[0]!];
  const back = step.curved_front_mm?.length ? [right.at(-1)!, left.at(-1)!] : [...right.slice(1), ...left.slice(1).reverse()];
  const floor = -(step.frame?.z_mm ?? 0), top = step.rise_mm - t;
  const edges: number[] = [];
  const ink = ([x0, y0]: Point, z0: number, [x1, y1]: Point, z1: number) => edges.push(x0, y0, z0, x1, y1, z1);
  for (const p of [front[0]!, front.at(-1)!]) ink(p, 0, p, top);
  if (last) for (const p of [left.at(-1)!, right.at(-1)!]) ink(p, floor, p, top);
  for (const side of [left, right]) side.slice(1).forEach((p, i) => ink(side[i]!, floor, p, floor));
  front.slice(1).forEach((p, i) => ink(front[i]!, 0, p, 0));
  return { geometry: block([...front, ...back], floor, top), edges };
}

function upright(u: NonNullable<Step['uprights']>[number], z: number): BufferGeometry {
  const [x, y] = u.centre_mm, w = u.width_mm / 2, d = u.depth_mm / 2;
  if (!u.round) return box(x - w, x + w, y - d, y + d, z, z + SHOWN_UPRIGHT_MM);
  return new CylinderGeometry(w, w, SHOWN_UPRIGHT_MM, 16).rotateX(Math.PI / 2).translate(x, y, z + SHOWN_UPRIGHT_MM / 2);
}

export const wood = (step: Step, last: boolean): Solid[] =>
  [{ geometry: board(step) }, body(step, last), ...(step.uprights ?? []).map((u) => ({ geometry: upright(u, step.rise_mm) }))].filter((s) => s !== undefined);
