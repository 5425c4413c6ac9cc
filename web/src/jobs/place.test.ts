import { describe, expect, it } from 'vitest';
import { at, put } from './place';

describe('a value by its JSON Pointer', () => {
  const job = { stairs: [{ flights: [{ rise: '7 1/2', steps: { '3': { rise: '7' } } }] }], 'a/b': { 'c~d': 1 } };

  it('is found', () => {
    expect(at(job, '/stairs/0/flights/0/steps/3/rise')).toBe('7');
    expect(at(job, '/a~1b/c~0d')).toBe(1);
    expect(at(job, '/stairs/1/flights')).toBeUndefined();
  });

  it('is set in a copy that shares the rest', () => {
    const changed = put(job, '/stairs/0/flights/0/rise', '8');
    expect(at(changed, '/stairs/0/flights/0/rise')).toBe('8');
    expect(job.stairs[0]!.flights[0]!.rise).toBe('7 1/2');
    expect(changed.stairs[0]!.flights[0]!.steps).toBe(job.stairs[0]!.flights[0]!.steps);
    expect(Array.isArray(changed.stairs)).toBe(true);
  });

  it('is taken away, and objects are made on the way', () => {
    expect(at(put(job, '/stairs/0/flights/0/steps/3/rise', undefined), '/stairs/0/flights/0/steps/3')).toEqual({});
    expect(at(put(job, '/stairs/0/flights/0/steps/5/going', '9'), '/stairs/0/flights/0/steps/5/going')).toBe('9');
    expect(put({ list: [1, 2, 3] }, '/list/1', undefined)).toEqual({ list: [1, 3] });
  });
});
