// Looking at a job and handing it over: what is tapped, folded, saved and signed is what the plan holds.
import assert from 'node:assert/strict';
import { readFile } from 'node:fs/promises';
import { test } from 'node:test';
import { AxeBuilder } from '@axe-core/playwright';
import { bringExample, browser, desk, phone, serve, watch } from './app.mjs';

async function withJob(viewport, example, work, options) {
  const server = await serve();
  const chrome = await browser(viewport, options);
  const context = await chrome.open();
  try {
    const page = context.pages()[0] ?? (await context.newPage());
    const faults = watch(page);
    const id = await bringExample(page, server.address, example);
    const open = (rest) => page.goto(`${server.address}#/${id}/${rest}`);
    await work({ page, id, open });
    assert.deepEqual(faults, []);
  } finally {
    await Promise.race([context.close().catch(() => {}), new Promise((done) => setTimeout(done, 3000))]);
    await chrome.remove();
    await server.stop().catch(() => {});
  }
}
/// The piece that is looked at, once the page shows it.
const isChosen = (page, piece) => page.locator('.bar strong', { hasText: piece }).waitFor();
const picture = (page) => page.locator('canvas').screenshot();

test('a tap on the stair chooses a piece; the slider folds it; switches show what lies on and under it', () =>
  withJob(desk, 'open-stair.json', async ({ page, open }) => {
    await open('look/stair');
    await page.locator('canvas').waitFor();
    await page.waitForTimeout(1500);
    const box = await page.locator('canvas').boundingBox();
    await page.mouse.click(box.x + box.width * 0.5, box.y + box.height * 0.5);
    await page.waitForFunction(() => /look\/stair\/A-\d\d$/.test(location.hash));
    const folded = await picture(page);
    const slider = page.getByLabel('How far folded');
    await slider.fill('0');
    await page.waitForTimeout(400);
    assert.ok(!(await picture(page)).equals(folded), 'flat looks as folded does');
    await slider.fill('100');
    await page.waitForTimeout(400);
    assert.ok((await picture(page)).equals(folded), 'folded again looks otherwise');
    for (const name of ['Seams and cuts', 'Folds', 'Hems and tucks', 'Tack strip', 'Pad']) {
      const before = await picture(page);
      await page.getByLabel(name).check();
      await page.waitForTimeout(400);
      assert.ok(!(await picture(page)).equals(before), `${name}: nothing to see`);
    }
  }));

test('arrow keys walk from piece to piece, up the stair and round', () =>
  withJob(phone, 'box-stair.json', async ({ page, open }) => {
    await open('look/roll/A-12');
    await page.getByText('Step 12').waitFor();
    for (const [key, piece] of [['ArrowRight', 'A-13'], ['ArrowRight', 'A-01'], ['ArrowUp', 'A-02'], ['ArrowLeft', 'A-01']]) {
      await page.keyboard.press(key);
      await isChosen(page, piece);
    }
    await page.keyboard.press('Escape');
    await page.getByText('Tap a piece.').waitFor();
  }));

test('a placement lights up with its step, and a step with its placement', () =>
  withJob(phone, 'open-stair.json', async ({ page, open }) => {
    await open('look/roll');
    await page.locator('svg a[aria-label^="A-09,"]').click();
    await page.locator('svg a[aria-label="Step 9, piece A-09"][aria-current="true"]').waitFor();
    await page.locator('svg a[aria-label="Step 3, piece A-03"]').click();
    await page.locator('svg a[aria-label^="A-03,"][aria-current="true"]').waitFor();
    assert.equal(await page.locator('svg a[aria-label^="A-09,"]').getAttribute('aria-current'), null);
  }));

test("a piece's sheet is shown, page by page, and grows", () =>
  withJob(phone, 'open-stair.json', async ({ page, open }) => {
    await open('look/sheet/A-05');
    const image = page.locator('.stage img');
    await image.waitFor();
    assert.ok(await image.evaluate(async (i) => (await i.decode(), i.naturalWidth > 100)));
    const first = await image.getAttribute('src'), width = (await image.boundingBox()).width;
    await page.getByLabel('Larger').click();
    assert.ok((await image.boundingBox()).width > 1.4 * width);
    await page.getByLabel('The next page').click();
    await page.getByText('Page 2 of').waitFor();
    await page.waitForFunction((src) => document.querySelector('.stage img')?.getAttribute('src') !== src, first);
  }));

test('where a device cannot draw in 3D there is a section', () =>
  withJob(phone, 'box-stair.json', async ({ page, open }) => {
    await page.addInitScript(() => (HTMLCanvasElement.prototype.getContext = () => null));
    await open('look/stair');
    await page.reload();
    await page.getByText('cannot draw the stair in 3D').waitFor();
    await page.locator('svg a[aria-label="Step 3, piece A-03"]').click();
    await isChosen(page, 'A-03');
  }));

