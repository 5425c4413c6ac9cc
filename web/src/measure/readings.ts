/// Dimension lines from above for a tread out of square, for posts and for a curved front, each at its place in the job.
import { dimension, pathOf, type Dimension, type Fit } from './draft';
import { outline, type Pt, type Step } from './outline';
import { rowsOf } from './posts';
import { offsetsOf } from './starters';

type Readings = Record<string, Dimension>;
export interface Given { tread: unknown; starter: unknown; balusters: unknown; newels: unknown }

/// Along the front's line to the foot of a corner, then square to it.
function offset(base: string, start: Pt, corner: Pt, fit: Fit): Readings {
  const foot: Pt = [corner[0], start[1]];
  const [s, f, c] = [fit.of(start), fit.of(foot), fit.of(corner)];
  const alongLine = dimension(s, f, f[0] < s[0] ? 20 : -20), square = dimension(f, c, 0);
  const helped = (d: Dimension): Dimension => ({ ...d, lines: `${d.lines} ${pathOf([s, f, c])}` });
  return { [`${base}/along`]: helped(alongLine), [`${base}/left_of`]: helped(alongLine), [`${base}/off`]: helped(square), [`${base}/before`]: helped(square) };
}

function tread(step: Step, fit: Fit): Readings {
  const { left, right, meets } = outline(step);
  const [fl, fr, bl, br] = [left[0]!, right[0]!, ...meets];
  const cr = step.right_side_mm && step.right_side_mm.length > 2 ? right[1] : undefined;
  const cl = step.left_side_mm && step.left_side_mm.length > 2 ? left[1] : undefined;
  const line = (a: Pt, b: Pt, off: number) => dimension(fit.of(a), fit.of(b), off);
  const t = (name: string, a: Pt | undefined, b: Pt | undefined, off: number): Readings => (a && b ? { [`/tread/${name}`]: line(a, b, off) } : {});
  return {
    ...t('front', fl, fr, -20), ...t('back', bl, br, 18),
    ...t('right', fr, br, -16), ...t('left', fl, bl, 16),
    ...t('right_to_corner', fr, cr, -16), ...t('right_from_corner', cr, br, -16),
    ...t('left_to_corner', fl, cl, 16), ...t('left_from_corner', cl, bl, 16),
    ...t('diagonal_from_front_left', fl, br, 0), ...t('diagonal_from_front_right', fr, bl, 0),
    ...t('corner_from_front_left', fl, cr, 0), ...t('corner_from_back_left', bl, cr, 0), ...t('right_past_corner', fr, br, 0),
    ...t('corner_from_front_right', fr, cl, 0), ...t('corner_from_back_right', br, cl, 0), ...t('left_past_corner', fl, bl, 0),
    ...offset('/tread/back_right', fl, br, fit), ...offset('/tread/back_left', fl, bl, fit),
    ...(cr ? offset('/tread/right_corner', fl, cr, fit) : {}), ...(cl ? offset('/tread/left_corner', fl, cl, fit) : {}),
  };
}

/// Posts stand in the plan as they stand in the job: rows of balusters, then newels.
export function firstOfRows(given: Given): { place: string; side: unknown; first: number; count: number }[] {
  let next = 0;
  return (['balusters', 'newels'] as const).flatMap((posts) =>
    rowsOf(given[posts]).map((row, i) => {
      const count = posts === 'newels' ? 1 : Math.max(Number(row.count ?? 1) || 1, 1);
      const found = { place: `/${posts}/${i}`, side: row.side, first: next, count };
      next += count;
      return found;
    }),
  );
}

function posts(step: Step, given: Given, fit: Fit, made: boolean): Readings {
  const { left, right } = outline(step);
  const all: Readings = {};
  let drawn = 0;
  for (const { place, side, first, count } of firstOfRows(given)) {
    const upright = step.uprights?.[made ? drawn : first], after = step.uprights?.[(made ? drawn : first) + 1];
    drawn += Math.min(count, 2);
    if (!upright) continue;
    const [x, y] = upright.centre_mm, { width_mm: w, depth_mm: d } = upright;
    const end = (side === 'right' ? right : left)[0]![0];
    const at = fit.at;
    all[`${place}/from_end`] = dimension(at(Math.min(x, end), y), at(Math.max(x, end), y), 0);
    all[`${place}/from_nosing`] = dimension(at(x, -step.nosing.projection_mm), at(x, y), 0);
    all[`${place}/size`] = dimension(at(x - w / 2, y), at(x + w / 2, y), 14);
    all[`${place}/depth`] = dimension(at(x, y - d / 2), at(x, y + d / 2), side === 'right' ? 14 : -14);
    if (count > 1 && after) all[`${place}/spacing`] = dimension(fit.of(upright.centre_mm), fit.of(after.centre_mm), 0);
  }
  return all;
}

function starter(step: Step, given: Given, fit: Fit): Readings {
  const curve = step.curved_front_mm;
  if (!curve) return {};
  const p = -step.nosing.projection_mm;
  const all: Readings = {};
  for (const [which, pick, face] of [['left', Math.min, 0], ['right', Math.max, step.width_mm]] as const) {
    const far = pick(...curve.map(([x]) => x));
    const ys = curve.filter(([x]) => Math.abs(x - far) < 0.01).map(([, y]) => y);
    const y = (Math.min(...ys) + Math.max(...ys)) / 2;
    const flat = curve.filter((q) => Math.abs(q[1] - p) < 0.01).map(([x]) => x);
    const begins = flat.length ? pick(...flat) : face;
    const sign = which === 'left' ? 1 : -1;
    const pair = (a: Pt, b: Pt, off: number) => dimension(fit.of(which === 'left' ? a : b), fit.of(which === 'left' ? b : a), off);
    all[`/starter/${which}/past`] = pair([far, y], [face, y], 0);
    all[`/starter/${which}/along`] = pair([far, p], [begins, p], -16);
    all[`/starter/${which}/across`] = dimension(fit.at(far, p), fit.at(far, y), sign * 14);
  }
  const offsets = offsetsOf(given.starter);
  const from: Pt = [0, step.going_mm];
  offsets.forEach((_, i) => {
    const point = curve[Math.round((i * (curve.length - 1)) / Math.max(offsets.length - 1, 1))]!;
    const foot: Pt = [point[0], from[1]];
    const [s, f, c] = [fit.of(from), fit.of(foot), fit.of(point)];
    const helped = (d: Dimension): Dimension => ({ ...d, lines: `${d.lines} ${pathOf([s, f, c])}` });
    const place = `/starter/offsets/${i}`;
    all[`${place}/along`] = all[`${place}/left_of`] = helped(dimension(s, f, f[0] < s[0] ? -16 : 16));
    all[`${place}/out`] = all[`${place}/behind`] = helped(dimension(f, c, 0));
  });
  return all;
}

export const readings = (step: Step, given: Given, fit: Fit, made: boolean): Readings => ({
  ...tread(step, fit), ...posts(step, given, fit, made), ...starter(step, given, fit),
});
