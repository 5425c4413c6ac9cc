import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import type { Job, Plan } from '../core/door';
import { read } from '../jobs/exchange';
import { choices, flights, type Group } from './choices';
import { figures, lengthApart } from './figures';

const example = (name: string) => {
  const found = read(readFileSync(new URL(`../../../examples/${name}-stair.json`, import.meta.url), 'utf8'));
  if (!('job' in found)) throw new Error(`${name} cannot be read`);
  return found.job;
};
const of = (job: Job, key: string, aside = {}): Group => {
  const group = choices(job, flights(job), aside).find((g) => g.key === key);
  if (!group) throw new Error(`no ${key} to choose`);
  return group;
};

describe('choices', () => {
  const job = example('open');

  it('show in each group what the job has now, once', () => {
    for (const group of choices(job, flights(job))) expect(group.options.filter((o) => o.now), group.key).toHaveLength(1);
  });
  it('make one choice the one that is, and leave the job they are made for alone', () => {
    const before = JSON.stringify(job);
    for (const group of choices(job, flights(job)))
      for (const option of group.options) {
        const after = of(option.change(job), group.key, option.aside);
        expect(after.options.filter((o) => o.now).map((o) => o.key), `${group.key} ${option.key}`).toEqual([option.key]);
      }
    expect(JSON.stringify(job)).toBe(before);
  });
  it('put back what they took out', () => {
    for (const key of ['remnant', 'pattern', 'cushion']) {
      const without = of(job, key).options[1]!;
      const bare = without.change(job);
      expect(bare).not.toEqual(job);
      expect(of(bare, key, without.aside).options[0]!.change(bare), key).toEqual(job);
    }
    const one = of(job, 'width').options[1]!;
    expect(of(one.change(job), 'width', one.aside).options[0]!.change(one.change(job))).toEqual(job);
  });
  it('are made for one flight or for all', () => {
    const stair = job.stairs[0]!, second = { ...stair.flights[0], name: 'upper' };
    const two = { ...job, stairs: [{ ...stair, flights: [stair.flights[0], second] }] } as Job, all = flights(two);
    expect(all.map((f) => f.name)).toEqual(['hall', 'upper']);
    const style = (j: Job) => flights(j).map(({ pointer }) => (pointer.split('/').slice(1).reduce<unknown>((x, k) => (x as Record<string, unknown>)[k], j) as { cover: string }).cover);
    const wrap = (which: typeof all) => choices(two, which)[0]!.options.find((o) => o.key === 'wrapped')!.change(two);
    expect(style(wrap(all))).toEqual(['wrapped', 'wrapped']);
    expect(style(wrap([all[1]!]))).toEqual(['waterfall', 'wrapped']);
    const mixed = wrap([all[1]!]);
    expect(choices(mixed, all)[0]!.options.some((o) => o.now)).toBe(false);
  });
  it('leave joining to the layout, up to the job\'s own limit if it has one', () => {
    const join = (j: Job) => (j.stairs[0]!.flights[0] as { join?: unknown }).join;
    const best = (j: Job) => of(j, 'join').options.find((o) => o.key === 'best')!;
    expect(best(job).now).toBe(false);
    expect(join(best(job).change(job))).toEqual({ at_most: 6 });
    const three = { ...job, stairs: [{ ...job.stairs[0]!, flights: [{ ...job.stairs[0]!.flights[0], join: { at_most: 3 } }] }] } as Job;
    expect([best(three).now, best(three).given]).toEqual([true, { n: 3 }]);
    expect(join(of(three, 'join').options[0]!.change(three))).toBe(1);
    const single = { ...job, stairs: [{ ...job.stairs[0]!, flights: [{ ...job.stairs[0]!.flights[0], risers: 1 }] }] } as Job;
    expect(of(single, 'join').options.map((o) => o.key)).toEqual(['1']);
  });
  it('offer neither pattern nor remnant nor cushion where there is none', () => {
    const plain = { ...job, cushion: 'none' as const, carpets: job.carpets.map(({ pattern: _, remnants: __, ...rest }) => rest) };
    expect(choices(plain as Job, flights(plain as Job)).map((g) => g.key)).toEqual(['cover', 'join', 'width', 'laid']);
  });
});

describe('figures', () => {
  const roll = (width_mm: number, buy: number, remnant = false) => ({ width_mm, length_to_buy_mm: buy, length_used_mm: remnant ? 1000 : buy, remnant, knife_order: [{}, {}], placements: [{ width_mm: 1000, length_mm: 3000 }] });
  const plan = (...rolls: ReturnType<typeof roll>[]) => ({
    layouts: [{ carpet: 'a', lower_bound_mm: 1, proved_least: true, offers: [], rolls }], pieces: [{}, {}, {}],
    quote: { ordered_area_m2: 12, net_area_m2: 8, total_cents: 5, lines: [], currency: '$' },
  }) as unknown as Plan;

  it('count no remnant as bought, nor what is cut from it as used of the roll', () => {
    const found = figures(plan(roll(4000, 3000), roll(4000, 0, true)));
    expect(found.bought).toHaveLength(1);
    expect(found.waste).toBeCloseTo(1 - 3 / 12);
    expect([found.pieces, found.strokes]).toEqual([3, 4]);
  });
  it('count a piece that is cut out as what lies within its outline and in none of its holes', () => {
    const cut = plan(roll(4000, 3000));
    Object.assign(cut.layouts[0]!.rolls[0]!.placements[0]!, {
      outline_mm: [[0, 0], [1000, 0], [1000, 3000], [500, 3000], [0, 2000]], holes_mm: [[[100, 100], [100, 600], [600, 600], [600, 100]], [[700, 100], [900, 100], [900, 600]]],
    });
    expect(figures(cut).waste).toBeCloseTo(1 - (3 - 0.25 - 0.25 - 0.05) / 12);
  });
  it('compare lengths of the same width alone', () => {
    expect(lengthApart(figures(plan(roll(4000, 3300))), figures(plan(roll(4000, 3000))))).toBe(300);
    expect(lengthApart(figures(plan(roll(3660, 3300))), figures(plan(roll(4000, 3000))))).toBeUndefined();
  });
});
