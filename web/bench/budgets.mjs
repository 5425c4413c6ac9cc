// What the app weighs and how fast it is, against its budgets: build/bench/app.md. Of the built app in Debian's Chromium, on a
// phone's screen, on this machine as it is: figures of a busy one are no better than that.
import { mkdir, mkdtemp, readFile, rm, writeFile } from 'node:fs/promises';
import { cpus, tmpdir } from 'node:os';
import { join } from 'node:path';
import { gzipSync } from 'node:zlib';
import { start } from '../../wasm/treadfold.mjs';
import { bringExample, browser, phone, repo, serve, site } from '../e2e/app.mjs';

const gzipped = async (path) => gzipSync(await readFile(path), { level: 9 }).length;
const median = (times) => [...times].sort((a, b) => a - b)[Math.floor(times.length / 2)];
const span = (times) => `${median(times).toFixed(0)} ms (${Math.min(...times).toFixed(0)} to ${Math.max(...times).toFixed(0)}, ${times.length} times)`;

const server = await serve();

/// `work` on a page of a browser that knows nothing yet.
async function fresh(work) {
  const chrome = await browser(phone);
  const context = await chrome.open();
  try {
    return await work(context.pages()[0] ?? (await context.newPage()), context);
  } finally {
    await context.close();
    await chrome.remove();
  }
}

/// All that is fetched until the core has planned a first job.
const firstLoad = () =>
  fresh(async (page, context) => {
    const asked = new Set();
    context.on('request', (request) => asked.add(new URL(request.url()).pathname.replace(/\/$/, '/index.html')));
    const id = await bringExample(page, server.address, 'open-stair.json');
    await page.goto(`${server.address}#/${id}/measure/0.0/usual`);
    await page.getByText('Look again:').first().waitFor();
    const sizes = await Promise.all([...asked].map((path) => gzipped(join(site, path))));
    return sizes.reduce((a, b) => a + b);
  });

/// From the first request to a tap that has been followed, the processor slowed down four times.
const interactive = () =>
  fresh(async (page, context) => {
    const devtools = await context.newCDPSession(page);
    await devtools.send('Emulation.setCPUThrottlingRate', { rate: 4 });
    await page.goto(server.address, { waitUntil: 'commit' });
    await page.getByRole('link', { name: 'New stair' }).tap();
    await page.waitForURL(/#\/new/);
    return page.evaluate(() => performance.now());
  });

/// From a key to what `selector` shows anew, as a measure is taken back and made again.
const changes = (page, selector, times) =>
  page.evaluate(async ({ selector, times }) => {
    const shown = () => document.querySelector(selector).outerHTML;
    const once = (shiftKey) => new Promise((done) => {
      const before = shown(), began = performance.now();
      const watch = new MutationObserver(() => {
        if (shown() === before) return;
        watch.disconnect();
        requestAnimationFrame(() => done(performance.now() - began));
      });
      watch.observe(document.querySelector('main'), { subtree: true, childList: true, characterData: true, attributes: true });
      dispatchEvent(new KeyboardEvent('keydown', { key: 'z', ctrlKey: true, shiftKey }));
    });
    const all = [];
    for (let i = 0; i < times; ++i) {
      all.push(await once(i % 2 === 1));
      await new Promise((quiet) => setTimeout(quiet, 500));
    }
    return all;
  }, { selector, times });

/// A stair of 15 steps, open on one side, whose going has been changed: to its picture, and to the roll.
const measureTo = () =>
  fresh(async (page) => {
    const core = await start(await readFile(join(repo, 'build/wasm/treadfold.wasm')));
    const folder = await mkdtemp(join(tmpdir(), 'treadfold-'));
    await writeFile(join(folder, 'fifteen.json'), core.newJob({ risers: 15, right: 'open' }));
    await page.goto(server.address);
    await page.locator('input[type=file]').setInputFiles(join(folder, 'fifteen.json'));
    await page.waitForURL(/#\/[0-9a-f-]{32,36}/);
    await rm(folder, { recursive: true });
    const id = page.url().match(/#\/([0-9a-f-]{32,36})/)[1];
    await page.goto(`${server.address}#/${id}/measure/0.0/usual/going`);
    for (const key of ['1', '1', 'Keep']) await page.getByRole('button', { name: key, exact: true }).first().tap();
    await page.locator('main svg').first().waitFor();
    await page.waitForTimeout(1000);
    const picture = await changes(page, 'main svg', 20);
    await page.goto(`${server.address}#/${id}/look/roll`);
    await page.locator('.rolls svg').waitFor();
    await page.waitForTimeout(1000);
    return { picture, layout: await changes(page, '.rolls', 20) };
  });

const loads = [];
for (let i = 0; i < 5; ++i) loads.push(await interactive());
const { picture, layout } = await measureTo();
const rows = [
  ['first load, gzip', `${await firstLoad()} bytes`, '1,500,000 bytes'],
  ['the core in it, gzip -9', `${await gzipped(join(repo, 'build/wasm/treadfold.wasm'))} bytes`, '800,000 bytes'],
  ['from the first request to a tap followed, processor slowed 4 times', span(loads), '2000 ms'],
  ['from a changed measure to its picture, 15 steps', span(picture), '100 ms'],
  ['from a changed measure to the new layout drawn, 15 steps', span(layout), '500 ms'],
];
await server.stop();

const report = `# What the app weighs and how fast it is\n\n${cpus()[0].model}, ${cpus().length} processors; Node ${process.version}\n\n` +
  `| what | measured | budget |\n|---|---|---|\n${rows.map((row) => `| ${row.join(' | ')} |\n`).join('')}`;
await mkdir(join(repo, 'build/bench'), { recursive: true });
await writeFile(join(repo, 'build/bench/app.md'), report);
console.log(report);
process.exit(0);
