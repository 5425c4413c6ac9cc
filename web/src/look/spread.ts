/// Places for labels along an edge: in the order of what they label, as near to it as `gap` allows, within `from`…`to` if that can be.
export function spread(wanted: number[], gap: number, from: number, to: number): number[] {
  const places = [...wanted];
  for (let i = 0; i < places.length; ++i) places[i] = Math.max(places[i]!, i ? places[i - 1]! + gap : from);
  for (let i = places.length - 1; i >= 0; --i) places[i] = Math.min(places[i]!, i + 1 < places.length ? places[i + 1]! - gap : to);
  return places;
}
