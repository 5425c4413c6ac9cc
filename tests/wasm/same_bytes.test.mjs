// The phone gives the same plan as the command, to the byte: every file of every job, from bin/treadfold and from
// build/wasm/treadfold.wasm. `make wasm-test` builds both and runs this.
import assert from 'node:assert/strict';
import { execFile } from 'node:child_process';
import { mkdtempSync, readdirSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { test } from 'node:test';
import { fileURLToPath } from 'node:url';

import { start } from '../../wasm/treadfold.mjs';
import { randomJob } from './random_job.mjs';

const root = fileURLToPath(new URL('../..', import.meta.url));
const core = await start(readFileSync(join(root, 'build/wasm/treadfold.wasm')));

/// What the command prints, whatever its exit status; `input` is its standard input.
function command(input, ...words) {
  return new Promise((done, failed) => {
    const child = execFile(join(root, 'bin/treadfold'), words, { maxBuffer: 1 << 28 }, (error, output) =>
      error && typeof error.code !== 'number' ? failed(error) : done(output));
    child.stdin.end(input);
  });
}

/// Plans `job` on both sides at once. The names of the files that differ, and of those that one side alone has.
async function differing(job) {
  const folder = mkdtempSync(join(tmpdir(), 'treadfold-'));
  try {
    const native = command(job, 'plan', '-', '-o', folder);
    const { planned, json } = core.plan(job);
    const ours = new Map([['plan.json', Buffer.from(json)]]);
    for (const name of planned ? core.files() : []) ours.set(name, core.file(name));
    await native;
    const theirs = readdirSync(folder).filter((name) => name !== '.treadfold');
    assert(planned && theirs.includes('all-sheets.pdf'), 'both sides plan the job');
    const one_has = [...theirs.filter((name) => !ours.has(name)), ...[...ours.keys()].filter((name) => !theirs.includes(name))];
    return [...one_has, ...theirs.filter((name) => ours.has(name) && !readFileSync(join(folder, name)).equals(ours.get(name)))];
  } finally {
    rmSync(folder, { recursive: true });
  }
}

const examples = readdirSync(join(root, 'examples')).filter((name) => name.endsWith('.json'));
assert(examples.length > 0);
for (const name of examples)
  test(`${name}: every file has the same bytes`, async () => {
    assert.deepEqual(await differing(readFileSync(join(root, 'examples', name), 'utf8')), []);
  });

test('200 jobs at random: every file has the same bytes', async () => {
  const wrong = {};
  for (let number = 0; number < 200; ++number) {
    const names = await differing(randomJob(number));
    if (names.length > 0) wrong[`randomJob(${number})`] = names;
  }
  assert.deepEqual(wrong, {});
});

test('a job that cannot be read: the same problems as check --json, and no files', async () => {
  for (const job of ['', '{', '{"treadfold": 1, "stair": []}', randomJob(1).replace('"risers"', '"riser"')]) {
    assert.deepEqual(core.plan(job), { planned: false, json: await command(job, 'check', '-', '--json') });
    assert.deepEqual(core.files(), []);
    assert.equal(core.file('all-sheets.pdf'), undefined);
  }
});

test('a piece that fits no roll: planned all the same, with its problem', async () => {
  const job = JSON.parse(randomJob(1));
  job.carpets[0].widths = ['50 cm'];
  assert.deepEqual(await differing(JSON.stringify(job)), []);
  assert(JSON.parse(core.plan(JSON.stringify(job)).json).problems.some(({ severity }) => severity === 'error'));
});

test('letters beyond ASCII come through', () => {
  const job = JSON.parse(randomJob(1));
  job.site.title = 'Escalera de Núñez, 2.º – ½″';
  assert.equal(JSON.parse(core.plan(JSON.stringify(job)).json).site.title, job.site.title);
});

test('the schemas are the command\'s', async () => {
  for (const which of ['job', 'plan']) assert.equal(core.schema(which), await command('', 'schema', which));
  assert.equal(core.schema('other'), undefined);
});

test('an instance may be asked for a name that is no file', () => {
  core.plan(randomJob(1));
  assert.equal(core.file('../plan.json'), undefined);
});
