// What leaves the browser is true to size: templates and sheets as the app hands them over, read back by poppler.
import assert from 'node:assert/strict';
import { execFileSync } from 'node:child_process';
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { test } from 'node:test';
import { start } from '../../wasm/treadfold.mjs';
import { bringExample, browser, desk, repo, serve } from './app.mjs';

const TRUE_MM = 0.1, MM = 25.4 / 72;
const papers = { letter: [215.9, 279.4], a4: [210, 297] };
const core = await start(readFileSync(join(repo, 'build/wasm/treadfold.wasm')));
const planOf = (example) => JSON.parse(core.plan(readFileSync(join(repo, 'examples', example), 'utf8')).json);

/// `work` with `save`: presses the button of this name on the page of an example's files; the path of what was saved.
async function handing(example, work) {
  const server = await serve();
  const chrome = await browser(desk);
  const context = await chrome.open();
  try {
    const page = context.pages()[0] ?? (await context.newPage());
    const id = await bringExample(page, server.address, example);
    await page.goto(`${server.address}#/${id}/hand`);
    const save = async (name) => {
      const [download] = await Promise.all([page.waitForEvent('download'), page.getByRole('button', { name, exact: true }).click()]);
      return download.path();
    };
    await work(page, save);
  } finally {
    await Promise.race([context.close().catch(() => {}), new Promise((done) => setTimeout(done, 3000))]);
    await chrome.remove();
    await server.stop().catch(() => {});
  }
}

/// The size of every page, mm.
const pagesOf = (pdf) =>
  [...execFileSync('pdfinfo', ['-l', '9999', pdf], { encoding: 'utf8' }).matchAll(/^Page +\d+ size: +([\d.]+) x ([\d.]+) pts/gm)].map((m) => [m[1] * MM, m[2] * MM]);

/// Every stroke of a page: whether it is closed, and its points, mm, x right and y down.
function strokesOf(pdf, page) {
  const svg = execFileSync('pdftocairo', ['-svg', '-noshrink', '-nocenter', '-f', page, '-l', page, pdf, '-'].map(String), { encoding: 'utf8', maxBuffer: 1 << 28 });
  return [...svg.matchAll(/<path [^>]*stroke-width[^>]*>/g)].map(([tag]) => {
    const [a, b, c, d, e, f] = /matrix\(([^)]*)\)/.exec(tag)[1].split(',').map(Number);
    const path = / d="([^"]*)"/.exec(tag)[1];
    assert.doesNotMatch(path, /[A-KN-Y]/); // lines alone
    const numbers = path.split('Z')[0].match(/-?[\d.]+/g).map(Number), points = [];
    for (let i = 0; i + 1 < numbers.length; i += 2) points.push([(a * numbers[i] + c * numbers[i + 1] + e) * MM, (b * numbers[i] + d * numbers[i + 1] + f) * MM]);
    return { closed: path.includes('Z'), points };
  });
}
const box = (points) => [0, 1].flatMap((axis) => { const all = points.map((p) => p[axis]); return [Math.min(...all), Math.max(...all)]; });

function distance([x, y], [ax, ay], [bx, by]) {
  const dx = bx - ax, dy = by - ay, square = dx * dx + dy * dy;
  const t = square > 0 ? Math.min(1, Math.max(0, ((x - ax) * dx + (y - ay) * dy) / square)) : 0;
  return Math.hypot(x - ax - t * dx, y - ay - t * dy);
}
const toStrokes = (point, strokes) =>
  Math.min(...strokes.flatMap(({ closed, points }) => points.map((p, i) => (i + 1 < points.length || closed ? distance(point, p, points[(i + 1) % points.length]) : Infinity))));

/// Points no more than 2 mm apart along a stroke.
const along = ({ closed, points }) =>
  points.flatMap((p, i) => {
    const q = points[(i + 1) % points.length], n = closed || i + 1 < points.length ? 1 + Math.floor(Math.hypot(q[0] - p[0], q[1] - p[1]) / 2) : 1;
    return Array.from({ length: n }, (_, k) => [p[0] + ((q[0] - p[0]) * k) / n, p[1] + ((q[1] - p[1]) * k) / n]);
  });

