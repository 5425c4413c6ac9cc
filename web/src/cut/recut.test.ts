/// With the core's own answers.
import { readFileSync } from 'node:fs';
import { beforeAll, describe, expect, it } from 'vitest';
import { start } from '@wasm/treadfold.mjs';
import type { Job, Plan, Recut } from '../core/door';
import { read } from '../jobs/exchange';
import { noProgress, type Progress } from '../jobs/record';
import { askAnew, asShown, astray, made, moved, notSpoiled, shownOf, spoil, take, tell, tellSound, tickAnew, toldOf, type From } from './recut';
import { tickCut, tickSpoiled } from './ticks';

const root = new URL('../../../', import.meta.url).pathname;
let core: Awaited<ReturnType<typeof start>>;
beforeAll(async () => void (core = await start(readFileSync(`${root}build/wasm/treadfold.wasm`))));

function planned(name: string): { job: Job; plan: Plan } {
  const found = read(readFileSync(`${root}examples/${name}`, 'utf8'));
  if (!('job' in found)) throw new Error(name);
  return { job: found.job, plan: JSON.parse(core.plan(JSON.stringify(found.job)).json) };
}
const answer = (job: Job, { cutting }: Progress) => JSON.parse(core.recut(JSON.stringify({ ...job, cutting })).json) as Recut;
const firstFrom = (recut: Recut, progress: Progress, piece: string): From => {
  const { carpet, way } = shownOf(recut.carpets[0]!, progress);
  return { carpet, way: way!, part: way!.parts.find((part) => part.layout.placements.some((p) => p.piece === piece))! };
};

describe('what core is asked', () => {
  it('is nothing while nothing befell the goods', () => {
    const { plan } = planned('box-stair.json');
    expect(askAnew(tickCut(noProgress(), 'A-09', true, plan), plan).cutting).toEqual([]);
  });
  it('is the ticks of the carpet, and no more with further ticks', () => {
    const { plan } = planned('box-stair.json');
    const carpet = plan.layouts[0]!.carpet;
    const spoiled = spoil(tickCut(noProgress(), 'A-09', true, plan), 'A-08', plan);
    expect(spoiled.cutting).toEqual([{ carpet, cut: ['A-09'], spoiled: ['A-08'] }]);
    expect(tickCut(spoiled, 'A-12', true, plan).cutting).toBe(spoiled.cutting);
    expect(notSpoiled(spoiled, 'A-08', plan).cutting).toEqual([]);
  });
  it('holds a short roll and flaws, of the stretch they were said of, until they are taken away', () => {
    const { plan } = planned('box-stair.json');
    const { carpet, rolls: [roll] } = plan.layouts[0]!;
    const short = tell(noProgress(), plan, carpet, roll!.stock, { roll_length: '6\'' });
    const flawed = tell(short, plan, carpet, roll!.stock, { flaws: [{ from: '2\'', to: '2\' 2' }] });
    expect(flawed.cutting).toEqual([{ carpet, cut: [], spoiled: [], of: roll!.stock, roll_length: '6\'', flaws: [{ from: '2\'', to: '2\' 2' }] }]);
    expect(spoil(flawed, 'A-09', plan).cutting).toMatchObject([{ spoiled: ['A-09'], roll_length: '6\'' }]);
    expect(toldOf(flawed, plan, carpet, roll!.stock)).toMatchObject({ roll_length: '6\'' });
    expect(toldOf(flawed, plan, carpet, 'another')).toBeUndefined();
    const ofFirst = { ...flawed, cutting: [{ carpet, roll_length: '6\'' }] }; // as a file may say it
    expect(toldOf(ofFirst, plan, carpet, roll!.stock)).toMatchObject({ roll_length: '6\'' });
    expect(tell(tell(flawed, plan, carpet, roll!.stock, { roll_length: undefined }), plan, carpet, roll!.stock, { flaws: [] }).cutting).toEqual([]);
  });
});

describe('what is shown', () => {
  it('is the best way, which places the spoiled piece once more', () => {
    const { job, plan } = planned('box-stair.json');
    const progress = spoil(tickCut(noProgress(), 'A-09', true, plan), 'A-08', plan);
    const shown = shownOf(answer(job, progress).carpets[0]!, progress);
    expect(shown.way!.how).toBe('as_planned');
    expect(moved(shown.way!)).toEqual(['A-08']);
    expect(shown.way!.length_to_buy_mm).toBeGreaterThan(0);
    expect(shown.others.map(({ way, against }) => [way.how, against])).toEqual([['laid_anew', []]]);
    expect(shown).toMatchObject({ chosen: false, late: false });
  });
  it('is core\'s fault with what it was told, and no way', () => {
    const { job, plan } = planned('box-stair.json');
    const { carpet, rolls: [roll] } = plan.layouts[0]!;
    const told = tell(tickCut(noProgress(), 'A-13', true, plan), plan, carpet, roll!.stock, { roll_length: '1' });
    const { carpets, problems } = answer(job, told);
    expect([carpets, problems.map((p) => p.where)]).toEqual([[], ['/cutting/0/roll_length']]);
  });
});

