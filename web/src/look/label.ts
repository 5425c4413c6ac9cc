/// Where on a piece its name stands: in the middle of its own goods, not of the rectangle around an outline.
export type Point = number[]; // u, v

/// From where to where the outline reaches across at v; of several such stretches the widest.
export function chord(outline: Point[], v: number): [number, number] | undefined {
  const at = outline.flatMap(([u0, v0], i) => {
    const [u1, v1] = outline[(i + 1) % outline.length]!;
    return v0! <= v === v1! <= v ? [] : [u0! + ((v - v0!) / (v1! - v0!)) * (u1! - u0!)];
  }).sort((a, b) => a - b);
  const stretches = at.flatMap((u, i): [number, number][] => (i % 2 ? [[at[i - 1]!, u]] : []));
  return stretches.sort((a, b) => b[1] - b[0] - (a[1] - a[0]))[0];
}

export interface Label { u: number; v: number; wide: number } // its middle, and the room across for lines within `half` of it

/// On the centroid's height (by Green's theorem, the sum over the corners).
export function label(outline: Point[], half: number): Label {
  let area = 0, moment = 0;
  outline.forEach(([u0, v0], i) => {
    const [u1, v1] = outline[(i + 1) % outline.length]!;
    const cross = u0! * v1! - u1! * v0!;
    area += cross;
    moment += (v0! + v1!) * cross;
  });
  const v = moment / (3 * area);
  const [middle, ...around] = [v, v - half, v + half].map((at) => chord(outline, at));
  const from = Math.max(middle![0], ...around.map((c) => c?.[0] ?? -Infinity)), to = Math.min(middle![1], ...around.map((c) => c?.[1] ?? Infinity));
  return to > from ? { u: (from + to) / 2, v, wide: to - from } : { u: (middle![0] + middle![1]) / 2, v, wide: 0 };
}
