// The phone gives the same plan as the command, to the byte: every file of every job, from bin/treadfold and from
// build/wasm/treadfold.wasm. `make wasm-test` builds both and runs this.
import assert from 'node:assert/strict';
import { execFile } from 'node:child_process';
import { existsSync, mkdtempSync, readdirSync, readFileSync, rmSync } from 'node:fs';
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
    child.stdin.on('error', () => {}); // of a command that does not read it
    child.stdin.end(input);
  });
}

/// Runs the command with `words` and a folder for its files, and `ours` beside it, which gives the same files from the core
/// by name. The names of those that differ, and of those that one side alone has.
async function differing(job, words, ours) {
  const folder = mkdtempSync(join(tmpdir(), 'treadfold-'));
  try {
    const native = command(job, ...words, '-', '-o', folder);
    const { planned, json } = core.plan(job);
    assert(planned, 'the core plans the job');
    const files = ours(json);
    await native;
    const names = new Set([...files.keys(), ...readdirSync(folder)]);
    names.delete('.treadfold'); // the command's mark that the folder is its own
    names.delete('templates.json'); // the command's list of what it wrote
    const same = (name) => files.has(name) && existsSync(join(folder, name)) && readFileSync(join(folder, name)).equals(files.get(name));
    return [...names].filter((name) => !same(name));
  } finally {
    rmSync(folder, { recursive: true });
  }
}

const differingSheets = (job) =>
  differing(job, ['plan'], (json) => {
    const files = new Map([['plan.json', Buffer.from(json)], ['fold.json', Buffer.from(core.fold())]]);
    for (const name of core.files()) files.set(name, core.file(name));
    assert(files.has('all-sheets.pdf'));
    return files;
  });

/// Of every piece that may be cut, each asked for by name: of its own accord the command leaves out a runner's strips.
function differingTemplates(job, side) {
  const ids = JSON.parse(core.plan(job).json).pieces.filter(({ proof }) => proof.passed).map(({ id }) => id);
  return differing(job, ['templates', '--side', side, ...ids.flatMap((id) => ['--piece', id])], () => {
    const files = new Map();
    for (const id of ids) for (const name of core.templates(id, side)) files.set(name, core.file(name));
    assert(files.size > 0);
    return files;
  });
}

const examples = readdirSync(join(root, 'examples')).filter((name) => name.endsWith('.json'));
assert(examples.length > 0);
for (const name of examples)
  test(`${name}: every sheet and template has the same bytes`, async () => {
    const job = readFileSync(join(root, 'examples', name), 'utf8');
    assert.deepEqual(await differingSheets(job), []);
    for (const side of ['backing', 'pile']) assert.deepEqual(await differingTemplates(job, side), []);
  });

/// What is wrong with which of `count` random jobs, by `differ`.
async function wrongAmong(count, differ) {
  const wrong = {};
  for (let number = 0; number < count; ++number) {
    const names = await differ(randomJob(number));
    if (names.length > 0) wrong[`randomJob(${number})`] = names;
  }
  return wrong;
}

test('200 jobs at random: every sheet has the same bytes', async () => {
  assert.deepEqual(await wrongAmong(200, differingSheets), {});
});

test('20 of them: every template has the same bytes', async () => {
  assert.deepEqual(await wrongAmong(20, (job) => differingTemplates(job, 'backing')), {});
});

test('the rest after a miscut, of every example and 50 jobs at random: the same bytes', async () => {
  const jobs = examples.map((name) => readFileSync(join(root, 'examples', name), 'utf8').replace(/^\s*\/\/.*$|\s\/\/ .*$/gm, ''));
  for (let number = 0; number < 50; ++number) jobs.push(randomJob(number));
  for (const text of jobs) {
    const job = JSON.parse(text);
    const { layouts, problems } = JSON.parse(core.plan(text).json);
    job.cutting = layouts.filter(({ rolls }) => rolls.length > 0).map(({ carpet, rolls }) => {
      const ids = rolls.flatMap(({ placements }) => placements.map(({ piece }) => piece));
      const half = ids.slice(0, ids.length / 2);
      return { carpet, cut: half.slice(1), spoiled: ids.slice(0, 1) };
    });
    const answer = core.recut(JSON.stringify(job));
    const sound = !problems.some(({ severity }) => severity === 'error');
    assert.equal(answer.planned, sound);
    if (sound) assert.equal(JSON.parse(answer.json).carpets.length, job.cutting.length, answer.json);
    assert.equal(answer.json, await command(JSON.stringify(job), 'recut', '-', '--json'));
  }
});

test('the rest\'s sheet, by a way that is not the best, has the same bytes', async () => {
  const job = JSON.parse(readFileSync(join(root, 'examples/box-stair.json'), 'utf8').replace(/^\s*\/\/.*$|\s\/\/ .*$/gm, ''));
  const [{ carpet, rolls }] = JSON.parse(core.plan(JSON.stringify(job)).json).layouts;
  job.cutting = [{ carpet, spoiled: [rolls[0].placements[0].piece], way: 'laid_anew' }];
  const folder = mkdtempSync(join(tmpdir(), 'treadfold-'));
  try {
    await command(JSON.stringify(job), 'recut', '-', '-o', folder);
    for (const name of ['recut.pdf', 'recut.csv'])
      assert(readFileSync(join(folder, name)).equals(core.recutFile(JSON.stringify(job), name)), name);
  } finally {
    rmSync(folder, { recursive: true });
  }
});

test('a job that cannot be read: the same problems as check --json, and no files', async () => {
  for (const job of ['', '{', '{"treadfold": 1, "stair": []}', randomJob(1).replace('"risers"', '"riser"')]) {
    assert.deepEqual(core.plan(job), { planned: false, json: await command(job, 'check', '-', '--json') });
    assert.deepEqual(core.files(), []);
    assert.equal(core.fold(), undefined);
    assert.equal(core.file('all-sheets.pdf'), undefined);
  }
});

test('a piece that fits no roll: planned all the same, with its problem', async () => {
  const job = JSON.parse(randomJob(1));
  job.carpets[0].widths = ['50 cm'];
  assert.deepEqual(await differingSheets(JSON.stringify(job)), []);
  assert(JSON.parse(core.plan(JSON.stringify(job)).json).problems.some(({ severity }) => severity === 'error'));
});

test('letters beyond ASCII come through', () => {
  const job = JSON.parse(randomJob(1));
  job.site.title = 'Escalera de Núñez, 2.º – ½″';
  assert.equal(JSON.parse(core.plan(JSON.stringify(job)).json).site.title, job.site.title);
});

test('what is not there is undefined', () => {
  core.plan(randomJob(1));
  assert.equal(core.file('../plan.json'), undefined);
  assert.equal(core.templates('Z-99', 'pile'), undefined);
  const [{ id }] = JSON.parse(core.plan(randomJob(1)).json).pieces;
  assert.equal(core.templates(id, 'edge'), undefined);
  assert.equal(core.templates(id), undefined);
});
