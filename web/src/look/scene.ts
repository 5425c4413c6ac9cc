/// A flight in 3D: wood from the plan, carpet from the fold. Drawn when something changed, and only then.
import { type Box3, BufferGeometry, DirectionalLight, EdgesGeometry, Float32BufferAttribute, Group, HemisphereLight, LineSegments, Mesh, type Object3D, Raycaster, Scene, Vector2, Vector3, WebGLRenderer } from 'three';
import type { Fold, Plan } from '../core/door';
import { Eye } from './camera';
import type { Kind } from './carpet';
import { Cloth } from './cloth';
import { landingOf, type Landing } from './landing';
import { block, type Point } from './loft';
import { paint } from './paint';
import type { Piece } from './pieces';
import { pad, strips } from './under';
import { sides, wood, type Step } from './wood';

export interface Shown { carpet: boolean; seams: boolean; folds: boolean; hems: boolean; strip: boolean; pad: boolean }
const UNDER_MM = 0.5; // the landing's wood under the board of its edge, so that each is seen where it is on top
const EDGE_DEG = 35; // between faces that meet in a line of ink

const corners = ({ min, max }: Box3) => [min.x, max.x].flatMap((x) => [min.y, max.y].flatMap((y) => [min.z, max.z].map((z) => new Vector3(x, y, z))));

export class StairScene {
  readonly eye = new Eye();
  #renderer: WebGLRenderer;
  #scene = new Scene();
  #paint = paint();
  #flight = new Group();
  #strips: Object3D[] = [];
  #pads: Object3D[] = [];
  #cloths = new Map<string, Cloth>();
  #corners: Vector3[] = [];
  #marked?: string;
  #wanted = 0;
  onDrawn?: () => void;

  /// Throws where the device cannot draw in 3D.
  constructor(private readonly canvas: HTMLCanvasElement) {
    const context = canvas.getContext('webgl2', { antialias: true, alpha: true, powerPreference: 'low-power' });
    if (!context) throw new Error('no WebGL here');
    this.#renderer = new WebGLRenderer({ canvas, context });
    const sun = new DirectionalLight(0xffffff, 1.9);
    sun.position.set(-0.7, -1, 1.9);
    this.#scene.add(new HemisphereLight(0xffffff, 0xcbb99a, 2.1), sun, this.#flight);
  }