describe('another way', () => {
  const begun = () => {
    const { job, plan } = planned('box-stair.json');
    const progress = spoil(tickCut(noProgress(), 'A-09', true, plan), 'A-08', plan), recut = answer(job, progress);
    return { job, plan, carpet: recut.carpets[0]!.carpet, progress, shown: shownOf(recut.carpets[0]!, progress) };
  };
  it('can be taken as it was shown, and left again', () => {
    const { job, carpet, progress, shown } = begun();
    const other = shown.others[0]!.way, taken = take(progress, carpet, other);
    const now = shownOf(answer(job, taken).carpets[0]!, taken);
    expect(now.way).toEqual(other);
    expect(now).toMatchObject({ chosen: true, backTo: true, others: [{ way: { how: 'as_planned' }, against: [] }] });
    expect(JSON.stringify(take(taken, carpet).cutting)).toBe(JSON.stringify(progress.cutting));
  });
  it('stays taken when something more befalls the goods, and goes with the last of it', () => {
    const { job, plan, carpet, progress, shown } = begun();
    const taken = take(progress, carpet, shown.others[0]!.way), more = spoil(taken, 'A-12', plan);
    expect(more.cutting).toMatchObject([{ spoiled: ['A-08', 'A-12'], way: 'laid_anew' }]);
    expect(shownOf(answer(job, more).carpets[0]!, more).way!.how).toBe('laid_anew');
    expect(notSpoiled(notSpoiled(more, 'A-12', plan), 'A-08', plan).cutting).toEqual([]);
  });
  it('is not to be had once something is cut that it has elsewhere, unless it is asked for anew', () => {
    const { job, plan, progress, carpet } = begun();
    const cut = tickCut(progress, 'A-12', true, plan);
    expect(shownOf(answer(job, cut).carpets[0]!, cut)).toMatchObject({ chosen: false, late: true, others: [{ way: { how: 'laid_anew' }, against: ['A-12'] }] });
    const anew = askAnew(cut, plan);
    expect(shownOf(answer(job, anew).carpets[0]!, anew)).toMatchObject({ late: false, others: [{ against: [] }] });
    const taken = take(progress, carpet, shownOf(answer(job, progress).carpets[0]!, progress).others[0]!.way);
    const from = firstFrom(answer(job, taken), taken, 'A-12'), ticked = tickAnew(taken, from, 'A-12', true, plan);
    expect(shownOf(answer(job, ticked).carpets[0]!, ticked)).toMatchObject({ way: { how: 'laid_anew' }, chosen: true, backTo: false, late: false, others: [{ against: ['A-12'] }] });
  });
  it('is the one of which the sheet is asked', () => {
    const { job, plan, progress, carpet, shown } = begun();
    expect(asShown(answer(job, progress), progress)).toMatchObject([{ way: 'as_planned' }]);
    const taken = take(progress, carpet, shown.others[0]!.way), recut = answer(job, taken);
    expect(asShown(recut, taken)).toMatchObject([{ way: 'laid_anew' }]);
    const table = new TextDecoder().decode(core.recutFile(JSON.stringify({ ...job, cutting: asShown(recut, taken) }), 'recut.csv'));
    const rows = shownOf(recut.carpets[0]!, taken).way!.parts.flatMap((part) => part.layout.placements.map((p) => p.piece));
    expect(table.trim().split(/\r?\n/).slice(1).map((row) => row.split(',')[0])).toEqual(rows);
    const from = firstFrom(recut, taken, 'A-08');
    const lost = spoil(tickAnew(taken, from, 'A-08', true, plan), 'A-08', plan, from); // no way is shown, so there is no sheet
    expect(asShown(answer(job, lost), lost)).toBeUndefined();
  });
});

describe('what is sound of a spoiled piece', () => {
  it('is told until the piece is not spoiled after all', () => {
    const { job, plan } = planned('box-stair.json');
    const sound = { sound_width: '1\' 6"', sound_length: '1\'' };
    const told = tellSound(spoil(noProgress(), 'A-09', plan), plan, 'A-09', sound);
    expect(told.cutting).toMatchObject([{ spoiled: [{ piece: 'A-09', ...sound }] }]);
    expect(answer(job, told).problems).toEqual([]);
    expect(tellSound(told, plan, 'A-09').cutting).toMatchObject([{ spoiled: ['A-09'] }]);
    expect(notSpoiled(told, 'A-09', plan)).toMatchObject({ cutting: [], sound: {} });
    const larger = tellSound(told, plan, 'A-09', { sound_width: '9\'', sound_length: '1\'' });
    expect(answer(job, larger).problems.map(({ where }) => where)).toEqual(['/cutting/0/spoiled/0']);
  });
  it('serves for smaller pieces', () => {
    const { job, plan } = planned('box-stair.json');
    const top = plan.pieces.find((piece) => piece.id === 'A-13')!; // the landing's edge
    const spoiled = spoil(spoil(noProgress(), 'A-09', plan), 'A-13', plan);
    const sound = { sound_width: `${top.cut_width_mm} mm`, sound_length: `${top.cut_length_mm} mm` };
    const told = tellSound(spoiled, plan, 'A-09', sound);
    const from = shownOf(answer(job, told).carpets[0]!, told).way!.parts.find(({ layout }) => layout.placements.some((p) => p.piece === 'A-13'))!;
    expect(from.of).toBe('A-09');
  });
});

