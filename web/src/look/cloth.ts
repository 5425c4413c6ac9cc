/// One piece of carpet in the scene: its two sides and the lines on it.
import { Box3, Group, Mesh, type MeshLambertMaterial } from 'three';
import type { LineMaterial } from 'three/addons/lines/LineMaterial.js';
import { LineSegments2 } from 'three/addons/lines/LineSegments2.js';
import { LineSegmentsGeometry } from 'three/addons/lines/LineSegmentsGeometry.js';
import { folded, kinds, lines, surface, type Kind, type Shape } from './carpet';

export interface Looks { pile: MeshLambertMaterial; backing: MeshLambertMaterial; lines: Record<Kind | 'marked', LineMaterial> }

export class Cloth {
  readonly group = new Group();
  readonly sides: Mesh[];
  #surface;
  #lines = new Map<Kind, { drawn: LineSegments2; pairs: number[] }>();
  #fraction = NaN;

  constructor(readonly piece: string, private readonly shape: Shape, private readonly fractions: number[], private readonly looks: Looks) {
    this.#surface = surface(shape);
    this.sides = [new Mesh(this.#surface, looks.pile), new Mesh(this.#surface, looks.backing)];
    for (const side of this.sides) side.userData.piece = piece;
    this.group.add(...this.sides);
    for (const [kind, pairs] of lines(shape)) {
      if (!pairs.length) continue;
      const geometry = new LineSegmentsGeometry();
      geometry.setPositions(new Float32Array(pairs.length * 3));
      const drawn = new LineSegments2(geometry, looks.lines[kind]);
      drawn.frustumCulled = false; // its points move
      this.#lines.set(kind, { drawn, pairs });
      this.group.add(drawn);
    }
    this.fold(0);
    // Each face keeps its lengths, so the dashes of the flat piece are those of the folded.
    for (const { drawn } of this.#lines.values()) drawn.computeLineDistances();
  }

  fold(fraction: number) {
    if (fraction === this.#fraction) return;
    this.#fraction = fraction;
    const position = this.#surface.getAttribute('position');
    const at = position.array as Float32Array;
    folded(this.shape, this.fractions, fraction, at);
    position.needsUpdate = true;
    this.#surface.computeVertexNormals();
    this.#surface.computeBoundingSphere();
    for (const { drawn, pairs } of this.#lines.values()) {
      const start = drawn.geometry.getAttribute('instanceStart') as unknown as { data: { array: Float32Array; needsUpdate: boolean } };
      pairs.forEach((v, i) => start.data.array.set(at.subarray(3 * v, 3 * v + 3), 3 * i));
      start.data.needsUpdate = true;
    }
  }

  show(visible: ReadonlySet<Kind>, carpet: boolean, marked: boolean) {
    for (const side of this.sides) side.visible = carpet;
    for (const kind of kinds) {
      const drawn = this.#lines.get(kind)?.drawn;
      if (drawn) drawn.visible = carpet && visible.has(kind);
    }
    const edge = this.#lines.get('edge')?.drawn;
    if (edge) edge.material = marked ? this.looks.lines.marked : this.looks.lines.edge;
  }
  /// In the scene's frame.
  box = () => new Box3().setFromObject(this.sides[0]!, true);
  dispose() {
    this.#surface.dispose();
    for (const { drawn } of this.#lines.values()) drawn.geometry.dispose();
  }
}