  build(plan: Plan, fold: Fold, stair: number, flight: number) {
    this.#clear();
    const nth = plan.stairs.slice(0, stair).reduce((n, s) => n + s.flights.length, flight);
    const { steps } = plan.stairs[stair]!.flights[flight]!, fixings = plan.fixings[nth];
    const frames = steps.map((step) => this.#frame(step));
    const pieceOn = (number: number) => plan.pieces.find((p) => p.stair === stair && p.flight === flight && p.steps.includes(number))?.id;
    steps.forEach((step, i) => {
      for (const { geometry, edges } of wood(step, i + 1 === steps.length)) this.#solid(frames[i]!, geometry, this.#paint.wood, pieceOn(step.number), edges);
      const own = fixings?.steps.find((f) => f.step === step.number);
      if (!own || !fixings) return;
      const back = this.#back(frames[i]!, step);
      for (const g of strips(own, fixings, 'tread')) this.#strips.push(this.#solid(back, g, this.#paint.strip));
      for (const g of strips(own, fixings, 'riser')) this.#strips.push(this.#solid(frames[i]!, g, this.#paint.strip));
      for (const g of pad(own, step)) this.#pads.push(this.#solid(frames[i]!, g, this.#paint.pad));
    });
    const lay = (piece: Piece, frame: Group | undefined) => {
      const shape = fold.shapes[fold.pieces.find((p) => p.piece === piece.id)?.shape ?? -1];
      if (!shape || !frame) return;
      const cloth = new Cloth(piece.id, shape, fold.fractions, this.#paint);
      this.#cloths.set(piece.id, cloth);
      frame.add(cloth.group);
    };
    for (const piece of plan.pieces)
      if (piece.stair === stair && piece.flight === flight) lay(piece, frames[steps.findIndex((s) => s.number === piece.steps[0])]);
    const landing = landingOf(plan, stair, flight);
    if (landing) this.#landing(landing, frames.at(-1)!, lay);
    this.#scene.updateMatrixWorld(true);
    steps.forEach((step, i) => {
      for (const x of [0, step.width_mm])
        for (const [y, z] of [[-step.nosing.projection_mm, step.rise_mm], [step.going_mm, step.rise_mm], [0, -(step.frame?.z_mm ?? 0)]] as const)
          this.#corners.push(frames[i]!.localToWorld(new Vector3(x, y, z)));
    });
  }

  /// The floor that the flight arrives at: its wood level with the topmost board, its carpet with that of the landing's edge.
  #landing({ step, floor, from_left_mm, edge, own }: Landing, frame: Group, lay: (piece: Piece, frame: Group) => void) {
    const at = (z: number) => {
      const group = new Group();
      group.position.set(-from_left_mm, 0, step.rise_mm + z);
      frame.add(group);
      return group;
    };
    const outline = floor.corners_mm as Point[], wood = at(0);
    this.#solid(wood, block(outline, -step.nosing.thickness_mm, -UNDER_MM), this.#paint.wood, (own[0] ?? edge)?.id);
    for (const piece of own) lay(piece, at(edge?.root_height_mm ?? 0));
    this.#scene.updateMatrixWorld(true);
    for (const [x, y] of outline) this.#corners.push(wood.localToWorld(new Vector3(x, y, 0)));
  }

  #frame(step: Step): Group {
    const frame = new Group();
    if (!step.frame) throw new Error('the plan tells no frames'); // from a core of an older make
    const [x, y] = step.frame.at_mm;
    frame.position.set(x, y, step.frame.z_mm);
    frame.rotation.z = step.frame.turn_rad;
    this.#flight.add(frame);
    return frame;
  }
  /// Along the back of a tread, from its left end, at its height.
  #back(frame: Group, step: Step): Group {
    const [left, right] = sides(step), [x, y] = left.at(-1)!, [toX, toY] = right.at(-1)!;
    const back = new Group();
    back.position.set(x, y, step.rise_mm);
    back.rotation.z = Math.atan2(toY - y, toX - x);
    frame.add(back);
    return back;
  }
  #solid(frame: Group, geometry: BufferGeometry, material: Mesh['material'], piece?: string, edges?: number[]): Mesh {
    const mesh = new Mesh(geometry, material);
    mesh.userData.piece = piece;
    const inked = edges ? new BufferGeometry().setAttribute('position', new Float32BufferAttribute(edges, 3)) : new EdgesGeometry(geometry, EDGE_DEG);
    mesh.add(new LineSegments(inked, this.#paint.ink));
    frame.add(mesh);
    return mesh;
  }

  /// `of`: that piece alone; the others lie on their steps.
  fold(fraction: number, of?: string) {
    for (const cloth of this.#cloths.values()) cloth.fold(of && cloth.piece !== of ? 1 : fraction);
    this.draw();
  }
  show(shown: Shown, marked?: string) {
    this.#marked = marked;
    const kinds = new Set<Kind>(['edge', ...(['seams', 'folds', 'hems', 'strip'] as const).filter((k) => shown[k])]);
    for (const cloth of this.#cloths.values()) cloth.show(kinds, shown.carpet, cloth.piece === marked);
    for (const strip of this.#strips) strip.visible = shown.strip;
    for (const one of this.#pads) one.visible = shown.pad;
    this.#paint.seeThrough(shown.strip || shown.pad);
    this.draw();
  }
  /// At the whole flight, or at one piece.
  frame(piece?: string) {
    const cloth = piece ? this.#cloths.get(piece) : undefined;
    this.eye.lookAt(cloth ? corners(cloth.box()) : this.#corners, cloth ? 1.5 : 1.08);
    this.draw();
  }
  paint() {
    this.#paint.read();
    this.draw();
  }
  resize(width: number, height: number) {
    if (!width || !height) return;
    this.#renderer.setPixelRatio(Math.min(devicePixelRatio, 2));
    this.#renderer.setSize(width, height, false);
    this.eye.shape(width / height);
    this.draw();
  }
  draw() {
    this.#wanted ||= requestAnimationFrame(() => {
      this.#wanted = 0;
      this.#renderer.render(this.#scene, this.eye.camera);
      this.onDrawn?.();
    });
  }

  /// The piece under a point of the page.
  pick(clientX: number, clientY: number): string | undefined {
    const box = this.canvas.getBoundingClientRect();
    const ray = new Raycaster();
    ray.setFromCamera(new Vector2(((clientX - box.left) / box.width) * 2 - 1, 1 - ((clientY - box.top) / box.height) * 2), this.eye.camera);
    const seen = (o: Object3D | null): boolean => !o || (o.visible && seen(o.parent));
    const hit = ray.intersectObject(this.#flight, true).find(({ object }) => object instanceof Mesh && object.userData.piece && seen(object));
    return hit?.object.userData.piece as string | undefined;
  }
  /// Where the middle of the marked piece is seen, in shares of the picture.
  mark(): { x: number; y: number } | undefined {
    const cloth = this.#marked ? this.#cloths.get(this.#marked) : undefined;
    if (!cloth) return undefined;
    const at = cloth.box().getCenter(new Vector3()).project(this.eye.camera);
    return Math.abs(at.x) < 1 && Math.abs(at.y) < 1 ? { x: (at.x + 1) / 2, y: (1 - at.y) / 2 } : undefined;
  }

  #clear() {
    for (const cloth of this.#cloths.values()) {
      cloth.group.removeFromParent();
      cloth.dispose();
    }
    this.#flight.traverse((o) => { if (o instanceof Mesh || o instanceof LineSegments) o.geometry.dispose(); });
    this.#flight.clear();
    this.#cloths.clear();
    this.#corners = [];
    this.#strips = [];
    this.#pads = [];
  }
  dispose() {
    cancelAnimationFrame(this.#wanted);
    this.#clear();
    this.#paint.dispose();
    this.#renderer.dispose();
    this.#renderer.forceContextLoss();
  }
}
