import { describe, expect, it } from 'vitest';
import type { Plan } from '../core/door';
import { noProgress } from '../jobs/record';
import { carriedOn, notLaid, stretches } from './order';
import { cutOtherwise, tickCut, tickHung, tickSpoiled } from './ticks';

const stroke = (frees: string) => ({ kind: 'trim', at_mm: 1, from_mm: 0, to_mm: 2, frees });
const placement = (piece: string) => ({ piece, u_mm: 0, v_mm: 0, width_mm: 900, length_mm: 500 });
const piece = (id: string, carpet = 'a') => ({ id, carpet, cut_width_mm: 900, cut_length_mm: 500 });
const roll = (order: string[], pieces: string[]) =>
  ({ stock: 'roll', remnant: false, knife_order: order.map(stroke), placements: pieces.map(placement), offcuts: [] });
const plan = {
  pieces: [piece('A-1'), piece('A-2'), piece('A-3'), piece('B', 'b')],
  layouts: [
    { carpet: 'a', rolls: [roll(['row 1', 'selvage', 'A-2', 'offcut', 'A-1', 'offcut'], ['A-1', 'A-2'])] },
    { carpet: 'b', rolls: [roll(['row 1'], ['B'])] },
  ],
} as unknown as Plan;

describe('the cutting list', () => {
  const [first, second] = stretches(plan);
  it('has the pieces as the knife frees them, each with the strokes up to it', () => {
    expect(first!.lines.map((l) => [l.placement.piece, l.strokes.map((s) => s.frees)])).toEqual([
      ['A-2', ['row 1', 'selvage', 'A-2']],
      ['A-1', ['offcut', 'A-1']],
    ]);
    expect(first!.last.map((s) => s.frees)).toEqual(['offcut']);
  });
  it('loses no stroke with a piece that is cut elsewhere', () => {
    const strokes = (leftOut: string[]) => carriedOn(first!.lines, (id) => leftOut.includes(id)).map((l) => l.strokes.map((s) => s.frees));
    expect(strokes(['A-2'])).toEqual([[], ['row 1', 'selvage', 'A-2', 'offcut', 'A-1']]);
    expect(strokes([])).toEqual(first!.lines.map((l) => l.strokes.map((s) => s.frees)));
  });
  it('leaves no placed piece out, though no stroke names it', () => expect(second!.lines.map((l) => l.placement.piece)).toEqual(['B']));
  it('names what lies on no roll', () => expect(notLaid(plan)).toEqual(['A-3']));
});

describe('a spoiled piece', () => {
  it('is neither cut nor hung, and is cut again once it is ticked', () => {
    const hung = tickHung(tickCut(noProgress(), 'A-1', true, plan), 'A-1', true);
    const spoiled = tickSpoiled(hung, 'A-1', true);
    expect([spoiled.cut, spoiled.hung, spoiled.spoiled]).toEqual([[], [], ['A-1']]);
    expect(tickSpoiled(spoiled, 'A-1', false)).toMatchObject({ cut: ['A-1'], spoiled: [] });
    expect(tickSpoiled(tickSpoiled(noProgress(), 'A-1', true), 'A-1', false)).toEqual(noProgress());
    expect(tickCut(spoiled, 'A-1', true, plan)).toMatchObject({ cut: ['A-1'], spoiled: [] });
  });
});

describe('ticks', () => {
  it('tell a piece that was cut to another size than the plan now asks for', () => {
    const cut = tickCut(noProgress(), 'A-1', true, plan);
    expect(cutOtherwise(cut, 'A-1', plan)).toBeUndefined();
    const changed = { ...plan, pieces: [{ ...piece('A-1'), cut_length_mm: 510 }] } as unknown as Plan;
    expect(cutOtherwise(cut, 'A-1', changed)).toEqual([900, 500]);
    expect(cutOtherwise(tickCut(cut, 'A-1', true, changed), 'A-1', changed)).toBeUndefined();
    expect(cutOtherwise(tickCut(cut, 'A-1', false, changed), 'A-1', changed)).toBeUndefined();
  });
});
