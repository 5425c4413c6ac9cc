/// The rest on what is left: what core is asked, and what of its answer is shown.
import type { Plan, Recut } from '../core/door';
import type { Cutting, Made, Progress, Sound } from '../jobs/record';
import { tickCut, tickSpoiled } from './ticks';

export type CarpetRecut = Recut['carpets'][number];
export type Way = CarpetRecut['ways'][number];
export type Part = Way['parts'][number];

export type Spoiled = NonNullable<Cutting['spoiled']>[number];
export const idOf = (spoiled: Spoiled) => (typeof spoiled === 'string' ? spoiled : spoiled.piece);

/// Of each carpet that something befell; or with `all`, of which anything is cut. Core knows of a piece only that it is good where the plan has it, or lost there: one cut
/// from elsewhere is lost there too, and is placed once more.
export function cuttings(progress: Progress, plan: Plan, all = false): Cutting[] {
  const anew = progress.anew ?? {};
  return plan.layouts.flatMap(({ carpet, rolls }) => {
    const laid = new Set(rolls.flatMap((roll) => roll.placements.map((p) => p.piece)));
    const cut = progress.cut.filter((id) => laid.has(id) && !anew[id]);
    const lost = [...new Set([...progress.spoiled, ...Object.keys(anew)])].filter((id) => laid.has(id));
    const spoiled = lost.map((id) => (progress.sound?.[id] ? { piece: id, ...progress.sound[id] } : id));
    const told = progress.cutting?.find((c) => c.carpet === carpet);
    const ofRoll = told && isTold(told) ? { of: told.of, roll_length: told.roll_length, flaws: told.flaws } : undefined;
    const taken = told?.way && { way: told.way, ...(told.remnant ? { remnant: told.remnant } : {}) };
    const asked: Cutting = { carpet, cut, spoiled, ...ofRoll };
    return befell(asked) ? [{ ...asked, ...taken }] : all && cut.length ? [asked] : [];
  });
}
const isTold = (c: Cutting) => c.roll_length !== undefined || Boolean(c.flaws?.length);
export const befell = (c: Cutting) => Boolean(c.spoiled?.length) || isTold(c);

/// After something befell. Ticks alone ask nothing new, so that a way once begun stays as it is.
export const askAnew = (progress: Progress, plan: Plan): Progress => ({ ...progress, cutting: cuttings(progress, plan) });

/// What is said of a stretch of goods. Core takes it of one stretch a carpet.
export type Told = Pick<Cutting, 'roll_length' | 'flaws'>;
export function toldOf(progress: Progress, plan: Plan, carpet: string, of: string): Told | undefined {
  const told = progress.cutting?.find((c) => c.carpet === carpet);
  const first = plan.layouts.find((layout) => layout.carpet === carpet)?.rolls.find(({ remnant }) => !remnant)?.stock;
  return !told || !isTold(told) ? {} : (told.of || first) === of ? told : undefined; // undefined: it is said of another
}
export function tell(progress: Progress, plan: Plan, carpet: string, of: string, change: Told): Progress {
  const all = progress.cutting ?? [];
  const told: Cutting = { ...all.find((c) => c.carpet === carpet), carpet, of, ...change };
  return askAnew({ ...progress, cutting: [...all.filter((c) => c.carpet !== carpet), told] }, plan);
}

/// Takes a way; none: the best. All else that core was asked stays, so that what comes of it is what was shown.
export const take = (progress: Progress, carpet: string, way?: Way): Progress => ({
  ...progress,
  cutting: progress.cutting?.map((asked) => (asked.carpet === carpet ? { ...asked, way: way?.how, remnant: way?.remnant || undefined } : asked)),
});

/// What of a spoiled piece is sound; nothing, if undefined.
export function tellSound(progress: Progress, plan: Plan, piece: string, sound?: Sound): Progress {
  const { [piece]: _, ...others } = progress.sound ?? {};
  return askAnew({ ...progress, sound: sound ? { ...others, [piece]: sound } : others }, plan);
}

/// The strokes made in the part once the piece is free.
export function made(carpet: string, part: Part, placed: string): Made {
  const strokes = part.layout.knife_order;
  const last = strokes.findIndex((s) => s.frees === placed);
  return { carpet, of: part.of, u_mm: part.u_mm, v_mm: part.v_mm, placed, strokes: strokes.slice(0, last + 1) };
}
const sameStart = (part: Part, m: Made) =>
  part.of === m.of && part.u_mm === m.u_mm && part.v_mm === m.v_mm && part.layout.placements.some((p) => p.piece === m.placed) &&
  JSON.stringify(part.layout.knife_order.slice(0, m.strokes.length)) === JSON.stringify(m.strokes);