describe('a piece cut from what was left', () => {
  const begun = () => {
    const { job, plan } = planned('open-stair.json');
    const carpet = plan.layouts.find(({ rolls }) => rolls.some((r) => r.placements.some((p) => p.piece === 'A-11')))!.carpet;
    const progress = spoil(tickCut(noProgress(), 'A-07', true, plan), 'A-11', plan);
    const recut = answer(job, progress);
    return { job, plan, carpet, progress, recut, from: firstFrom(recut, progress, 'A-11') };
  };
  it('is cut once it is ticked, of which core is asked nothing, and is to be cut again once it is not', () => {
    const { plan, progress, from } = begun();
    expect([from.way.length_to_buy_mm, from.part.of]).toEqual([0, plan.layouts.flatMap((l) => l.rolls).find((r) => !r.remnant)!.stock]);
    const ticked = tickAnew(progress, from, 'A-11', true, plan);
    expect(ticked).toMatchObject({ cut: ['A-07', 'A-11'], spoiled: [], anew: { 'A-11': { of: from.part.of, placed: 'A-11' } } });
    expect(ticked.anew!['A-11']!.strokes.at(-1)).toMatchObject({ frees: 'A-11' });
    expect(ticked.cutting).toBe(progress.cutting);
    expect(tickAnew(ticked, from, 'A-11', false, plan)).toMatchObject({ cut: ['A-07'], spoiled: ['A-11'], anew: {} });
  });
  it('is one that core is told to be lost where the plan has it', () => {
    const { plan, progress, from } = begun();
    expect(askAnew(tickAnew(progress, from, 'A-11', true, plan), plan).cutting).toMatchObject([{ cut: ['A-07'], spoiled: ['A-11'] }]);
  });
  it('stays where it was cut from: a way that has it elsewhere is not shown', () => {
    const { plan, recut, progress, from } = begun();
    const ticked = tickAnew(progress, from, 'A-11', true, plan);
    expect(shownOf(recut.carpets[0]!, ticked).way).toBe(from.way);
    const elsewhere = { ...ticked, anew: { 'A-11': { ...made(from.carpet, from.part, 'A-11'), v_mm: from.part.v_mm + 1 } } };
    expect(astray(from.way, elsewhere)).toEqual(['A-11']);
    expect(shownOf(recut.carpets[0]!, elsewhere)).toMatchObject({ way: undefined, others: [], astray: ['A-11'] });
  });
  it('cannot be spoiled a second time and a way still be told', () => {
    const { job, plan, progress, from } = begun();
    for (const before of [progress, tickAnew(progress, from, 'A-11', true, plan)]) { // while it is cut, or afterwards
      const again = spoil(before, 'A-11', plan, from);
      expect(shownOf(answer(job, again).carpets[0]!, again)).toMatchObject({ way: undefined, astray: ['A-11'] });
      expect(notSpoiled(again, 'A-11', plan)).toMatchObject({ cut: ['A-07', 'A-11'], spoiled: [], anew: { 'A-11': { of: from.part.of } } });
    }
  });
});

describe('a piece cut in several instead', () => {
  it('is cut once all of them are', () => {
    const part = { of: 'roll', u_mm: 0, v_mm: 0, layout: { knife_order: [{ frees: 'A-1a' }, { frees: 'A-1b' }], placements: [{ piece: 'A-1a' }, { piece: 'A-1b' }] } };
    const way = { parts: [part], replaced: [{ piece: 'A-1', by: [{ id: 'A-1a' }, { id: 'A-1b' }] }] };
    const from = { carpet: 'a', way, part } as unknown as From;
    const plan = { pieces: [{ id: 'A-1', carpet: 'a', cut_width_mm: 1, cut_length_mm: 2 }], layouts: [] } as unknown as Plan;
    const spoiled = { ...tickSpoiled(noProgress(), 'A-1', true), cutting: [{ carpet: 'a', spoiled: ['A-1'] }] };
    const half = tickAnew(spoiled, from, 'A-1a', true, plan), whole = tickAnew(half, from, 'A-1b', true, plan);
    expect([half.cut, half.spoiled]).toEqual([['A-1a'], ['A-1']]);
    expect([whole.cut, whole.spoiled]).toEqual([['A-1a', 'A-1b', 'A-1'], []]);
    expect(astray(from.way, whole)).toEqual([]);
    expect(tickAnew(whole, from, 'A-1a', false, plan)).toMatchObject({ cut: ['A-1b'], spoiled: ['A-1'] });
  });
});
