/// Measuring pictures: millimetres fitted into a box, and a dimension line on them as a workshop draws it.
import type { Pt } from './outline';

export interface Box { x0: number; y0: number; x1: number; y1: number }
export interface Dimension { lines: string; at: Pt; anchor: 'start' | 'middle' | 'end' }

export const around = (points: readonly Pt[]): Box => ({
  x0: Math.min(...points.map((p) => p[0])), x1: Math.max(...points.map((p) => p[0])),
  y0: Math.min(...points.map((p) => p[1])), y1: Math.max(...points.map((p) => p[1])),
});

export interface Margins { left: number; right: number; top: number; bottom: number }
export const margins = (all: number, others: Partial<Margins> = {}): Margins => ({ left: all, right: all, top: all, bottom: all, ...others });

/// Fits `box`, whose y runs up, into width × height inside the margins.
export class Fit {
  readonly scale: number;
  readonly #dx: number;
  readonly #dy: number;
  constructor(box: Box, width: number, height: number, m: Margins) {
    const [w, h] = [Math.max(box.x1 - box.x0, 1), Math.max(box.y1 - box.y0, 1)];
    this.scale = Math.min((width - m.left - m.right) / w, (height - m.top - m.bottom) / h);
    this.#dx = (width + m.left - m.right - w * this.scale) / 2 - box.x0 * this.scale;
    this.#dy = (height + m.top - m.bottom + h * this.scale) / 2 + box.y0 * this.scale;
  }
  at = (x: number, y: number): Pt => [this.#dx + x * this.scale, this.#dy - y * this.scale];
  of = (p: Pt): Pt => this.at(p[0], p[1]);
  path = (points: readonly Pt[], closed = false) => pathOf(points.map(this.of)) + (closed ? ' Z' : '');
}

const n = (value: number) => value.toFixed(1);
export const pathOf = (points: readonly Pt[]) => points.map((p, i) => `${i ? 'L' : 'M'} ${n(p[0])} ${n(p[1])}`).join(' ');

/// Between two points of the picture, set off square to them: to the left of a → b, as the screen shows it, if `off` is positive.
export function dimension(a: Pt, b: Pt, off: number): Dimension {
  const [dx, dy] = [b[0] - a[0], b[1] - a[1]];
  const size = Math.hypot(dx, dy) || 1;
  const [ux, uy] = [dx / size, dy / size];
  const [nx, ny] = [uy, -ux];
  const far = off + Math.sign(off) * 5;
  const move = (p: Pt, k: number): Pt => [p[0] + nx * k, p[1] + ny * k];
  const tick = (p: Pt) => pathOf([[p[0] - (ux - nx) * 5, p[1] - (uy - ny) * 5], [p[0] + (ux - nx) * 5, p[1] + (uy - ny) * 5]]);
  const [a1, b1] = [move(a, off), move(b, off)];
  const extended = off ? [pathOf([move(a, Math.sign(off) * 3), move(a, far)]), pathOf([move(b, Math.sign(off) * 3), move(b, far)])] : [];
  const middle: Pt = [(a1[0] + b1[0]) / 2, (a1[1] + b1[1]) / 2];
  const upright = Math.abs(uy) > 0.7;
  const side = off < 0 ? -1 : 1;
  const at: Pt = upright ? [middle[0] + nx * side * 9, middle[1] + 6] : [middle[0], middle[1] + (ny * side < 0 ? -7 : 19)];
  return { lines: [pathOf([a1, b1]), tick(a1), tick(b1), ...extended].join(' '), at, anchor: upright ? (nx * side < 0 ? 'end' : 'start') : 'middle' };
}
