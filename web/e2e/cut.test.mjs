// At the cutting table: what befalls the goods, and the rest planned on what is left of them.
import assert from 'node:assert/strict';
import { test } from 'node:test';
import { AxeBuilder } from '@axe-core/playwright';
import { bringExample, browser, phone, serve, watch } from './app.mjs';

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
    await work(page);
    assert.deepEqual(faults, []);
  } finally {
    await Promise.race([context.close().catch(() => {}), new Promise((done) => setTimeout(done, 3000))]);
    await chrome.remove();
    await server.stop().catch(() => {});
  }
}
const row = (inside, piece) => inside.locator(`[id="cut:${piece}"]`);
const spoil = (page, piece) => page.getByRole('button', { name: `${piece} is spoiled` }).tap();
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
