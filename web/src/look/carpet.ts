/// A piece of carpet that folds: the core tells where each point is at some stages, and between two of them it goes straight.
import { BufferAttribute, BufferGeometry } from 'three';
import type { Fold } from '../core/door';

export type Shape = Fold['shapes'][number];
export const kinds = ['edge', 'seams', 'folds', 'hems', 'strip'] as const;
export type Kind = (typeof kinds)[number];
const kindOf: Record<Shape['lines'][number]['role'], Kind> = {
  seam: 'seams', cut: 'seams', glue: 'seams', fold: 'folds', hem: 'hems', tuck: 'hems', trim: 'hems', strip: 'strip',
};

/// Where every point is at `fraction` of the fold, into `out`.
export function folded(shape: Shape, fractions: number[], fraction: number, out: Float32Array) {
  let after = fractions.findIndex((f) => f >= fraction);
  if (after < 0) after = fractions.length - 1;
  const before = Math.max(0, after - 1);
  const span = fractions[after]! - fractions[before]!;
  const share = span > 0 ? (fraction - fractions[before]!) / span : 1;
  const a = shape.positions_mm[before]!, b = shape.positions_mm[after]!;
  for (let i = 0; i < out.length; ++i) out[i] = a[i]! + (b[i]! - a[i]!) * share;
}

/// Edges of the flat piece itself, as pairs of points: sides of one triangle only, also where two faces meet.
function outline(shape: Shape): number[] {
  const key = (v: number) => `${shape.flat_mm[2 * v]!.toFixed(1)},${shape.flat_mm[2 * v + 1]!.toFixed(1)}`;
  const met = new Map<string, { ends: [number, number]; times: number }>();
  for (let i = 0; i < shape.triangles.length; i += 3)
    for (let k = 0; k < 3; ++k) {
      const a = shape.triangles[i + k]!, b = shape.triangles[i + ((k + 1) % 3)]!;
      const name = [key(a), key(b)].sort().join(' ');
      const known = met.get(name);
      if (known) ++known.times;
      else met.set(name, { ends: [a, b], times: 1 });
    }
  return [...met.values()].filter((e) => e.times === 1).flatMap((e) => e.ends);
}

/// For each kind of line its pairs of points.
export function lines(shape: Shape): Map<Kind, number[]> {
  const found = new Map<Kind, number[]>([['edge', outline(shape)]]);
  for (const line of shape.lines) {
    const kind = kindOf[line.role];
    found.set(kind, [...(found.get(kind) ?? []), ...line.vertices]);
  }
  return found;
}

export function surface(shape: Shape): BufferGeometry {
  const geometry = new BufferGeometry();
  geometry.setAttribute('position', new BufferAttribute(new Float32Array(shape.positions_mm[0]!.length), 3));
  geometry.setIndex(shape.triangles);
  return geometry;
}
