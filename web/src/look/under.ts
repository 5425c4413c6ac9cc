/// What lies between wood and carpet, in the frame of its step.
import { BufferGeometry, Float32BufferAttribute, Path, Shape, ShapeGeometry, ShapeUtils, Vector2 } from 'three';
import type { Plan } from '../core/door';
import { block, type Point } from './loft';
import type { Step } from './wood';

type FlightFixings = Plan['fixings'][number];
type Fixings = FlightFixings['steps'][number];
const ABOVE_MM = 1.5; // so that it is seen on the wood

/// `strip`: as one looks at it with its riser behind it; across, then away from the riser.
function outline(strip: Fixings['strips'][number], width: number): Point[] {
  const cut = (angle_deg: number) => width / Math.tan((angle_deg * Math.PI) / 180);
  const l = cut(strip.left_angle_deg), r = cut(strip.right_angle_deg), { from_mm: a, to_mm: b } = strip;
  const over = (x: number) => Math.max(0, x);
  return [[a + over(-l), width], [b - over(-r), width], [b - over(r), 0], [a + over(l), 0]];
}

/// Of a tread, as seen from its back's left end, along the back; of a riser, in the step's frame.
export function strips(fixings: Fixings, flight: FlightFixings, place: 'tread' | 'riser'): BufferGeometry[] {
  const width = flight.strip_width_mm ?? 0, thick = flight.strip_thickness_mm ?? 0;
  if (!width || !thick) return [];
  return fixings.strips.filter((s) => s.place === place).map((s) => {
    const away = outline(s, width);
    if (place === 'tread') return block(away.map(([x, y]) => [x, -s.set_off_mm - y]), 0, thick);
    return block(away.map(([x, y]) => [x, s.set_off_mm + width - y]), 0, thick).rotateX(Math.PI / 2);
  });
}

/// The part of an outline on one side of y = `at`.
function part(line: Point[], at: number, below: boolean): Point[] {
  const inside = (p: Point) => (below ? p[1] <= at : p[1] >= at), kept: Point[] = [];
  line.forEach((p, i) => {
    const q = line[(i + 1) % line.length]!;
    if (inside(p)) kept.push(p);
    if (inside(p) !== inside(q)) kept.push([p[0] + ((at - p[1]) / (q[1] - p[1])) * (q[0] - p[0]), at]);
  });
  return kept;
}

/// Drawn as it lies: on the board and, beyond the nosing's front, straight down.
export function pad(fixings: Fixings, step: Step): BufferGeometry[] {
  const { outline_mm: line, riser_y_mm: riser, holes_mm: holes = [] } = fixings.pad;
  if (!line.length || riser === undefined) return [];
  const front = riser + step.nosing.projection_mm, top = step.rise_mm + ABOVE_MM;
  const on = part(line as Point[], front, true), over = part(line as Point[], front, false), made: BufferGeometry[] = [];
  if (on.length > 2) {
    const shape = new Shape(on.map(([x, y]) => new Vector2(x, riser - y)));
    if (!step.curved_front_mm) shape.holes = holes.map((hole) => new Path(hole.map(([x, y]) => new Vector2(x, riser - y))));
    made.push(new ShapeGeometry(shape).translate(0, 0, top));
  }
  if (over.length > 2 && !step.curved_front_mm) {
    const triangles = ShapeUtils.triangulateShape(over.map(([x, y]) => new Vector2(x, -y)), []).flat();
    const geometry = new BufferGeometry();
    geometry.setAttribute('position', new Float32BufferAttribute(triangles.flatMap((i) => [over[i]![0], -step.nosing.projection_mm - ABOVE_MM, top - (over[i]![1] - front)]), 3));
    geometry.computeVertexNormals();
    made.push(geometry);
  }
  return made;
}
