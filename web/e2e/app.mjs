// The built app in Debian's Chromium.
import { createServer } from 'node:http';
import { readFile, mkdtemp, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { extname, join, normalize } from 'node:path';
import { fileURLToPath } from 'node:url';
import { chromium } from 'playwright-core';

export const repo = fileURLToPath(new URL('../..', import.meta.url));
export const site = join(repo, 'build/site');
export const phone = { width: 360, height: 740 };
export const tablet = { width: 820, height: 1180 };
export const desk = { width: 1440, height: 900 };

const types = { '.html': 'text/html', '.js': 'text/javascript', '.css': 'text/css', '.wasm': 'application/wasm', '.svg': 'image/svg+xml', '.webmanifest': 'application/manifest+json' };

/// Serves a folder on a port of the system's choice; `stop` to be as good as out of reach.
export async function serve(folder = site) {
  const server = createServer(async (request, response) => {
    const path = normalize(decodeURIComponent(new URL(request.url, 'http://x').pathname)).replace(/\/$/, '/index.html');
    try {
      const body = await readFile(join(folder, path));
      response.writeHead(200, { 'content-type': types[extname(path)] ?? 'application/octet-stream' }).end(body);
    } catch {
      response.writeHead(404).end();
    }
  });
  await new Promise((ready) => server.listen(0, '127.0.0.1', ready));
  return {
    address: `http://127.0.0.1:${server.address().port}/`,
    stop: () => new Promise((done) => { server.closeAllConnections(); server.close(done); }),
  };
}

/// A browser with a profile of its own, which outlives its pages: databases and caches stay.
export async function browser(viewport = phone, options = {}) {
  const profile = await mkdtemp(join(tmpdir(), 'treadfold-'));
  const open = (more = {}) =>
    chromium.launchPersistentContext(profile, {
      executablePath: '/usr/bin/chromium',
      headless: true,
      viewport,
      hasTouch: viewport.width < 1000,
      locale: 'en-GB',
      acceptDownloads: true,
      args: ['--no-sandbox', '--disable-quic', '--no-first-run', '--disable-background-networking', '--disable-component-update', '--disable-sync', '--use-gl=angle', '--use-angle=swiftshader', '--enable-unsafe-swiftshader'],
      ...options,
      ...more,
    });
  return { open, profile, remove: () => rm(profile, { recursive: true, force: true }) };
}

/// Every error that the page throws or the console shows.
export function watch(page) {
  const faults = [];
  page.on('pageerror', (error) => faults.push(String(error)));
  page.on('console', (message) => { if (message.type() === 'error') faults.push(message.text()); });
  return faults;
}

/// Brings one of the repository's example jobs into the app; its id.
export async function bringExample(page, address, name) {
  await page.goto(address);
  await page.locator('input[type=file]').setInputFiles(join(repo, 'examples', name));
  await page.waitForURL(/#\/[0-9a-f-]{32,36}/);
  return page.url().match(/#\/([0-9a-f-]{32,36})/)[1];
}
