/// The screen's colours as materials of the scene; another look changes them in place.
import { BackSide, Color, DoubleSide, FrontSide, LineBasicMaterial, MeshLambertMaterial } from 'three';
import { LineMaterial } from 'three/addons/lines/LineMaterial.js';

const solid = { polygonOffset: true, polygonOffsetFactor: 1, polygonOffsetUnits: 1 }; // lines lie on top
const dash = { dashed: true, dashScale: 1 };

export function paint() {
  const carpet = { ...solid, polygonOffsetFactor: 0.5 };
  const all = {
    wood: new MeshLambertMaterial(solid),
    ink: new LineBasicMaterial(),
    pile: new MeshLambertMaterial({ ...carpet, side: FrontSide }),
    backing: new MeshLambertMaterial({ ...carpet, side: BackSide }),
    strip: new MeshLambertMaterial(solid),
    pad: new MeshLambertMaterial({ ...solid, side: DoubleSide }),
    lines: {
      edge: new LineMaterial({ linewidth: 1.4 }),
      marked: new LineMaterial({ linewidth: 4.5 }),
      seams: new LineMaterial({ linewidth: 3.5 }),
      folds: new LineMaterial({ linewidth: 2, ...dash, dashSize: 28, gapSize: 12 }),
      hems: new LineMaterial({ linewidth: 2.5, ...dash, dashSize: 8, gapSize: 8 }),
      strip: new LineMaterial({ linewidth: 2 }),
    },
  };
  const read = () => {
    const style = getComputedStyle(document.documentElement);
    const colour = (name: string) => new Color(style.getPropertyValue(name).trim());
    all.wood.color = colour('--wood');
    all.ink.color = colour('--ink');
    all.pile.color = colour('--carpet');
    all.backing.color = colour('--line');
    all.strip.color = colour('--pale');
    all.pad.color = colour('--pad');
    all.lines.edge.color = all.lines.folds.color = all.lines.hems.color = colour('--ink');
    all.lines.marked.color = all.lines.seams.color = colour('--knife');
    all.lines.strip.color = colour('--pale');
  };
  read();
  /// So that what lies under the carpet is seen.
  const seeThrough = (on: boolean) => {
    for (const side of [all.pile, all.backing]) {
      side.opacity = on ? 0.38 : 1;
      if (side.transparent !== on) side.needsUpdate = true;
      side.transparent = on;
      side.depthWrite = !on;
    }
  };
  const dispose = () => {
    for (const m of [all.wood, all.ink, all.pile, all.backing, all.strip, all.pad, ...Object.values(all.lines)]) m.dispose();
  };
  return { ...all, read, seeThrough, dispose };
}
