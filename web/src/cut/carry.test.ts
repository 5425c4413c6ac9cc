/// A file's cutting into ticks and out again, with the core's own plan.
import { readFileSync } from 'node:fs';
import { beforeAll, describe, expect, it } from 'vitest';
import { start } from '@wasm/treadfold.mjs';
import type { Job, Plan, Recut } from '../core/door';
import { backupText, parted, read } from '../jobs/exchange';
import { noProgress, type Cutting, type JobRecord } from '../jobs/record';
import { carried, seeded } from './carry';
import { askAnew, shownOf, spoil, tickAnew } from './recut';
import { tickCut } from './ticks';

const root = new URL('../../../', import.meta.url).pathname;
let core: Awaited<ReturnType<typeof start>>;
let job: Job, plan: Plan, carpet: string, stock: string;
beforeAll(async () => {
  core = await start(readFileSync(`${root}build/wasm/treadfold.wasm`));
  const found = read(readFileSync(`${root}examples/box-stair.json`, 'utf8'));
  if (!('job' in found)) throw new Error('no example');
  job = found.job;
  plan = JSON.parse(core.plan(JSON.stringify(job)).json) as Plan;
  carpet = plan.layouts[0]!.carpet;
  stock = plan.layouts[0]!.rolls[0]!.stock;
});
const brought = (cutting: unknown): JobRecord => parted({ id: 'a', changed: '', step: 0, job: { ...job, cutting } as Job, progress: noProgress() });
const begun = (cutting: Cutting[]): JobRecord => {
  const record = brought(cutting);
  return { ...record, begun: true, progress: seeded(record.progress, record.brought!, plan) };
};
const recut = (asked: Job) => JSON.parse(core.recut(JSON.stringify(asked)).json) as Recut;

describe('the cutting of a file', () => {
  const full = (): Cutting => ({
    carpet, cut: ['A-12', 'A-09'], spoiled: ['A-08', { piece: 'A-13', sound_width: '20', sound_length: '6' }], of: stock, roll_length: '8\'',
    flaws: [{ from: '2\'', to: '2\' 1' }, { from: '5\'', to: '5\' 2' }], way: 'laid_anew',
  });

  it('stands beside the job, and goes out again as it came while no plan is made', () => {
    const record = brought([full()]);
    expect(record.job).toEqual(job);
    expect(carried(record, undefined)).toEqual({ ...job, cutting: [full()] });
  });
  it('becomes ticks, and goes out again as it came', () => {
    const record = begun([full()]);
    expect(record.progress).toMatchObject({ cut: ['A-12', 'A-09'], spoiled: ['A-08', 'A-13'], sound: { 'A-13': { sound_width: '20' } } });
    expect(Object.keys(record.progress.sizes!).sort()).toEqual(['A-08', 'A-09', 'A-12', 'A-13']);
    expect(record.progress.cutting).toEqual([full()]);
    expect(carried(record, plan)).toEqual({ ...job, cutting: [full()] });
    expect(askAnew(record.progress, plan).cutting).toEqual([full()]);
  });
  it('changes no ticks that are there already', () => {
    const progress = tickCut(noProgress(), 'A-13', true, plan);
    expect(seeded(progress, [full()], plan)).toBe(progress);
  });
  it('asks core nothing while nothing befell the goods', () => {
    const record = begun([{ carpet, cut: ['A-09'] }]);
    expect(record.progress).toMatchObject({ cut: ['A-09'], cutting: [] });
    expect(carried(record, plan).cutting).toEqual([{ carpet, cut: ['A-09'], spoiled: [] }]);
  });
  it('that names pieces the plan does not have is core\'s to fault, and goes by the ticks afterwards', () => {
    const record = begun([{ carpet, cut: ['A-09', 'A-77'] }]);
    expect(record.progress.cut).toEqual(['A-09']);
    expect(recut({ ...job, cutting: record.progress.cutting }).problems.map(({ where }) => where)).toEqual(['/cutting/0/cut/1']);
    expect(askAnew(record.progress, plan).cutting).toEqual([]);
  });
  it('stays in the job where it makes no sense, so that core says so', () => {
    for (const wrong of [{}, 'x', [7], [{ cut: ['A-09'] }], [{ carpet, cut: 'A-09' }], [{ carpet, spoiled: [{ sound_width: 1 }] }], [{ carpet, flaws: [1] }]]) {
      const record = brought(wrong);
      expect([record.brought, record.job.cutting]).toEqual([undefined, wrong]);
      expect(core.plan(JSON.stringify(record.job)).planned, JSON.stringify(wrong)).toBe(false);
    }
  });
  it('comes back with a file of all jobs, and none that is torn', () => {
    const record = begun([full()]);
    expect(read(backupText([record]))).toEqual({ jobs: [record] });
    expect(read(backupText([{ ...record, brought: [7] as unknown as Cutting[] }]))).toEqual({ fault: 'no-job' });
  });
});

describe('ticks of the app', () => {
  const record = (progress: JobRecord['progress']): JobRecord => ({ id: 'a', changed: '', step: 0, job, progress });
  it('go out with the job, and come in again', () => {
    const progress = tickCut(spoil(tickCut(noProgress(), 'A-09', true, plan), 'A-08', plan), 'A-12', true, plan);
    const out = carried(record(progress), plan);
    expect(out.cutting).toEqual([{ carpet, cut: ['A-09', 'A-12'], spoiled: ['A-08'] }]);
    expect(recut(out).problems).toEqual([]);
    const back = begun(out.cutting!).progress;
    expect([back.cut, back.spoiled]).toEqual([progress.cut, progress.spoiled]);
    expect(carried(record(noProgress()), plan)).toEqual(job);
  });
  it('of a piece cut anew go out as spoiled, so that its goods are not given out twice', () => {
    const progress = spoil(tickCut(noProgress(), 'A-09', true, plan), 'A-08', plan);
    const { way } = shownOf(recut({ ...job, cutting: progress.cutting }).carpets[0]!, progress);
    const part = way!.parts.find(({ layout }) => layout.placements.some((p) => p.piece === 'A-08'))!;
    const ticked = tickAnew(progress, { carpet, way: way!, part }, 'A-08', true, plan);
    expect(ticked.spoiled).toEqual([]);
    expect(carried(record(ticked), plan).cutting).toEqual([{ carpet, cut: ['A-09'], spoiled: ['A-08'] }]);
  });
});
