/// A solid between outlines one above another: for drawing wood, not for measuring it.
import { BufferGeometry, Float32BufferAttribute, ShapeUtils, Vector2 } from 'three';

export type Point = [number, number];
export interface Level { outline: Point[]; z: number }

/// `levels`: from the bottom; outlines counter-clockwise from above, all with as many points. Faces apart, so that edges stay sharp.
export function loft(levels: Level[]): BufferGeometry {
  const at: number[] = [];
  const put = ([x, y]: Point, z: number) => at.push(x, y, z);
  const cap = ({ outline, z }: Level, up: boolean) => {
    for (const [a, b, c] of ShapeUtils.triangulateShape(outline.map(([x, y]) => new Vector2(x, y)), []) as [number, number, number][])
      for (const i of up ? [a, b, c] : [a, c, b]) put(outline[i]!, z);
  };
  cap(levels[0]!, false);
  for (let l = 0; l + 1 < levels.length; ++l) {
    const low = levels[l]!, high = levels[l + 1]!;
    low.outline.forEach((p, i) => {
      const j = (i + 1) % low.outline.length, q = low.outline[j]!, r = high.outline[j]!, s = high.outline[i]!;
      put(p, low.z); put(q, low.z); put(r, high.z);
      put(p, low.z); put(r, high.z); put(s, high.z);
    });
  }
  cap(levels.at(-1)!, true);
  const geometry = new BufferGeometry();
  geometry.setAttribute('position', new Float32BufferAttribute(at, 3));
  geometry.computeVertexNormals();
  return geometry;
}

export const block = (outline: Point[], from: number, to: number) => loft([{ outline, z: from }, { outline, z: to }]);
export const box = (x0: number, x1: number, y0: number, y1: number, z0: number, z1: number) => block([[x0, y0], [x1, y0], [x1, y1], [x0, y1]], z0, z1);
