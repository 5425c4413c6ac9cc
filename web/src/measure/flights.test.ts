import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import type { Job } from '../core/door';
import { allowanceFields } from './allowances';
import { carpetFields, chosenWord } from './fields';
import { addFlight, arrivalFields, arrivalWord, arrive, flightsOf, removeFlight } from './flights';
import { addFloor, begunFloor, floorFields, floorPicture, floorShape, floorsOf, removeFloor } from './floors';
import { addCarpet, addWidth, goodsFields, goodsWord, inUse, removeCarpet, removeWidth, withCushion, withPattern } from './goods';
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
      for (const { path } of floorFields(floor, job()).filter(({ kind }) => kind === 'length')) expect(floorPicture(floor, undefined, 340, 190).dimensions, path).toHaveProperty([path]);
    }
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

it('goods have a repeat or none, a cushion or none', () => {
  const plain = job();
  const some = withPattern(plain, '/carpets/0/pattern', 'set');
  expect(some.carpets[0].pattern).toEqual({ width: '', length: '', match: 'set' });
  expect(goodsFields(some).length).toBe(goodsFields(plain).length + 2);
  expect(withPattern(some, '/carpets/0/pattern', 'plain').carpets[0]).not.toHaveProperty('pattern');
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
