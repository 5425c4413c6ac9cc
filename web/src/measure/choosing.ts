/// A choice and what hangs on it: an open side has its overhang and return, a profile its own measures.
import type { Core, Job } from '../core/door';
import { at } from '../jobs/place';
import { wordOf } from './fields';
import { begunStarter, withRound } from './starters';
import { begun, type Shape } from './treads';
import { flightOf, measureOf, setMeasure, type FlightAt, type Which } from './steps';

/// The usual sizes are core's: those of a new job.
async function usual(core: Core, job: Job, path: string, side?: 'left' | 'right'): Promise<unknown> {
  const begun = await core.newJob({ units: job.units, ...(side && { [side]: 'open' as const }) });
  return at(begun, `/stairs/0/flights/0${path}`);
}

/// The change to the job when `word` is chosen at `path`.
export async function chosen(core: Core, job: Job, where: FlightAt, step: Which, path: string, word: string): Promise<(job: Job) => Job> {
  const flight = flightOf(job, where)!;
  if (path === '/left' || path === '/right') {
    if (word !== 'open') return (now) => setMeasure(now, where, step, path, word);
    if (wordOf(measureOf(flight, step, path)) === 'open') return (now) => now;
    const which = path === '/left' ? 'left' : 'right';
    // As this side is open elsewhere on the stair, or as the other side is here, or as is usual.
    const like = [flight[which], measureOf(flight, step, path === '/left' ? '/right' : '/left')].find((side) => wordOf(side) === 'open');
    const open = like ?? (await usual(core, job, path, which));
    return (now) => setMeasure(now, where, step, path, open);
  }
  if (path === '/open_risers') return (now) => setMeasure(now, where, step, path, word === 'open' ? true : undefined);
  if (path === '/carpet') return (now) => setMeasure(now, where, step, path, word.slice(1));
  const given = measureOf(flight, step, `/${path.split('/')[1]}`) as Record<string, unknown> | undefined;
  const open = wordOf(measureOf(flight, step, '/left')) === 'open' ? 'left' : 'right';
  if (path === '/tread') return (now) => setMeasure(now, where, step, path, begun(word as Shape, given));
  if (path === '/starter') return (now) => setMeasure(now, where, step, path, begunStarter(word, given, open));
  if (path === '/starter/left' || path === '/starter/right') {
    const end = path === '/starter/left' ? 'left' : 'right';
    return (now) => setMeasure(now, where, step, '/starter', withRound(given ?? {}, end, word));
  }
  if (path === '/nosing/profile') {
    const arris = word === 'square' && measureOf(flight, step, '/nosing/arris_radius') === undefined ? await usual(core, job, '/nosing/arris_radius') : undefined;
    return (now) => {
      let next = setMeasure(now, where, step, path, word);
      if (step === 'usual' && word !== 'bevelled') next = setMeasure(next, where, step, '/nosing/bevel', undefined);
      if (step === 'usual' && word !== 'square') next = setMeasure(next, where, step, '/nosing/arris_radius', undefined);
      return arris === undefined ? next : setMeasure(next, where, step, '/nosing/arris_radius', arris);
    };
  }
  return (now) => setMeasure(now, where, step, path, word);
}
