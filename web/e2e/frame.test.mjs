// What holds for the app as a whole: it starts, keeps jobs, works with no network, refuses broken files and changes nothing.
import assert from 'node:assert/strict';
import { readFile, writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import { test } from 'node:test';
import { gzipSync } from 'node:zlib';
import { AxeBuilder } from '@axe-core/playwright';
import { bringExample, browser, desk, phone, serve, site, tablet, watch } from './app.mjs';

const parts = ['measure', 'look', 'choose', 'cut', 'hand'];

/// `work` with an app that is open on a page; all is put away afterwards.
async function withApp(viewport, work, options) {
  const server = await serve();
  const chrome = await browser(viewport, options);
  const context = await chrome.open();
  try {
    const page = context.pages()[0] ?? (await context.newPage());
    await work({ page, context, server, chrome, faults: watch(page) });
  } finally {
    await Promise.race([context.close().catch(() => {}), new Promise((done) => setTimeout(done, 3000))]);
    await chrome.remove();
    await server.stop().catch(() => {});
  }
}

const settled = (page) => page.waitForFunction(() => !document.querySelector('[aria-busy="true"]'));

for (const [name, viewport] of [['phone', phone], ['desk', desk]])
  test(`every screen of an example opens without a fault, ${name}`, () =>
    withApp(viewport, async ({ page, server, faults }) => {
      for (const example of ['open-stair.json', 'winding-stair.json']) {
        const id = await bringExample(page, server.address, example);
        for (const part of parts) {
          await page.goto(`${server.address}#/${id}/${part}`);
          await settled(page);
          await page.waitForTimeout(300);
          const over = await page.evaluate(() => document.documentElement.scrollWidth - innerWidth);
          assert.ok(over <= 0, `${example}, ${part}: ${over} px wider than the screen`);
        }
      }
      assert.deepEqual(faults, []);
    }));

test('axe finds no violation on any screen, in any look and language', () =>
  withApp(phone, async ({ page, server }) => {
    const id = await bringExample(page, server.address, 'open-stair.json');
    const found = [];
    for (const look of ['light', 'dark', 'sun']) {
      await page.evaluate((l) => localStorage.setItem('treadfold.look', l), look);
      for (const hash of ['', '#/new', ...parts.map((part) => `#/${id}/${part}`)]) {
        await page.goto(`${server.address}${hash}`);
        await page.reload();
        await settled(page);
        await page.waitForTimeout(200);
        const { violations } = await new AxeBuilder({ page }).analyze();
        found.push(...violations.map((v) => `${look} ${hash}: ${v.id} ${v.nodes.map((n) => n.target).join(' ; ')}`));
      }
    }
    assert.deepEqual(found, []);
  }));

test('with the network gone it starts again and plans', () =>
  withApp(phone, async ({ page, context, server, faults }) => {
    const id = await bringExample(page, server.address, 'open-stair.json');
    await page.evaluate(() => navigator.serviceWorker.ready);
    await page.waitForFunction(() => navigator.serviceWorker.controller !== null);
    await server.stop();
    await context.setOffline(true);
    await page.goto(`${server.address}#/${id}/cut`);
    await page.reload();
    await page.getByText('A-05').first().waitFor();
    assert.deepEqual(faults, []);
  }));

test('a broken file is refused by name and changes nothing', () =>
  withApp(phone, async ({ page, server, chrome }) => {
    await bringExample(page, server.address, 'box-stair.json');
    await page.goto(server.address);
    const before = await page.locator('li').allInnerTexts();
    for (const [name, text] of [['torn.json', '{"treadfold": 1, "site": {'], ['other.json', '{"a": 1}'], ['empty.json', ''], ['half.json', '{"treadfold_jobs": 1, "jobs": [{"id": "x"}]}']]) {
      const path = join(chrome.profile, name);
      await writeFile(path, text);
      await page.locator('input[type=file]').setInputFiles(path);
      await page.getByRole('alert').filter({ hasText: name }).waitFor();
      assert.deepEqual(await page.locator('li').allInnerTexts(), before);
    }
  }));

test('all jobs go out to one file and come back from it', () =>
  withApp(phone, async ({ page, server, chrome }) => {
    await bringExample(page, server.address, 'box-stair.json');
    await bringExample(page, server.address, 'grand-stair.json');
    await page.goto(server.address);
    const before = await page.locator('li a').allInnerTexts();
    const [download] = await Promise.all([page.waitForEvent('download'), page.getByRole('button', { name: 'Save all to a file' }).click()]);
    const path = join(chrome.profile, 'all.json');
    await download.saveAs(path);
    for (const button of await page.getByRole('button', { name: /^Remove/ }).all()) { void button; await page.getByRole('button', { name: /^Remove/ }).first().click(); }
    await page.getByText('No jobs yet').waitFor();
    await page.locator('input[type=file]').setInputFiles(path);
    await page.waitForFunction((n) => document.querySelectorAll('main li').length === n, before.length);
    assert.deepEqual(await page.locator('li a').allInnerTexts(), before);
  }));

test('a page killed in the middle of things comes back with the job as it was last changed', () => {
  return withApp(phone, async ({ page, context, server, chrome }) => {
    const id = await bringExample(page, server.address, 'box-stair.json');
    const session = await context.newCDPSession(page);
    session.send('Browser.crash').catch(() => {});
    await new Promise((done) => context.once('close', done));
    const again = await chrome.open();
    const fresh = again.pages()[0] ?? (await again.newPage());
    await fresh.goto(`${server.address}#/${id}/measure`);
    await fresh.getByRole('heading', { level: 1 }).filter({ hasText: /\w/ }).waitFor();
    await again.close();
  });
});

test('a full device is noticed, nothing that was measured is lost, and it is kept once there is room', () =>
  withApp(phone, async ({ page, server }) => {
    const id = await bringExample(page, server.address, 'box-stair.json');
    // No disk can be filled here, so the database answers as it does on a full one: the work is given up when it is to be written.
    const full = (yes) => page.evaluate((now) => {
      const real = (IDBDatabase.prototype.real ??= IDBDatabase.prototype.transaction);
      IDBDatabase.prototype.transaction = !now ? real : function (stores, mode, options) {
        const work = real.call(this, stores, mode, options);
        if (mode !== 'readwrite') return work;
        Object.defineProperty(work, 'error', { value: new DOMException('The device is full', 'QuotaExceededError') });
        queueMicrotask(() => work.abort());
        return work;
      };
    }, yes);
    const rise = () => page.getByRole('button', { name: /^Rise/ }).first();
    const measure = async (keys) => {
      await page.goto(`${server.address}#/${id}/measure/0.0/usual/rise`);
      for (const key of [...keys, 'Keep']) await page.getByRole('button', { name: key, exact: true }).first().tap();
      await page.waitForURL((url) => url.hash.endsWith('/usual'));
    };
    await full(true);
    await measure(['7', '1/4']);
    await page.getByRole('alert').filter({ hasText: 'Not kept yet' }).waitFor();
    await rise().getByText('7 1/4').waitFor();
    // It outlives a look at the other jobs, goes into the file, and is there after more is measured.
    await page.getByRole('link', { name: 'All jobs' }).tap();
    await page.getByRole('link', { name: 'New stair' }).waitFor();
    await page.goto(`${server.address}#/${id}/hand`);
    await page.getByRole('alert').filter({ hasText: 'Not kept yet' }).waitFor();
    const [download] = await Promise.all([page.waitForEvent('download'), page.getByRole('button', { name: 'Save The job as JSON' }).tap()]);
    assert.equal(JSON.parse(await readFile(await download.path(), 'utf8')).stairs[0].flights[0].rise, '7 1/4');
    await full(false);
    await measure(['7', '3/8']);
    await rise().getByText('7 3/8').waitFor();
    assert.equal(await page.getByRole('alert').count(), 0);
    await page.reload();
    await rise().getByText('7 3/8').waitFor();
    for (const before of ['7 1/4', '7 1/2']) { // and the way back is kept too
      await page.getByRole('button', { name: 'Undo' }).tap();
      await rise().getByText(before).waitFor();
    }
  }));

test('both languages, kept over a restart', () =>
  withApp(tablet, async ({ page, server }) => {
    await page.goto(server.address);
    await page.getByLabel('Language').selectOption('es');
    await page.getByRole('link', { name: 'Escalera nueva' }).waitFor();
    await page.reload();
    await page.getByRole('link', { name: 'Escalera nueva' }).waitFor();
    assert.equal(await page.evaluate(() => document.documentElement.lang), 'es');
  }));

test('what core warns of is Spanish in Spanish, and English does not load it', () =>
  withApp(phone, async ({ page, server, faults }) => {
    const asked = [];
    page.on('request', (request) => asked.push(request.url()));
    const id = await bringExample(page, server.address, 'winding-stair.json');
    await page.goto(`${server.address}#/${id}/measure/0.0/7`); // which the warning names, though it is of the flight
    await page.getByText('a winder\'s narrow end').first().waitFor();
    const catalogue = (url) => url.includes('rooms.es');
    assert.ok(!asked.some(catalogue));
    await page.evaluate(() => localStorage.setItem('treadfold.language', 'es'));
    await page.reload();
    await page.getByText('un escalón en abanico con un extremo angosto').first().waitFor();
    assert.equal(await page.getByText('narrow end').count(), 0);
    assert.ok(asked.some(catalogue));
    assert.deepEqual(faults, []);
  }));

test('the first load is no more than 1.5 MB as a web host sends it', () =>
  withApp(phone, async ({ page, context, server }) => {
    const asked = new Set();
    context.on('request', (request) => asked.add(new URL(request.url()).pathname.replace(/\/$/, '/index.html')));
    const id = await bringExample(page, server.address, 'open-stair.json');
    await page.goto(`${server.address}#/${id}/measure/0.0/usual`);
    await page.getByText('Look again:').first().waitFor(); // the core has planned
    assert.ok([...asked].some((path) => path.endsWith('.wasm')));
    const bytes = (await Promise.all([...asked].map(async (path) => gzipSync(await readFile(join(site, path))).length))).reduce((a, b) => a + b);
    console.log(`first load: ${bytes} bytes`);
    assert.ok(bytes <= 1_500_000, `${bytes} bytes`);
  }, { serviceWorkers: 'block' })); // which fetches the rest when all is at rest

test('nothing is asked of anyone else', () =>
  withApp(phone, async ({ page, server }) => {
    const asked = [];
    page.on('request', (request) => asked.push(request.url()));
    const id = await bringExample(page, server.address, 'open-stair.json');
    for (const part of parts) await page.goto(`${server.address}#/${id}/${part}`);
    await page.waitForTimeout(500);
    assert.deepEqual(asked.filter((url) => !url.startsWith(server.address) && !url.startsWith('blob:') && !url.startsWith('data:')), []);
  }));

