import { describe, expect, it } from 'vitest';
import type { Job } from '../core/door';
import { asUsual, concerns, differs, flightOf, measureOf, placeOf, pointerOf, pointsInto, setMeasure, setRisers } from './steps';

const where = { stair: 0, flight: 0 };
const open = { open: { overhang: '1 1/4', return: '1' } };
const job = (steps?: object) =>
  ({
    stairs: [{ name: 's', flights: [{ name: 'f', risers: 14, rise: '7 1/2', going: '10', width: '36',
      nosing: { projection: '1', thickness: '1', profile: 'square', arris_radius: '1/8' }, left: 'wall', right: open, ...(steps && { steps }) }] }],
  }) as unknown as Job;
const stepsOf = (of: Job) => flightOf(of, where)!.steps;

describe('what differs', () => {
  it('is kept with the step, and taken away when it is as usual again', () => {
    const made = setMeasure(job(), where, 3, '/rise', '7 5/8');
    expect(stepsOf(made)).toEqual({ 3: { rise: '7 5/8' } });
    expect(measureOf(flightOf(made, where)!, 3, '/rise')).toBe('7 5/8');
    expect(measureOf(flightOf(made, where)!, 4, '/rise')).toBe('7 1/2');
    expect(stepsOf(asUsual(made, where, 3, '/rise'))).toEqual({});
    expect(stepsOf(setMeasure(made, where, 3, '/rise', '7 1/2'))).toEqual({});
  });
  it('changes nothing where nothing changes', () => {
    const first = job();
    expect(setMeasure(first, where, 3, '/rise', '7 1/2')).toBe(first);
    expect(setMeasure(first, where, 'usual', '/rise', '7 1/2')).toBe(first);
    expect(asUsual(first, where, 3, '/rise')).toBe(first);
  });
  it('leaves the job it came from as it was', () => {
    const first = job({ 3: { rise: '8' } });
    setMeasure(first, where, 3, '/rise', '7');
    expect(stepsOf(first)).toEqual({ 3: { rise: '8' } });
  });
  it('keeps the other things that differ', () => {
    const made = setMeasure(job({ 3: { rise: '8', width: '37' } }), where, 3, '/rise', '7 1/2');
    expect(stepsOf(made)).toEqual({ 3: { width: '37' } });
  });
  it('splits a range', () => {
    const from = job({ '5-8': { width: '37' } });
    expect(stepsOf(setMeasure(from, where, 6, '/rise', '8'))).toEqual({ 5: { width: '37' }, 6: { width: '37', rise: '8' }, '7-8': { width: '37' } });
    expect(stepsOf(asUsual(from, where, 5, '/width'))).toEqual({ '6-8': { width: '37' } });
    expect(stepsOf(asUsual(from, where, 8, '/width'))).toEqual({ '5-7': { width: '37' } });
  });
  it('says a side whole', () => {
    const made = setMeasure(job(), where, 2, '/right/open/overhang', '2');
    expect(stepsOf(made)).toEqual({ 2: { right: { open: { overhang: '2', return: '1' } } } });
    expect(differs(flightOf(made, where)!, 2, '/right/open/return')).toBe(true);
    expect(stepsOf(setMeasure(made, where, 2, '/right/open/overhang', '1 1/4'))).toEqual({});
    expect(stepsOf(setMeasure(job(), where, 2, '/right', 'wall'))).toEqual({ 2: { right: 'wall' } });
  });
  it('says of a nosing only what differs', () => {
    const made = setMeasure(job(), where, 2, '/nosing/projection', '1 1/4');
    expect(stepsOf(made)).toEqual({ 2: { nosing: { projection: '1 1/4' } } });
    expect(measureOf(flightOf(made, where)!, 2, '/nosing/thickness')).toBe('1');
    expect(differs(flightOf(made, where)!, 2, '/nosing/thickness')).toBe(false);
    expect(stepsOf(asUsual(made, where, 2, '/nosing/projection'))).toEqual({});
  });
  it('has a tread in place of going and width, or these in place of a tread', () => {
    const made = setMeasure(job({ 6: { width: '37' } }), where, 6, '/tread', { front: '36' });
    expect(stepsOf(made)).toEqual({ 6: { tread: { front: '36' } } });
    expect(measureOf(flightOf(made, where)!, 6, '/going')).toBeUndefined();
    expect(stepsOf(setMeasure(made, where, 6, '/tread/back', '20'))).toEqual({ 6: { tread: { front: '36', back: '20' } } });
    expect(stepsOf(setMeasure(made, where, 6, '/width', '37'))).toEqual({ 6: { width: '37' } });
    expect(stepsOf(asUsual(made, where, 6, '/tread'))).toEqual({});
  });
  it('has a list in full, and none where the usual step has some', () => {
    const made = setMeasure(job(), where, 'usual', '/balusters', [{ side: 'left' }]);
    expect(stepsOf(setMeasure(made, where, 1, '/balusters', []))).toEqual({ 1: { balusters: [] } });
    expect(stepsOf(setMeasure(made, where, 1, '/balusters/0/size', '1'))).toEqual({ 1: { balusters: [{ side: 'left', size: '1' }] } });
  });
});

it('changes the usual step with the flight', () =>
  expect(flightOf(setMeasure(job(), where, 'usual', '/left', open), where)!.left).toEqual(open));

it('forgets steps that are no more', () => {
  const made = setRisers(job({ 3: { rise: '8' }, '9-13': { width: '37' }, 14: { rise: '7' } }), where, 11);
  expect(flightOf(made, where)).toMatchObject({ risers: 11, steps: { 3: { rise: '8' }, '9-11': { width: '37' } } });
  expect(Object.keys(stepsOf(made)!)).toHaveLength(2);
});

describe('places', () => {
  it('are read and written', () => {
    expect(placeOf('/stairs/0/flights/1/steps/5-7/rise')).toEqual({ where: { stair: 0, flight: 1 }, step: 5, path: '/rise' });
    expect(placeOf('/stairs/0/flights/1/nosing/bevel')).toEqual({ where: { stair: 0, flight: 1 }, step: 'usual', path: '/nosing/bevel' });
    expect(placeOf('/carpets/0')).toBeUndefined();
    const place = { where, step: 4, path: '/left/open/return' };
    expect(placeOf(pointerOf(place))).toEqual(place);
  });
  it('tell whether a problem is a step\'s', () => {
    expect(pointsInto('/stairs/0/flights/0/steps/5-7', where, 6)).toBe(true);
    expect(pointsInto('/stairs/0/flights/0/steps/5-7/rise', where, 8)).toBe(false);
    expect(pointsInto('/stairs/0/flights/0/rise', where, 'usual')).toBe(true);
    expect(pointsInto('/stairs/0/flights/0', where, 3)).toBe(false);
    expect(pointsInto('/stairs/0/flights/01', where, 'usual')).toBe(false);
    expect(pointsInto('/stairs/0/flights/0/steps/3', where, 'usual')).toBe(false);
  });
  it('tell whether a problem of the flight names a step', () => {
    const problem = { where: '/stairs/0/flights/0', steps: [2, 3] };
    expect([1, 2, 3, 4, 'usual' as const].map((step) => concerns(problem, where, step))).toEqual([false, true, true, false, true]);
    expect(concerns({ ...problem, where: '/stairs/0/flights/01' }, where, 2)).toBe(false);
    expect(concerns({ where: '/stairs/0/flights/0/runner/width', steps: [2] }, where, 2)).toBe(true);
  });
});
