// At the cutting table: what befalls the goods, and the rest planned on what is left of them.
import assert from 'node:assert/strict';
import { readFile, writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import { test } from 'node:test';
import { AxeBuilder } from '@axe-core/playwright';
import { bringExample, browser, phone, repo, serve, watch } from './app.mjs';

/// `work` with the cutting list of an example on a phone.
async function withCutting(example, work) {
  const server = await serve();
  const chrome = await browser(phone);
  const context = await chrome.open();
  try {
    const page = context.pages()[0] ?? (await context.newPage());
    const faults = watch(page);
    const id = await bringExample(page, server.address, example);
    await page.goto(`${server.address}#/${id}/cut/list`);
    await page.locator('li[aria-current="step"]').waitFor();
    await work(page, { id, server, chrome });
    assert.deepEqual(faults, []);
  } finally {
    await Promise.race([context.close().catch(() => {}), new Promise((done) => setTimeout(done, 3000))]);
    await chrome.remove();
    await server.stop().catch(() => {});
  }
}
const row = (inside, piece) => inside.locator(`[id="cut:${piece}"]`);
const spoil = (page, piece) => page.getByRole('button', { name: `${piece} is spoiled` }).tap();
/// What a button saves.
async function saved(page, name) {
  const [download] = await Promise.all([page.waitForEvent('download'), page.getByRole('button', { name }).tap()]);
  return readFile(await download.path());
}
/// An example as a value, without its notes.
const example = async (name) => JSON.parse((await readFile(join(repo, 'examples', name), 'utf8')).replace(/"(?:[^"\\]|\\.)*"|\/\/[^\n]*/g, (part) => (part.startsWith('//') ? '' : part)));
async function accessible(page) {
  for (const look of ['light', 'dark', 'sun']) {
    await page.evaluate((l) => localStorage.setItem('treadfold.look', l), look);
    await page.reload();
    await page.locator('#rest h2').waitFor();
    const { violations } = await new AxeBuilder({ page }).analyze();
    assert.deepEqual(violations.map((v) => `${look}: ${v.id} ${v.nodes.map((n) => n.target).join(' ; ')}`), []);
    const over = await page.evaluate(() => document.documentElement.scrollWidth - innerWidth);
    assert.ok(over <= 0, `${over} px wider than the screen`);
  }
}

test('a spoiled piece is cut from what is left, and ticked off', () =>
  withCutting('open-stair.json', async (page) => {
    await row(page, 'B').getByRole('checkbox').tap();
    await row(page, 'B').getByText('✓ cut').waitFor();
    await spoil(page, 'B');
    const rest = page.locator('#rest');
    await rest.getByText('all that can stay is cut as planned: it fits, nothing to buy.').waitFor();
    await rest.getByRole('heading', { name: 'loose part 1' }).waitFor();
    await rest.getByText('from the end of shelf 3').waitFor();
    assert.equal(await rest.getByRole('link', { name: /^B,/ }).count(), 1); // it is drawn
    assert.ok(await row(rest, 'B').locator('li').count() >= 1); // and its strokes are told
    await page.getByText('B must be cut again').waitFor();
    await accessible(page);

    await row(rest, 'B').getByRole('checkbox').tap();
    await row(rest, 'B').getByText('✓ cut').waitFor();
    assert.equal(await page.getByText('B must be cut again').count(), 0);
    await page.getByText('1 of 15 cut').waitFor();
    await page.reload(); // it is kept, and so is where it was cut from
    await row(rest, 'B').getByText('✓ cut').waitFor();

    await page.evaluate(() => localStorage.setItem('treadfold.language', 'es'));
    await page.reload();
    await page.getByRole('heading', { name: 'parte suelta 1' }).waitFor();
    await page.getByText('alcanza, no hay que comprar nada').waitFor();
    assert.equal(await page.locator('#rest').getByText(/\b(loose|planned|row|buy)\b/).count(), 0);
  }));

test('what is to be bought is told, with the other ways; not spoiled after all, it is as it was', () =>
  withCutting('box-stair.json', async (page) => {
    await row(page, 'A-09').getByRole('checkbox').tap();
    await spoil(page, 'A-08');
    const rest = page.locator('#rest');
    await rest.getByText('3\' 0" more to buy').first().waitFor();
    await rest.getByText('Ask for the same dye lot').waitFor();
    await rest.getByRole('heading', { name: 'New goods, to buy' }).waitFor();
    await rest.getByRole('heading', { name: 'Other ways' }).waitFor();
    await rest.getByText('all that is not cut is laid out anew').waitFor();
    await row(page, 'A-12').and(page.locator('[aria-current="step"]')).waitFor(); // goods at hand come first
    await page.getByRole('button', { name: 'Not spoiled' }).tap();
    await row(page, 'A-08').and(page.locator('[aria-current="step"]')).waitFor();
    assert.equal(await page.locator('#rest h2').count(), 0);
  }));

test('a roll that came short and a flaw are typed in, and taken away again', () =>
  withCutting('box-stair.json', async (page) => {
    const type = async (...keys) => { for (const key of keys) await page.getByRole('button', { name: key, exact: true }).tap(); };
    await type('Roll came short', '6', '0', 'Feet', 'Keep'); // more than it takes
    await page.locator('#rest').getByText('it fits, nothing to buy').waitFor();
    await page.getByRole('button', { name: 'Take away: In truth' }).tap();
    await type('Roll came short', '6', 'Feet', 'Keep');
    await page.getByText('In truth 6\' long').waitFor();
    await page.locator('#rest').getByText('more to buy').first().waitFor();
    await type('Flaw', '2', '0', 'Next', '2', '2', 'Keep');
    await page.getByText('Flaw from 20 to 22').waitFor();
    await accessible(page);
    await page.getByText('Flaw from 20 to 22').waitFor();
    await page.getByRole('button', { name: 'Take away: Flaw' }).tap();
    await page.getByRole('button', { name: 'Take away: In truth' }).tap();
    await page.getByRole('button', { name: 'Roll came short' }).waitFor();
    await page.waitForFunction(() => !document.querySelector('#rest'));
    await type('Flaw', '2', '2', 'Next', '2', '0', 'Keep'); // the wrong way round
    await page.locator('#rest').getByText('more than from').waitFor();
  }));

test('another way is taken: its pieces and strokes are those to tick, its sheet is handed over, and it can be left again', () =>
  withCutting('box-stair.json', async (page, { id, server }) => {
    await row(page, 'A-09').getByRole('checkbox').tap();
    await spoil(page, 'A-08');
    const rest = page.locator('#rest');
    const other = rest.getByRole('listitem').filter({ hasText: 'all that is not cut is laid out anew' });
    await other.waitFor();
    assert.equal(await row(rest, 'A-12').count(), 0); // it stays where the plan has it
    const asPlanned = (await (await toHand(page, id, server), saved(page, 'Save What is left to cut as CSV'))).toString();
    await page.goto(`${server.address}#/${id}/cut/list`);
    await other.getByRole('button', { name: 'Take this way' }).tap();
    await rest.getByText('You took this way.').waitFor();
    await rest.getByRole('status').getByText('all that is not cut is laid out anew').waitFor();
    await row(rest, 'A-12').waitFor();
    assert.ok(await row(rest, 'A-12').locator('li').count() >= 1); // with its strokes
    await accessible(page);
    await rest.getByText('You took this way.').waitFor(); // it outlives a reload

    const pieces = await rest.locator('[id^="cut:"]').evaluateAll((rows) => rows.map((one) => one.id.slice('cut:'.length)).sort());
    await toHand(page, id, server);
    const table = (await saved(page, 'Save What is left to cut as CSV')).toString();
    assert.notEqual(table, asPlanned);
    assert.deepEqual(table.trim().split(/\r?\n/).slice(1).map((line) => line.split(',')[0]).sort(), pieces);
    assert.ok((await saved(page, 'Save What is left to cut as PDF')).subarray(0, 5).equals(Buffer.from('%PDF-')));
    assert.equal(JSON.parse(await saved(page, 'Save The job as JSON')).cutting[0].way, 'laid_anew');

    await page.goto(`${server.address}#/${id}/cut/list`);
    await row(rest, 'A-12').getByRole('checkbox').tap();
    await row(rest, 'A-12').getByText('✓ cut').waitFor();
    await rest.getByText('It does not go with what is cut by now: A-12').waitFor(); // the best way has it elsewhere
    assert.equal(await page.getByRole('button', { name: 'Back to the best way' }).count(), 0);
    await row(rest, 'A-12').getByRole('checkbox').tap();
    await page.getByRole('button', { name: 'Back to the best way' }).tap();
    await rest.getByRole('status').getByText('all that can stay is cut as planned').waitFor();
    assert.equal(await rest.getByText('You took this way.').count(), 0);
  }));
const toHand = async (page, id, server) => {
  await page.goto(`${server.address}#/${id}/hand`);
  await page.getByRole('button', { name: 'Save The job as JSON' }).waitFor();
};

test('ways told before more was cut are asked for anew', () =>
  withCutting('box-stair.json', async (page) => {
    await spoil(page, await page.locator('li[aria-current="step"]').first().getAttribute('id').then((id) => id.slice('cut:'.length)));
    const rest = page.locator('#rest');
    await rest.getByRole('button', { name: 'Take this way' }).first().waitFor();
    const planned = page.locator('ol > li').filter({ has: page.getByRole('checkbox') }).and(page.locator(':not(#rest li)'));
    await planned.first().getByRole('checkbox').tap();
    await rest.getByText('It does not go with what is cut by now').waitFor();
    await rest.getByRole('button', { name: 'Ask again, with what is cut by now' }).tap();
    await rest.getByRole('button', { name: 'Take this way' }).first().waitFor();
    assert.equal(await rest.getByText('It does not go with what is cut by now').count(), 0);
  }));

test('what a file says of its cutting is ticked when it is brought, goes on, and goes out with the job', () =>
  withCutting('box-stair.json', async (page, { server, chrome }) => {
    const job = await example('box-stair.json');
    job.site.title = 'Begun elsewhere';
    job.cutting = [{
      carpet: 'twist', cut: ['A-09'], spoiled: ['A-08', { piece: 'A-12', sound_width: '24', sound_length: '12' }], roll_length: '30 ft',
      flaws: [{ from: '2 ft', to: '2 ft 1 in' }, { from: '9 ft', to: '9 ft 2 in' }], way: 'laid_anew',
    }];
    const path = join(chrome.profile, 'begun.json');
    await writeFile(path, JSON.stringify(job));
    await page.goto(server.address);
    await page.locator('input[type=file]').setInputFiles(path);
    await page.getByRole('heading', { level: 1, name: 'Begun elsewhere' }).waitFor();
    const id = page.url().match(/#\/([0-9a-f-]{32,36})/)[1];
    await page.goto(`${server.address}#/${id}/cut/list`);
    await page.getByText('spoiled: A-08, A-12').waitFor();
    await row(page, 'A-09').getByText('✓ cut').waitFor();
    await page.getByText('In truth 30 ft long').waitFor();
    for (const flaw of ['Flaw from 2 ft to 2 ft 1 in', 'Flaw from 9 ft to 9 ft 2 in', 'Sound: 24 across, 12 along']) await page.getByText(flaw, { exact: true }).waitFor();
    await page.locator('#rest').getByRole('status').getByText('all that is not cut is laid out anew').waitFor();

    await page.getByRole('button', { name: 'Take away: Flaw from 9 ft to 9 ft 2 in' }).tap();
    await page.getByText('Flaw from 9 ft').waitFor({ state: 'detached' });
    await toHand(page, id, server);
    const out = JSON.parse(await saved(page, 'Save The job as JSON'));
    assert.deepEqual(out, { ...job, cutting: [{ ...job.cutting[0], of: out.cutting[0].of, flaws: job.cutting[0].flaws.slice(0, 1) }] });
    assert.match(out.cutting[0].of, /^roll /); // of which it was said
  }));

test('a file whose cutting names a piece that there is not is faulted in one sentence, and then goes by the ticks', () =>
  withCutting('box-stair.json', async (page, { server, chrome }) => {
    const path = join(chrome.profile, 'strange.json');
    await writeFile(path, JSON.stringify({ ...(await example('box-stair.json')), cutting: [{ carpet: 'twist', cut: ['A-09'], spoiled: ['A-77'] }] }));
    await page.goto(server.address);
    await page.locator('input[type=file]').setInputFiles(path);
    await page.waitForURL(/#\/[0-9a-f-]{32,36}/);
    await page.goto(`${page.url().replace(/(#\/[0-9a-f-]+).*/, '$1')}/cut/list`);
    await page.locator('#rest').getByText("'A-77'").waitFor();
    await page.getByRole('button', { name: 'Leave out what the plan does not have' }).tap();
    await page.waitForFunction(() => !document.querySelector('#rest'));
    await row(page, 'A-09').getByText('✓ cut').waitFor();
  }));

test('several flaws, and what is sound of a spoiled piece, are typed in and taken away', () =>
  withCutting('box-stair.json', async (page) => {
    const type = async (...keys) => { for (const key of keys) await page.getByRole('button', { name: key, exact: true }).tap(); };
    await spoil(page, await page.locator('li[aria-current="step"]').first().getAttribute('id').then((id) => id.slice('cut:'.length)));
    await type('Flaw', '2', '0', 'Next', '2', '2', 'Keep');
    await page.getByText('Flaw from 20 to 22').waitFor();
    await type('Flaw', '6', '0', 'Next', '6', '3', 'Keep');
    await page.getByText('Flaw from 60 to 63').waitFor();
    await page.getByText('Flaw from 20 to 22').waitFor();
    await type('Part of it is sound', '2', '0', 'Next', '1', '2', 'Keep');
    await page.getByText('Sound: 20 across, 12 along').waitFor();
    await accessible(page);
    await page.getByText('Sound: 20 across, 12 along').waitFor();
    await page.getByRole('button', { name: 'Take away: Sound' }).tap();
    await page.getByRole('button', { name: 'Part of it is sound' }).waitFor();
    await type('Part of it is sound', '9', 'Feet', 'Next', '1', '2', 'Keep'); // more than there was
    await page.locator('#rest').getByText('more sound than').waitFor();
  }));
