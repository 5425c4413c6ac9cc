/// Where on a piece its name stands: in the middle of its own goods, not of the rectangle around an outline, and in no hole.
export type Point = number[]; // u, v
export type Ring = Point[]; // closed by its first; of several the first is the outline, the others are holes in it, either way round

/// From where to where the goods reach across at v.
function stretches(rings: Ring[], v: number): [number, number][] {
  const at = rings.flatMap((ring) => ring.flatMap(([u0, v0], i) => {
    const [u1, v1] = ring[(i + 1) % ring.length]!;
    return v0! <= v === v1! <= v ? [] : [u0! + ((v - v0!) / (v1! - v0!)) * (u1! - u0!)];
  })).sort((a, b) => a - b);
  return at.flatMap((u, i): [number, number][] => (i % 2 ? [[at[i - 1]!, u]] : []));
}
const widest = (all: [number, number][]): [number, number] | undefined => all.sort((a, b) => b[1] - b[0] - (a[1] - a[0]))[0];
export const chord = (rings: Ring[], v: number) => widest(stretches(rings, v));

export interface Label { u: number; v: number; wide: number } // its middle, and the room across for lines within `half` of it

/// Twice a ring's area and six times its moment, by Green's theorem, the sum over the corners; both as if counter-clockwise.
function sums(ring: Ring): [number, number] {
  let area = 0, moment = 0;
  ring.forEach(([u0, v0], i) => {
    const [u1, v1] = ring[(i + 1) % ring.length]!;
    const cross = u0! * v1! - u1! * v0!;
    area += cross;
    moment += (v0! + v1!) * cross;
  });
  return area < 0 ? [-area, -moment] : [area, moment];
}
/// Of the goods without the holes.
export const area = (rings: Ring[]) => rings.reduce((sum, ring, i) => sum + (i ? -1 : 1) * (sums(ring)[0] / 2), 0);

/// On the centroid's height; beside holes, where there is most room.
export function label(rings: Ring[], half: number): Label {
  const bends = [...new Set(rings.flat().map(([, v]) => v!))].sort((a, b) => a - b);
  const room = (v: number): Label => {
    const middle = chord(rings, v)!;
    const [from, to] = [v - half, v + half, ...bends.filter((bend) => Math.abs(bend - v) < half)].reduce(
      ([from, to], at) => widest(stretches(rings, at).map(([a, b]) => [Math.max(a, from), Math.min(b, to)])) ?? [from, to], middle);
    return to > from ? { u: (from + to) / 2, v, wide: to - from } : { u: (middle[0] + middle[1]) / 2, v, wide: 0 };
  };
  const [twice, six] = rings.map(sums).reduce(([a, m], [area, moment]) => [a - area, m - moment]);
  const between = rings.length > 1 ? bends.slice(1).map((bend, i) => (bends[i]! + bend) / 2).filter((v) => bends[0]! <= v - half && v + half <= bends.at(-1)!) : [];
  return [six / (3 * twice), ...between].map(room).reduce((best, next) => (next.wide > best.wide ? next : best));
}
