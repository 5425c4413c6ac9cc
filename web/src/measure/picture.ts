/// One step as a measuring picture: from the side, from above, or its nosing close to, whichever shows the measure asked for.
import { around, dimension, Fit, margins, pathOf, type Box, type Dimension } from './draft';
import { firstOfRows, readings, type Given } from './readings';
import { carpetLine, outline, section, treadOf, unit, type Pt, type Step } from './outline';

export type Role = 'carpet' | 'wood' | 'edge' | 'hidden' | 'wall' | 'skirt' | 'post' | 'opening';
export interface Picture { width: number; height: number; shapes: { d: string; role: Role }[]; dimensions: Record<string, Dimension> }
export interface Size { width: number; height: number; profile: string; given?: Given; made?: boolean; cover?: string }

export type View = 'side' | 'nosing' | 'plan' | 'left-end' | 'right-end';
export function viewOf(path: string): View {
  const end = /^\/(left|right)\/open/.exec(path);
  if (end) return `${end[1] as 'left' | 'right'}-end`;
  if (path.startsWith('/nosing')) return 'nosing';
  return /^\/(width|tread|balusters|newels|starter|left|right)/.test(path) ? 'plan' : 'side';
}

function side(step: Step, { width, height, profile, cover }: Size): Picture {
  const { rise_mm: r, going_mm: g } = step;
  const p = step.nosing.projection_mm;
  const fit = new Fit({ x0: -p, x1: g * 1.15, y0: -step.nosing.thickness_mm, y1: r * 1.3 }, width, height, margins(8, { left: 88, top: 14 }));
  const rise = dimension(fit.at(-p, 0), fit.at(-p, r), 22);
  const going = dimension(fit.at(0, r), fit.at(g, r), 20);
  const shapes: Picture['shapes'] = [
    { d: section(step, profile, fit.at, fit.scale), role: 'wood' },
    { d: pathOf([fit.at(0, r - step.nosing.thickness_mm), fit.at(0, r)]), role: 'hidden' },
  ];
  if (cover) shapes.push({ d: fit.path(carpetLine(step, cover === 'wrapped')), role: 'carpet' });
  if (step.landing_edge) shapes.push({ d: pathOf([fit.at(g, r * 1.25), fit.at(g, r - 10)]), role: 'hidden' });
  return { width, height, shapes, dimensions: { '/rise': rise, '/rise_right': rise, '/going': going, '/landing_edge': going } };
}

function nosing(step: Step, { width, height, profile }: Size): Picture {
  const { rise_mm: r } = step;
  const { projection_mm: p, thickness_mm: t, radius_mm: a } = step.nosing;
  const fit = new Fit({ x0: -p - 0.9 * t, x1: 2.2 * t, y0: r - 2 * t, y1: r + 0.9 * t }, width, height, margins(12, { top: 26 }));
  const at = fit.at;
  const c = profile === 'bevelled' ? t / 3 : a;
  return {
    width, height,
    shapes: [{ d: section(step, profile, at, fit.scale), role: 'wood' }, { d: pathOf([at(0, r - t), at(0, r)]), role: 'hidden' }],
    dimensions: {
      '/nosing/projection': dimension(at(-p, r), at(0, r), 18),
      '/nosing/thickness': dimension(at(-p, r - t), at(-p, r), 18),
      '/nosing/arris_radius': dimension(at(-p, r), at(-p + Math.max(c, 2), r), 18),
      '/nosing/bevel': dimension(at(-p, r), at(-p + c, r), 18),
    },
  };
}

/// What bounds the tread at its ends.
const bound = (kind: string, line: readonly Pt[], fit: Fit, outward: 1 | -1): Picture['shapes'] => {
  if (kind === 'open') return [];
  const d = unit(line[0]!, line.at(-1)!);
  const thick = (kind === 'wall' ? 9 : 4) / fit.scale;
  const out = line.map((p): Pt => [p[0] + outward * d[1] * thick, p[1] - outward * d[0] * thick]);
  return [{ d: fit.path([...line, ...out.reverse()], true), role: kind === 'wall' ? 'wall' : 'skirt' }];
};

