/// Where one stands to look: round a point, at a height, from a distance.
import { Box3, PerspectiveCamera, Vector3 } from 'three';

const FIELD_DEG = 28;
const LOWEST = -0.2, HIGHEST = 1.5; // rad above the level

export class Eye {
  readonly camera = new PerspectiveCamera(FIELD_DEG, 1, 20, 60_000);
  turn = 0; // rad to the right of standing at the foot
  height = 0.45; // rad
  #away = 1; // times the distance at which all of it is seen
  #centre = new Vector3();
  #seen: Vector3[] = []; // from the centre

  constructor() {
    this.camera.up.set(0, 0, 1);
  }
  /// Points that are all to be seen.
  lookAt(points: Vector3[], away = 1) {
    new Box3().setFromPoints(points).getCenter(this.#centre);
    this.#seen = points.map((p) => p.clone().sub(this.#centre));
    this.#away = away;
    this.place();
  }
  shape(aspect: number) {
    this.camera.aspect = aspect;
    this.place();
  }
  orbit(right: number, up: number) {
    this.turn += right;
    this.height = Math.max(LOWEST, Math.min(HIGHEST, this.height + up));
    this.place();
  }
  stand(turn: number, height: number) {
    this.turn = turn;
    this.height = height;
    this.place();
  }
  nearer(times: number) {
    this.#away = Math.max(0.15, Math.min(2.5, this.#away / times));
    this.place();
  }
  /// The least distance at which every point is in the picture.
  #distance(back: Vector3, right: Vector3, up: Vector3): number {
    const high = Math.tan((FIELD_DEG * Math.PI) / 360), wide = high * this.camera.aspect;
    return Math.max(100, ...this.#seen.map((p) => p.dot(back) + Math.max(Math.abs(p.dot(right)) / wide, Math.abs(p.dot(up)) / high)));
  }
  place() {
    const level = Math.cos(this.height);
    const back = new Vector3(Math.sin(this.turn) * level, -Math.cos(this.turn) * level, Math.sin(this.height));
    const right = new Vector3(Math.cos(this.turn), Math.sin(this.turn), 0), up = new Vector3().crossVectors(back, right);
    this.camera.position.copy(this.#centre).addScaledVector(back, this.#distance(back, right, up) * this.#away);
    this.camera.lookAt(this.#centre);
    this.camera.updateProjectionMatrix();
    this.camera.updateMatrixWorld();
  }
}