/// Pieces cut anew that the way would cut from elsewhere, or that were spoiled again: of these core cannot be told.
export const astray = (way: Way, progress: Progress): string[] =>
  Object.entries(progress.anew ?? {}).filter(([id, m]) => progress.spoiled.includes(id) || !way.parts.some((part) => sameStart(part, m))).map(([id]) => id);

/// Pieces cut where the plan has them since core was asked, and that the way would cut from elsewhere.
const passed = (way: Way, progress: Progress, asked: CarpetRecut): string[] =>
  moved(way).filter((id) => progress.cut.includes(id) && !progress.anew?.[id] && !asked.cut.includes(id));

/// `against`: what is cut by now and speaks against a way; none: it can be taken.
export interface Other { way: Way; against: string[] }
export interface Shown { carpet: string; way?: Way; others: Other[]; chosen: boolean; backTo: boolean; late: boolean; astray: string[]; why_not: string }

/// The way that is taken, if it leaves what is cut anew where it was cut from; else the best that does. `chosen`: by
/// the user, and not the best; `backTo`: and nothing cut speaks against that one. `late`: core can be asked
/// once more of what is cut by now, for that no piece is cut anew yet.
export function shownOf(recut: CarpetRecut, progress: Progress): Shown {
  const own = { ...progress, anew: Object.fromEntries(Object.entries(progress.anew ?? {}).filter(([, m]) => m.carpet === recut.carpet)) };
  const taken = recut.ways[recut.taken];
  const way = [...(taken ? [taken] : []), ...recut.ways].find((w) => !astray(w, own).length);
  const others = way ? recut.ways.filter((w) => w !== way).map((w) => ({ way: w, against: [...new Set([...astray(w, own), ...passed(w, own, recut)])] })) : [];
  return {
    carpet: recut.carpet, way, others,
    chosen: way === taken && way !== recut.ways[0] && progress.cutting?.some((c) => c.carpet === recut.carpet && c.way) === true,
    backTo: others.some((other) => other.way === recut.ways[0] && !other.against.length),
    late: !Object.keys(own.anew).length && others.some(({ against }) => against.length),
    astray: way || !recut.ways.length ? [] : astray(recut.ways[0]!, own),
    why_not: recut.ways.length ? '' : recut.why_not,
  };
}

/// What core is asked so that its sheet is of the ways that are shown. Undefined: of one carpet none is.
export function asShown(recut: Recut, progress: Progress): Cutting[] | undefined {
  let next = progress;
  for (const carpet of recut.carpets) {
    const { way, astray } = shownOf(carpet, progress);
    if (!way && astray.length) return undefined;
    if (way) next = take(next, carpet.carpet, way);
  }
  return next.cutting;
}

/// Pieces of the plan that are not cut where the plan has them.
export const moved = (way: Way): string[] => [
  ...way.parts.flatMap((part) => part.layout.placements.map((p) => p.piece)),
  ...way.replaced.map(({ piece }) => piece),
];

/// Not cut after all; one that was lost before is to be cut again.
export function notCut(progress: Progress, id: string, plan: Plan): Progress {
  const { [id]: _, ...anew } = progress.anew ?? {};
  const lost = progress.cutting?.some((c) => c.spoiled?.some((s) => idOf(s) === id)) && !progress.spoiled.includes(id);
  return { ...tickCut(progress, id, false, plan), anew, spoiled: lost ? [...progress.spoiled, id] : progress.spoiled };
}

export interface From { carpet: string; way: Way; part: Part }
/// Ticks a piece cut from a part. One that is cut in several is cut once all of them are.
export function tickAnew(progress: Progress, { carpet, way, part }: From, id: string, on: boolean, plan: Plan): Progress {
  const set = (p: Progress, piece: string): Progress =>
    on ? { ...tickCut(p, piece, true, plan), anew: { ...p.anew, [piece]: made(carpet, part, id) } } : notCut(p, piece, plan);
  const next = set(progress, id);
  const whole = way.replaced.find(({ by }) => by.some((b) => b.id === id));
  return whole && whole.by.every((b) => next.cut.includes(b.id)) === on ? set(next, whole.piece) : next;
}

/// A piece is spoiled; from a part, so that its goods are gone there.
export const spoil = (progress: Progress, id: string, plan: Plan, from?: From): Progress =>
  askAnew(tickSpoiled(from ? tickAnew(progress, from, id, true, plan) : progress, id, true), plan);
export const notSpoiled = (progress: Progress, id: string, plan: Plan): Progress => tellSound(tickSpoiled(progress, id, false), plan, id);