const begins = { PDF: '%PDF-', SVG: '<?xml', DXF: '  0', JSON: '{', CSV: '' };
test('every file is saved under its name and is what its name says', () =>
  withJob(desk, 'open-stair.json', async ({ page, open }) => {
    const show = async (side) => {
      await open('hand');
      await page.getByText('Full-size templates').waitFor();
      await page.locator('summary').click();
      if (side) await page.getByRole('button', { name: side }).click();
    };
    await show();
    let saved = 0;
    const seen = new Set();
    const saveAll = async (side) => {
      for (const button of await page.getByRole('button', { name: /^Save / }).all()) {
        const name = await button.getAttribute('aria-label');
        if (side && seen.has(name) && !/On |Drawing/.test(name)) continue;
        seen.add(name);
        if (++saved % 8 === 0) await page.reload(), await show(side); // after ten in a row Chromium asks whether it may
        const [download] = await Promise.all([page.waitForEvent('download'), button.click()]);
        const file = download.suggestedFilename(), type = name.split(' ').at(-1);
        assert.equal(file.split('.').at(-1).toUpperCase(), type, name);
        const content = (await readFile(await download.path())).toString('latin1');
        assert.ok(content.length > 100 && content.startsWith(begins[type]), `${file} begins ${JSON.stringify(content.slice(0, 12))}`);
        if (type === 'PDF') assert.match(content.slice(-8), /%%EOF/, file);
        if (type === 'JSON') assert.equal(JSON.parse(content).treadfold, 1);
        if (/On |Drawing/.test(name)) assert.ok(file.includes(side === 'Pile' ? 'pile-up' : 'backing-up'), file);
      }
    };
    await saveAll();
    await page.getByRole('button', { name: 'Pile' }).click();
    await page.waitForTimeout(500);
    await saveAll('Pile');
    assert.ok(seen.size >= 15 + 4 + 10, `${seen.size} files`);
  }));

test('a quote is signed by hand or by name alone, is kept, told to be old once the job changes, and cleared', () =>
  withJob(phone, 'box-stair.json', async ({ page, id, open }) => {
    await open('hand');
    const box = page.locator('svg.open');
    await box.scrollIntoViewIfNeeded();
    await page.evaluate(() => scrollBy(0, 150));
    const { x, y } = await box.boundingBox();
    await page.mouse.move(x + 30, y + 30);
    await page.mouse.down();
    for (let i = 0; i < 20; ++i) await page.mouse.move(x + 30 + 8 * i, y + 30 + 20 * Math.sin(i));
    await page.mouse.up();
    await page.getByRole('textbox', { name: 'Name' }).fill('Ada Pine');
    await page.getByRole('button', { name: 'Sign', exact: true }).click();
    await page.getByText('Ada Pine').waitFor();
    await page.reload();
    const drawn = page.getByRole('img', { name: 'Signature of Ada Pine' }).locator('path');
    assert.ok((await drawn.getAttribute('d')).split('L').length > 10);
    await page.getByRole('button', { name: 'Take the signature away' }).click();
    await page.getByRole('textbox', { name: 'Name' }).fill('Bo Reed');
    await page.getByRole('button', { name: 'Sign', exact: true }).press('Enter');
    await page.getByText('Bo Reed').waitFor();
    assert.equal(await page.getByRole('img', { name: /Signature/ }).count(), 0);
    assert.equal(await page.getByText('changed after this was signed').count(), 0);
    await page.evaluate((id) => new Promise((done, failed) => {
      const request = indexedDB.open('treadfold');
      request.onerror = failed;
      request.onsuccess = () => {
        const jobs = request.result.transaction('jobs', 'readwrite').objectStore('jobs');
        jobs.get(id).onsuccess = ({ target }) => (jobs.put({ ...target.result, changed: new Date(Date.now() + 1000).toISOString() }).onsuccess = done);
      };
    }).then(() => {}), id);
    await page.reload();
    await page.getByText('changed after this was signed').waitFor();
  }));

test('axe finds no violation where one looks and hands over', () =>
  withJob(phone, 'winding-stair.json', async ({ page, open }) => {
    const found = [];
    for (const look of ['light', 'dark', 'sun'])
      for (const rest of ['look/stair/A-05', 'look/roll/A-05', 'look/sheet/A-05', 'hand']) {
        await page.evaluate((l) => localStorage.setItem('treadfold.look', l), look);
        await open(rest);
        await page.reload();
        await page.waitForTimeout(1500);
        if (rest.startsWith('look/roll')) await page.getByRole('button', { name: 'Strokes' }).click();
        const { violations } = await new AxeBuilder({ page }).analyze();
        found.push(...violations.map((v) => `${look} ${rest}: ${v.id} ${v.nodes.map((n) => n.target).join(' ; ')}`));
      }
    assert.deepEqual(found, []);
  }));
