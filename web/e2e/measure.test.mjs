// Measuring by thumb: a stair from nothing, what differs from step to step, what was half typed when the page was killed.
import assert from 'node:assert/strict';
import { mkdtemp, readFile, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { test } from 'node:test';
import { AxeBuilder } from '@axe-core/playwright';
import { start } from '../../wasm/treadfold.mjs';
import { bringExample, browser, phone, repo, serve } from './app.mjs';

async function withPage(work) {
  const server = await serve();
  const chrome = await browser(phone);
  const context = await chrome.open();
  try {
    await work(context.pages()[0] ?? (await context.newPage()), server.address, context);
  } finally {
    await Promise.race([context.close().catch(() => {}), new Promise((done) => setTimeout(done, 3000))]);
    await chrome.remove();
    await server.stop();
  }
}

/// A record as it is kept, read from the browser's database itself.
const kept = (page) =>
  page.evaluate(
    (id) =>
      new Promise((done, failed) => {
        const opening = indexedDB.open('treadfold');
        opening.onerror = () => failed(opening.error);
        opening.onsuccess = () => {
          const asked = opening.result.transaction('jobs').objectStore('jobs').get(id);
          asked.onsuccess = () => { opening.result.close(); done(asked.result); };
        };
      }),
    page.url().match(/#\/([0-9a-f-]{32,36})/)[1],
  );
const flight = async (page) => (await kept(page)).job.stairs[0].flights[0];
const at = (page, end) => page.waitForURL((url) => url.hash.endsWith(end));

test('a fourteen-step stair with an open side is measured from nothing in 60 taps at most', () =>
  withPage(async (page, address) => {
    await page.goto(address);
    let taps = 0;
    const tap = async (name, role = 'button') => { ++taps; await page.getByRole(role, { name, exact: true }).first().tap(); };
    await tap('New stair', 'link');
    for (const key of ['Feet, inches', '1', '4', 'Next']) await tap(key);
    // Every measure is typed, none taken as it is offered.
    const answers = [
      ['ask', '7', '5/8', 'Next'], ['going', '1', '0', '1/4', 'Next'], ['width', '3', 'Feet', '1', '1/2', 'Next'],
      ['projection', '1', '1/8', 'Next'], ['thickness', '1', '1/16', 'One sixteenth more or off', 'Next'], ['profile', 'Half-round'],
      ['left', 'Skirt board'], ['right', 'Open'], ['overhang', '1', '1/4', 'Next'], ['return', '7/8', 'Next'], ['cover', 'Waterfall'],
      ['title', 'To the first step'],
    ].map(([end, ...keys]) => [end, ...keys.map((key) => (key === '1/16' ? '1/8' : key))]);
    for (const [end, ...keys] of answers) {
      await at(page, end);
      for (const key of keys) await tap(key);
    }
    await at(page, '/0.0/1');
    await page.getByRole('button', { name: /^Rise/ }).first().tap(); ++taps;
    for (const key of ['7', '1/2', 'Keep']) await tap(key);
    const made = await flight(page);
    assert.equal(made.risers, 14);
    assert.deepEqual([made.rise, made.going, made.width], ['7 5/8', '10 1/4', "3' 1 1/2"]);
    assert.deepEqual(made.nosing, { projection: '1 1/8', thickness: '1 3/16', profile: 'half-round' });
    assert.deepEqual([made.left, made.right], ['skirt', { open: { overhang: '1 1/4', return: '7/8' } }]);
    assert.deepEqual(made.steps, { 1: { rise: '7 1/2' } });
    await page.getByRole('img', { name: 'The stair from the side, 14 steps' }).waitFor();
    assert.equal(await page.getByText('Mend this:').count(), 0);
    console.log(`taps: ${taps}`);
    assert.ok(taps <= 60, `${taps} taps`);
  }));

test('what differs is made, repeated and taken away again', () =>
  withPage(async (page, address) => {
    const id = await bringExample(page, address, 'open-stair.json');
    const go = async (rest) => page.goto(`${address}#/${id}/measure/0.0/${rest}`);
    const tap = (name) => page.getByRole('button', { name, exact: typeof name === 'string' }).first().tap();
    await go('9/rise');
    for (const key of ['8', '1/4', 'Step above']) await tap(key);
    await at(page, '/10/rise');
    assert.equal((await flight(page)).steps['9'].rise, '8 1/4');
    await go('9');
    await page.locator('main ul[aria-live]').getByText('at most 7 3/4').waitFor({ timeout: 5000 }); // said where it arises
    await go('10/rise');
    await tap(/^As last/);
    await at(page, '/10');
    assert.equal((await flight(page)).steps['10'].rise, '8 1/4');
    await go('10/rise');
    await tap(/^As the usual/);
    await at(page, '/10');
    assert.equal((await flight(page)).steps['10'], undefined);
    await go('6/going'); // of the range 6-7
    await tap(/^As the usual/);
    await at(page, '/6');
    const { steps } = await flight(page);
    assert.equal(steps['6-7'] ?? steps['6'], undefined);
    assert.deepEqual(steps['7'], { going: '10 1/8' });
  }));

test('what most stairs have not is measured too, and core takes it', () =>
  withPage(async (page, address) => {
    const id = await bringExample(page, address, 'box-stair.json');
    const go = (rest) => page.goto(`${address}#/${id}/measure/${rest}`);
    const tap = (...names) => names.reduce((before, name) => before.then(() => page.getByRole('button', { name, exact: typeof name === 'string' }).first().tap()), Promise.resolve());
    await go('0.0/usual/open_risers');
    await tap('Open, no risers');
    await at(page, '/usual');
    assert.equal((await flight(page)).open_risers, true);
    await go('0.0/usual/open_risers');
    await tap('Risers');
    await at(page, '/usual');
    assert.equal((await flight(page)).open_risers, undefined);
    await go('0.0/3/rise_right');
    await tap('7', '1/2', 'Keep');
    await at(page, '/3');
    assert.equal((await flight(page)).steps['3'].rise_right, '7 1/2');
    await go('allowances/allowances/side_trim');
    await tap('1', '1/4', 'Keep');
    await at(page, '/allowances');
    await go('allowances/tolerances/tape');
    await tap('1/8', 'Keep');
    await at(page, '/allowances');
    await go('goods');
    const widths = (await kept(page)).job.carpets[0].widths.length;
    await tap('Add a roll width');
    await at(page, `/widths/${widths}`);
    await tap('1', '3', 'Feet', 'Keep');
    await at(page, '/goods');
    await tap('Add a carpet');
    await page.getByRole('button', { name: 'Take Carpet 2 away' }).waitFor();
    await go('0.0/usual/carpet');
    await tap('Carpet 2');
    await at(page, '/usual');
    const { job } = await kept(page);
    assert.equal(job.allowances.side_trim, '1 1/4');
    assert.equal(job.tolerances.tape, '1/8');
    assert.equal(job.carpets[0].widths.at(-1), "13'");
    assert.equal(job.stairs[0].flights[0].carpet, 'carpet-2');
    const core = await start(await readFile(join(repo, 'build/wasm/treadfold.wasm')));
    const { planned, json } = core.plan(JSON.stringify(job));
    assert.ok(planned, json);
    assert.deepEqual(JSON.parse(json).problems.filter(({ severity }) => severity === 'error'), []);
    await go('goods'); // the first carpet is of no use now
    await tap(/^Take (?!Carpet 2)/);
    await page.getByRole('button', { name: 'Take Carpet 2 away' }).waitFor({ state: 'detached' });
    assert.deepEqual((await kept(page)).job.carpets.map((carpet) => carpet.id), ['carpet-2']);
  }));

test('what of a landing is not carpeted is measured, core takes it, and it is taken away again', () =>
  withPage(async (page, address) => {
    const id = await bringExample(page, address, 'open-stair.json');
    const tap = (name) => page.getByRole('button', { name, exact: true }).first().tap();
    await page.goto(`${address}#/${id}/measure/floors/0/0`);
    await tap('Add an opening');
    for (const [name, ...keys] of [['along', '1', '0'], ['off', '1', '2'], ['width', '8'], ['length', '9', '1/2']]) {
      await at(page, `/floors/0/0/openings/0/${name}`);
      for (const key of [...keys, 'Keep']) await tap(key);
    }
    await at(page, '/floors/0/0');
    const { job } = await kept(page);
    assert.deepEqual(job.stairs[0].floors[0].openings, [{ name: 'Opening', along: '10', off: '12', width: '8', length: '9 1/2' }]);
    const core = await start(await readFile(join(repo, 'build/wasm/treadfold.wasm')));
    assert.deepEqual(JSON.parse(core.plan(JSON.stringify(job)).json).problems.filter(({ severity }) => severity === 'error'), []);
    await tap('Take Opening away');
    await page.getByRole('button', { name: 'Take Opening away' }).waitFor({ state: 'detached' });
    assert.equal('openings' in (await kept(page)).job.stairs[0].floors[0], false);
  }));

test('a measure taken back and made again draws the same roll each time, never half of one', () =>
  withPage(async (page, address) => {
    const core = await start(await readFile(join(repo, 'build/wasm/treadfold.wasm')));
    const job = join(await mkdtemp(join(tmpdir(), 'treadfold-')), 'fifteen.json');
    await writeFile(job, core.newJob({ risers: 15, right: 'open' }));
    await page.goto(address);
    await page.locator('input[type=file]').setInputFiles(job);
    await page.waitForURL(/#\/[0-9a-f-]{32,36}/);
    const id = page.url().match(/#\/([0-9a-f-]{32,36})/)[1];
    await page.goto(`${address}#/${id}/measure/0.0/usual/going`);
    for (const key of ['1', '1', 'Keep']) await page.getByRole('button', { name: key, exact: true }).first().tap();
    await at(page, '/usual');
    await page.goto(`${address}#/${id}/look/roll`);
    await page.locator('.rolls svg').waitFor();
    await page.waitForTimeout(1000);
    // The measure is taken back and made again: from the key to the roll as it is newly drawn.
    const once = (shiftKey) => page.evaluate((again) => new Promise((done) => {
      const roll = () => document.querySelector('.rolls').textContent, before = roll();
      const watch = new MutationObserver(() => {
        if (roll() === before) return;
        watch.disconnect();
        requestAnimationFrame(() => done(roll()));
      });
      watch.observe(document.querySelector('main'), { subtree: true, childList: true, characterData: true });
      dispatchEvent(new KeyboardEvent('keydown', { key: 'z', ctrlKey: true, shiftKey: again }));
    }), shiftKey);
    const all = [];
    for (let i = 0; i < 10; ++i) all.push(await once(i % 2 === 1));
    for (const [i, drawn] of all.entries()) assert.equal(drawn, all[i % 2]);
    assert.notEqual(all[0], all[1]);
  }));

test('a page killed in mid-entry comes back with what was typed', () =>
  withPage(async (page, address, context) => {
    const id = await bringExample(page, address, 'open-stair.json');
    await page.goto(`${address}#/${id}/measure/0.0/4/width`);
    for (const key of ['3', '7', '5/8']) await page.getByRole('button', { name: key, exact: true }).tap();
    await page.waitForTimeout(150);
    const killer = await context.newCDPSession(page);
    void killer.send('Page.crash').catch(() => {}); // it never answers
    await new Promise((done) => setTimeout(done, 500));
    const next = await context.newPage();
    await next.goto(`${address}#/${id}`);
    await at(next, '/0.0/4/width');
    assert.match(await next.locator('output').textContent(), /^37 5\/8/);
  }));

test('every measuring screen fits, is big enough for a thumb, and axe finds nothing', () =>
  withPage(async (page, address) => {
    const id = await bringExample(page, address, 'open-stair.json');
    const screens = ['0.0/1', '0.0/3/width', '0.0/3/right/open/return', '0.0/3/left', '0.0/usual', '0.0/7/tread/shape', '0.0/2/balusters', '0.0/2/balusters/0/spacing', '0.0/1/newels/0/size',
      '0.0/1/starter/kind', 'ask/nosing/profile', 'ask/rise', 'ask/title', 'floors', 'floors/0/0', 'floors/0/0/diagonal_from_front_left', 'goods', 'goods/carpets/0/directional', 'allowances', 'allowances/allowances/hem', '0.0/usual/open_risers'];
    const found = [];
    for (const screen of screens) {
      await page.goto(`${address}#/${id}/measure/${screen}`);
      await page.waitForTimeout(250);
      found.push(...(await page.evaluate((name) => {
        const small = [...document.querySelectorAll('main button, main a.button')].filter((e) => { const b = e.getBoundingClientRect(); return b.width && (b.width < 47.5 || b.height < 47.5); });
        const over = document.documentElement.scrollWidth - innerWidth;
        return [...small.map((e) => `${name}: ${e.textContent} is small`), ...(over > 0 ? [`${name}: ${over} px too wide`] : [])];
      }, screen)));
      const { violations } = await new AxeBuilder({ page }).analyze();
      found.push(...violations.map((v) => `${screen}: ${v.id} ${v.nodes.map((n) => n.target).join(' ; ')}`));
    }
    assert.deepEqual(found, []);
  }));
