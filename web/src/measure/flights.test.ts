import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import type { Job } from '../core/door';
import { allowanceFields } from './allowances';
import { carpetFields, chosenWord } from './fields';
import { addFlight, arrivalFields, arrivalWord, arrive, flightsOf, removeFlight } from './flights';
import type { Dimension } from './draft';
import { addFloor, addOpening, begunFloor, floorFields, floorPicture, floorShape, floorsOf, openingsOf, removeFloor, removeOpening } from './floors';
import { addCarpet, addWidth, goodsFields, goodsWord, inUse, removeCarpet, removeWidth, withCushion, withDirection, withPattern } from './goods';
import { flightOf, setMeasure } from './steps';

const where = { stair: 0, flight: 0 };
const job = () =>
  ({
    stairs: [{ name: 's', flights: [{ name: 'main', risers: 7, rise: '7', total_rise: '49', treads_counted: 6, steps: { 1: { rise: '8' } } }] }],
    carpets: [{ id: 'c', widths: ["12'"] }], cushion: 'none',
  }) as unknown as Job;

describe('flights', () => {
  it('are like the one below in what is usual', () => {
    const two = addFlight(job(), 0, 'flight');
    expect(flightsOf(two).map(({ name }) => name)).toEqual(['main', 'flight 2']);
    expect(flightOf(two, { stair: 0, flight: 1 })).toEqual({ name: 'flight 2', risers: 7, rise: '7', steps: {} });
    expect(flightsOf(addFlight(two, 0, 'flight'))[2]!.name).toBe('flight 3');
    expect(flightsOf(removeFlight(two, where)).map(({ name }) => name)).toEqual(['flight 2']);
  });
  it('keep one at least', () => {
    const one = job();
    expect(removeFlight(one, where)).toBe(one);
  });
});

describe('floors', () => {
  it('have names of their own', () => {
    const two = addFloor(addFloor(job(), 0, 'landing'), 0, 'landing');
    expect(floorsOf(two, 0).map(({ name }) => name)).toEqual(['landing', 'landing 2']);
    expect(floorsOf(two, 0)[0]).toMatchObject({ carpet: 'c' });
  });
  it('are known again by what was begun, and drawn with every reading', () => {
    for (const shape of ['square', 'sides', 'corners'] as const) {
      const floor = begunFloor(shape, { name: 'l', carpet: 'c' });
      expect(floorShape(floor)).toBe(shape);
      const open = { ...floor, openings: [{ name: 'hearth' }, { name: 'well', corners: [{}, {}, { left_of: '1', before: '2' }] }] };
      for (const each of [floor, open])
        for (const { path } of floorFields(each, job()).filter(({ kind }) => kind === 'length')) expect(floorPicture(each, undefined, 340, 190).dimensions, path).toHaveProperty([path]);
    }
  });
  it('have openings, each with readings of its own, whatever their shape', () => {
    const place = '/stairs/0/floors/0';
    const two = addOpening(addOpening(addFloor(job(), 0, 'landing'), place, 'opening'), place, 'opening');
    const [floor] = floorsOf(two, 0);
    expect(openingsOf(floor!).map(({ name }) => name)).toEqual(['opening', 'opening 2']);
    const paths = ['along', 'off', 'width', 'length'].map((name) => `/openings/1/${name}`);
    expect(floorFields(floor!, two).filter(({ of }) => of === 'opening 2').map(({ path }) => path)).toEqual(paths);
    for (const shape of ['square', 'sides', 'corners'] as const) expect(openingsOf(begunFloor(shape, floor!))).toEqual(openingsOf(floor!));
    expect(begunFloor('sides', { name: 'l', carpet: 'c' })).not.toHaveProperty('openings');
    const one = removeOpening(two, place, 0);
    expect(openingsOf(floorsOf(one, 0)[0]!).map(({ name }) => name)).toEqual(['opening 2']);
    expect(floorsOf(removeOpening(one, place, 0), 0)[0]).not.toHaveProperty('openings');
    const well = { name: 'well', corners: [{}, { left_of: '1', off: '2' }, {}] };
    expect(floorFields({ ...floor, openings: [well] }, two).filter(({ of }) => of).map(({ path, number }) => `${number} ${path}`).slice(1, 4)).toEqual(['1 /openings/0/corners/0/off', '2 /openings/0/corners/1/left_of', '2 /openings/0/corners/1/off']);
  });
  describe('are drawn with their openings', () => {
    const floor = { width: '', length: '', openings: [{ name: 'hearth' }, { name: 'well', corners: [{}, {}, {}] }] };
    const planned = {
      corners_mm: [[0, 0], [1200, 0], [1200, 900], [0, 900]] as [number, number][],
      openings: [{ corners_mm: [[300, 150], [700, 150], [700, 350], [300, 350]] as [number, number][] }, { corners_mm: [[900, 500], [1100, 500], [1000, 800]] as [number, number][] }],
    };
    const drawn = floorPicture(floor, planned, 340, 190);
    /// Of the line that is measured along, and of the way to it, in shares of the front.
    const shares = ({ lines }: Dimension) => {
      const points = (line: string) => [...line.matchAll(/[ML] ([-\d.]+) ([-\d.]+)/g)].map(([, x, y]) => [Number(x), Number(y)] as const);
      const long = (line: string) => points(line).slice(1).reduce((sum, [x, y], i) => sum + Math.hypot(x - points(line)[i]![0], y - points(line)[i]![1]), 0);
      const front = long(/^M [^M]*/.exec(drawn.dimensions['/width']!.lines)![0]);
      return lines.match(/M [^M]*/g)!.map((line) => long(line) / front);
    };
    const measured: [string, number][] = [
      ['/openings/0/along', 300], ['/openings/0/off', 150], ['/openings/0/width', 400], ['/openings/0/length', 200],
      ['/openings/1/corners/0/along', 900], ['/openings/1/corners/1/off', 500], ['/openings/1/corners/2/along', 1000], ['/openings/1/corners/2/off', 800],
    ];
    for (const [path, mm] of measured) it(`and ${path}`, () => expect(shares(drawn.dimensions[path]!)[0]).toBeCloseTo(mm / 1200, 2));
    it('and the way from the front left corner', () => expect(shares(drawn.dimensions['/openings/0/along']!).at(-1)).toBeCloseTo((300 + 150) / 1200, 2));
    it('on the floor\'s wood', () => expect(drawn.shapes.map(({ role }) => role)).toEqual(['wood', 'opening', 'opening', 'edge']));
    it('of which the plan knows nothing yet as the shape only', () =>
      expect(floorPicture(floor, { corners_mm: planned.corners_mm }, 340, 190).shapes).toEqual(floorPicture(floor, undefined, 340, 190).shapes));
  });
  it('are where a flight arrives, until they are taken away', () => {
    const one = addFloor(job(), 0, 'landing');
    expect(arrivalFields(job(), where)).toEqual([]);
    expect(arrivalFields(one, where).map(({ path }) => path)).toEqual(['/landing']);
    const there = arrive(arrive(one, where, '/landing', '=landing'), where, '/landing/joined', 'joined');
    expect(flightOf(there, where)!.landing).toEqual({ floor: 'landing', joined: true });
    expect(arrivalWord('/landing', flightOf(there, where)!.landing)).toBe('=landing');
    expect(arrivalFields(there, where).map(({ path }) => path)).toEqual(['/landing', '/landing/from_left', '/landing/joined']);
    expect(flightOf(arrive(there, where, '/landing', 'nowhere'), where)!.landing).toBeUndefined();
    expect(flightOf(removeFloor(there, 0, 0), where)!.landing).toBeUndefined();
    expect(floorsOf(removeFloor(there, 0, 0), 0)).toEqual([]);
  });
});

