/// What a job file says of its cutting, into ticks and out of them.
import type { Job, Plan } from '../core/door';
import type { Cutting, JobRecord, Progress } from '../jobs/record';
import { befell, cuttings, idOf, type Spoiled } from './recut';
import { tickCut, tickSpoiled } from './ticks';

const isSound = (s: Spoiled): s is Exclude<Spoiled, string> & { sound_width: string | number; sound_length: string | number } =>
  typeof s !== 'string' && s.sound_width !== undefined && s.sound_length !== undefined;

/// Of pieces that the plan does not have there are no ticks: core is asked of them, and says so. Ticks that are there already stand.
export function seeded(progress: Progress, brought: Cutting[], plan: Plan): Progress {
  if (progress.cut.length || progress.spoiled.length) return progress;
  const known = new Set(plan.pieces.map((piece) => piece.id));
  let next = progress;
  for (const { cut = [], spoiled = [] } of brought) {
    for (const id of cut) if (known.has(id)) next = tickCut(next, id, true, plan);
    for (const one of spoiled) {
      const id = idOf(one);
      if (!known.has(id)) continue;
      next = tickSpoiled(tickCut(next, id, true, plan), id, true); // it was cut before it was spoiled
      if (isSound(one)) next = { ...next, sound: { ...next.sound, [id]: { sound_width: one.sound_width, sound_length: one.sound_length } } };
    }
  }
  const asked = brought.filter((c) => befell(c) || [...(c.cut ?? []), ...(c.spoiled ?? []).map(idOf)].some((id) => !known.has(id)));
  return { ...next, cutting: asked };
}

/// The job with its cutting as far as it has come. What was cut anew is told as spoiled, so that its goods are not given out twice.
export function carried({ job, brought, begun, progress }: JobRecord, plan: Plan | undefined): Job {
  const { cutting: _, ...rest } = job;
  const cutting = brought && !begun ? brought : plan ? cuttings(progress, plan, true) : progress.cutting;
  return (cutting?.length ? { ...rest, cutting } : rest) as Job;
}