for (const [example, id] of [['open-stair.json', 'A-05'], ['winding-stair.json', 'A-07'], ['grand-stair.json', 'A-04']])
  test(`the template of ${id}, ${example}, is the piece to 0.1 mm`, () =>
    handing(example, async (page, save) => {
      const piece = planOf(example).pieces.find((p) => p.id === id);
      await page.getByLabel('Piece').selectOption(id);
      await page.getByRole('button', { name: 'Pile', exact: true }).click();
      await page.getByText('Drawing to change').waitFor();
      const pdf = await save('Save On one sheet as PDF');
      const strokes = strokesOf(pdf, 1);
      const [cut] = strokes.filter((s) => s.closed).map((s) => ({ s, b: box(s.points) })).sort((a, b) => b.b[1] - b.b[0] - (a.b[1] - a.b[0]));
      const [left, right, top, foot] = cut.b;
      const { left_mm, back_mm } = piece.trim, [net_u, net_v] = piece.net_origin_mm;
      for (const [found, net, whole] of [[right - left, piece.net_width_mm, piece.cut_width_mm], [foot - top, piece.net_length_mm, piece.cut_length_mm]])
        assert.ok(found > net - TRUE_MM && found < whole + TRUE_MM, `${found} mm, from ${net} to ${whole}`);
      // Where its rectangle begins: at the edge to cut by, or short of it by a trim that is not left on.
      const { u, v } = { u: net_u - left_mm, v: net_v - back_mm };
      const ways = [left, left - left_mm].flatMap((x) => [top, top - back_mm].map((y) => (path) => path.map(([a, b]) => [a - u + x, b - v + y])));
      const off = ways.map((laid) => {
        const lines = piece.lines.filter(({ role }) => role !== 'cut').map(({ points_mm }) => ({ closed: false, points: laid(points_mm) }));
        const edge = { closed: true, points: laid(piece.outline_mm) };
        const right_u = u + piece.cut_width_mm, foot_v = v + piece.cut_length_mm;
        const rectangle = { closed: true, points: laid([[u, v], [right_u, v], [right_u, foot_v], [u, foot_v]]) };
        return Math.max(
          ...lines.flatMap((line) => along(line).map((point) => toStrokes(point, strokes))), // every line of the piece is drawn
          ...cut.s.points.map((corner) => toStrokes(corner, [edge, rectangle])), // and it is cut by its edge or its rectangle's
        );
      });
      const worst = Math.min(...off);
      console.log(`${id}: ${worst.toFixed(4)} mm off`);
      assert.ok(worst <= TRUE_MM, `${worst} mm off`);
      const [[wide, tall]] = pagesOf(pdf);
      assert.ok(wide > right - left && tall > foot - top, 'the page holds it');
    }));

for (const example of ['open-stair.json', 'grand-stair.json'])
  test(`sheets and joined templates of ${example} are of the job's paper, their rulers true`, () =>
    handing(example, async (page, save) => {
      const paper = papers[planOf(example).paper];
      const isPaper = (size) => [size, [...size].reverse()].some((s) => s.every((side, i) => Math.abs(side - paper[i]) < TRUE_MM));
      await page.getByText('Drawing to change').waitFor();
      for (const name of ['Save All sheets as PDF', 'Save On many sheets as PDF']) {
        const pdf = await save(name), sizes = pagesOf(pdf);
        assert.ok(sizes.length > 3, `${name}: ${sizes.length} pages`);
        assert.deepEqual(sizes.filter((size) => !isPaper(size)), [], name);
        if (!name.includes('many')) continue;
        const rulers = strokesOf(pdf, 1).filter(({ points: [p, q], points }) => points.length === 2 && Math.abs(Math.abs(p[0] - q[0]) + Math.abs(p[1] - q[1]) - 101.6) < 0.01);
        assert.ok(rulers.length >= 2, 'a ruler across and one down');
      }
    }));