function plan(step: Step, { width, height, given, made = false }: Size, window?: Box): Picture {
  const lines = outline(step);
  const tread = treadOf(lines, step);
  const fit = new Fit(window ?? around([...tread, ...lines.back]), width, height, window ? margins(18) : margins(given?.starter ? 62 : given?.tread ? 34 : 16, { top: 24, bottom: 48 }));
  const post = ({ round, centre_mm: [x, y], width_mm: w, depth_mm: d }: NonNullable<Step['uprights']>[number]) => {
    if (!round) return fit.path([[x - w / 2, y - d / 2], [x + w / 2, y - d / 2], [x + w / 2, y + d / 2], [x - w / 2, y + d / 2]], true);
    const [cx, cy] = fit.at(x, y), r = (w / 2) * fit.scale;
    return `M ${cx - r} ${cy} a ${r} ${r} 0 1 0 ${2 * r} 0 a ${r} ${r} 0 1 0 ${-2 * r} 0 Z`;
  };
  return {
    width, height,
    shapes: [
      { d: fit.path(tread, true), role: 'wood' },
      ...bound(step.left.kind, lines.left, fit, -1), ...bound(step.right.kind, lines.right, fit, 1),
      { d: fit.path(lines.riser), role: 'hidden' }, { d: fit.path(lines.back), role: 'edge' }, { d: fit.path(lines.front), role: 'edge' },
      ...(step.uprights ?? []).map((upright) => ({ d: post(upright), role: 'post' as const })),
    ],
    dimensions: { '/width': dimension(fit.of(lines.riser[0]), fit.of(lines.riser[1]), -26), ...endDimensions(step, fit), '/left': edge(lines.left, fit), '/right': edge(lines.right, fit), ...(given && readings(step, given, fit, made)) },
  };
}

/// A whole end of the tread, where it is asked what bounds it.
const edge = (line: readonly Pt[], fit: Fit): Dimension => ({ lines: fit.path(line.length > 1 ? line : [line[0]!, line[0]!]), at: [0, 0], anchor: 'middle' });

function endDimensions(step: Step, fit: Fit): Picture['dimensions'] {
  const { left, right, riser, back } = outline(step);
  const overhang = (end: Pt, face: Pt, out: number) => dimension(fit.at(Math.min(end[0], face[0]), out), fit.at(Math.max(end[0], face[0]), out), -16);
  const past = (end: Pt, face: Pt, off: number) => dimension(fit.at(end[0], face[1]), fit.of(end), off);
  const p = -step.nosing.projection_mm;
  return {
    '/left/open/overhang': overhang(left[0]!, riser[0], p), '/right/open/overhang': overhang(right[0]!, riser[1], p),
    '/left/open/return': past(left.at(-1)!, back[0], 16), '/right/open/return': past(right.at(-1)!, back[1], -16),
  };
}

/// Close to one end: its front corner for the overhang, its back corner for the return.
function endPlan(step: Step, which: 'left' | 'right', path: string, size: Size): Picture {
  const { left, right, riser, back } = outline(step);
  const atBack = path.endsWith('/return');
  const corner = (which === 'left' ? left : right).at(atBack ? -1 : 0)!;
  const face = (atBack ? back : riser)[which === 'left' ? 0 : 1];
  const reach = 1.6 * Math.max(Math.abs(corner[0] - face[0]), Math.abs(corner[1] - face[1]), 20);
  const inward = which === 'left' ? 1 : -1;
  const xs = [corner[0] - inward * reach, corner[0] + inward * 2.6 * reach];
  const ys = atBack ? [corner[1] - 2 * reach, corner[1] + 0.6 * reach] : [corner[1] - 0.9 * reach, corner[1] + 1.6 * reach];
  return plan(step, size, { x0: Math.min(...xs), x1: Math.max(...xs), y0: Math.min(...ys), y1: Math.max(...ys) });
}

/// The end of the tread at which a post stands.
function postPlan(step: Step, path: string, size: Size): Picture {
  const row = size.given && firstOfRows(size.given).find(({ place }) => path.startsWith(`${place}/`));
  const { left, right } = outline(step);
  const end = (row?.side === 'right' ? right : left)[0]![0], inward = row?.side === 'right' ? -1 : 1;
  const xs = [end - inward * 60, end + inward * 380];
  return plan(step, size, { x0: Math.min(...xs), x1: Math.max(...xs), y0: -step.nosing.projection_mm - 10, y1: step.going_mm + 40 });
}

export function picture(step: Step, path: string, size: Size, view = viewOf(path)): Picture {
  if (view === 'side') return side(step, size);
  if (view === 'nosing') return nosing(step, size);
  if (/^\/(balusters|newels)\//.test(path)) return postPlan(step, path, size);
  if (view === 'plan') return plan(step, size);
  return endPlan(step, view === 'left-end' ? 'left' : 'right', path, size);
}