describe('carpets', () => {
  const begun = { id: 'main', name: 'Carpet', widths: ["12'"] } as Job['carpets'][number];
  it('have ids and names of their own, and go once nothing is of them', () => {
    const two = addCarpet(addCarpet(job(), begun, 'Carpet'), begun, 'Carpet');
    expect(two.carpets.map(({ id }) => id)).toEqual(['c', 'carpet-2', 'carpet-3']);
    expect(addCarpet(removeCarpet(two, 1), begun, 'Carpet').carpets.map(({ name }) => name).slice(1)).toEqual(['Carpet 3', 'Carpet 4']);
    const used = setMeasure(two, where, 'usual', '/carpet', 'carpet-2');
    expect([inUse(used, 'carpet-2'), inUse(used, 'carpet-3')]).toEqual([true, false]);
    expect(removeCarpet(used, 1)).toBe(used);
    const one = job();
    expect(removeCarpet(one, 0)).toBe(one);
  });
  it('are chosen from where there are several', () => {
    expect(carpetFields(job())).toEqual([]);
    const [field] = carpetFields(addCarpet(job(), begun, 'Carpet'));
    expect(chosenWord(field!, 'carpet-2')).toBe(field!.choices![1]!.word);
  });
  it('have one width at least', () => {
    const two = addWidth(job(), 0);
    expect(two.carpets[0].widths).toEqual(["12'", '']);
    expect(removeWidth(removeWidth(two, 0), 0).carpets[0].widths).toEqual(["12'"]);
  });
});

it('goods have a repeat or none, a direction or none, a cushion or none', () => {
  const plain = job();
  const some = withPattern(plain, '/carpets/0/pattern', 'set');
  expect(some.carpets[0].pattern).toEqual({ width: '', length: '', match: 'set' });
  expect(goodsFields(some).length).toBe(goodsFields(plain).length + 2);
  expect(withPattern(some, '/carpets/0/pattern', 'plain').carpets[0]).not.toHaveProperty('pattern');
  const withoutDirection = withDirection(plain, '/carpets/0/directional', 'no');
  expect(withoutDirection.carpets[0].directional).toBe(false);
  expect(withDirection(withoutDirection, '/carpets/0/directional', 'yes')).toEqual(plain);
  const direction = goodsFields(plain).find(({ path }) => path === '/carpets/0/directional')!;
  for (const [value, word] of [[undefined, 'yes'], [true, 'yes'], [false, 'no']] as const) expect(goodsWord(direction, value)).toBe(word);
  expect(direction.choices!.map(({ word }) => word)).toEqual(['yes', 'no']);
  const cushioned = withCushion(plain, { name: 'felt' });
  expect(cushioned.cushion).toEqual({ name: 'felt' });
  expect(withCushion(cushioned, { name: 'other' })).toBe(cushioned);
  expect(withCushion(cushioned, undefined).cushion).toBe('none');
  const cushion = goodsFields(plain).find(({ path }) => path === '/cushion')!;
  expect(goodsWord(cushion, 'none')).toBe('none');
});

it('every allowance and tolerance of the job\'s schema is asked for', () => {
  const { definitions } = JSON.parse(readFileSync(new URL('../../../core/job/job.schema.json', import.meta.url), 'utf8')) as { definitions: Record<string, { properties: object }> };
  const all = ['allowances', 'tolerances'].flatMap((group) => Object.keys(definitions[group]!.properties).map((name) => `/${group}/${name}`));
  expect(allowanceFields.map(({ path }) => path).sort()).toEqual(all.sort());
});
