/// A signature's strokes: x, y, x, y … in thousandths of its box's width.
export const HEIGHT = 320; // of the box, in the same measure

export type Stroke = number[];

/// A point of the screen in the box, within its edges.
export function inBox(point: { clientX: number; clientY: number }, box: { left: number; top: number; width: number }): [number, number] {
  const at = (px: number, most: number) => Math.round(Math.max(0, Math.min(most, (px / box.width) * 1000)));
  return [at(point.clientX - box.left, 1000), at(point.clientY - box.top, HEIGHT)];
}

/// The stroke with one point more, unless the hand has hardly moved.
export function longer(stroke: Stroke, [x, y]: [number, number]): Stroke {
  const [lastX, lastY] = stroke.slice(-2);
  return lastX !== undefined && lastY !== undefined && Math.hypot(x - lastX, y - lastY) < 2 ? stroke : [...stroke, x, y];
}

/// As an SVG path; a dot is a short line.
export function path(stroke: Stroke): string {
  let d = '';
  for (let i = 0; i + 1 < stroke.length; i += 2) d += `${i ? 'L' : 'M'}${stroke[i]},${stroke[i + 1]}`;
  return stroke.length === 2 ? `${d}h0.1` : d;
}
