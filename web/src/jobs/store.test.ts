import 'fake-indexeddb/auto';
import { beforeEach, describe, expect, it } from 'vitest';
import type { Job } from '../core/door';
import { backupText, jobText, read } from './exchange';
import { changedTo, noProgress, type JobRecord } from './record';
import { Store, type Change } from './store';

const job = (title: string) => ({ treadfold: 1, site: { title }, stairs: [{}] }) as unknown as Job;
let store: Store;
let count = 0;
async function changed(record: JobRecord, to: Job): Promise<JobRecord> {
  const next = changedTo(record, to);
  await store.changed(record, next);
  return next;
}
async function made(change: Promise<Change | undefined>): Promise<JobRecord | undefined> {
  const { record, keep } = (await change) ?? {};
  await keep?.();
  return record;
}
beforeEach(() => (store = new Store(`test-${count++}`)));

describe('jobs are kept', () => {
  it('as they were last changed, over a restart', async () => {
    const record = await store.add(job('one'));
    expect(record.id).toMatch(/^[0-9a-f]{8}-[0-9a-f]{4}-4[0-9a-f]{3}-[89ab][0-9a-f]{3}-[0-9a-f]{12}$/);
    await changed(record, job('two'));
    await store.close();
    expect((await store.get(record.id))?.job.site.title).toBe('two');
    expect((await store.all()).map((r) => r.id)).toEqual([record.id]);
  });

  it('and every change can be undone and done again, over a restart too', async () => {
    let record = await store.add(job('0'));
    for (let i = 1; i <= 30; i++) record = await changed(record, job(String(i)));
    await store.close();
    for (let i = 29; i >= 0; i--) {
      record = (await made(store.undone(record)))!;
      expect(record.job.site.title).toBe(String(i));
    }
    expect(await made(store.undone(record))).toBeUndefined();
    for (let i = 1; i <= 30; i++) record = (await made(store.redone(record)))!;
    expect(record.job.site.title).toBe('30');
    expect(await made(store.redone(record))).toBeUndefined();
  });

  it('and a change after undo ends what could be done again', async () => {
    let record = await changed(await store.add(job('a')), job('b'));
    record = (await made(store.undone(record)))!;
    record = await changed(record, job('c'));
    expect(await made(store.redone(record))).toBeUndefined();
    expect((await made(store.undone(record)))?.job.site.title).toBe('a');
  });

  it('and gone when removed, former states and all', async () => {
    const record = await changed(await store.add(job('a')), job('b'));
    await store.remove(record.id);
    expect(await store.get(record.id)).toBeUndefined();
    expect(await made(store.undone(record))).toBeUndefined();
  });

  it('all of a backup or none', async () => {
    const good: JobRecord = { id: 'g', changed: '2026-01-01', step: 0, job: job('g'), progress: noProgress() };
    const bad = { ...good, id: undefined } as unknown as JobRecord;
    await expect(store.addAll([good, bad])).rejects.toThrow();
    expect(await store.all()).toEqual([]);
  });
});

describe('files', () => {
  it('refuse a backup whose cutting is not what the app keeps', () => {
    const jobs = (progress: object) => JSON.stringify({ treadfold_jobs: 1, jobs: [{ id: 'a', changed: '2026-01-01', step: 0, job: job('a'), progress: { ...noProgress(), ...progress } }] });
    expect(read(jobs({ cutting: [], anew: { 'A-1': { strokes: [] } } }))).toHaveProperty('jobs');
    for (const wrong of [{ cutting: {} }, { anew: [] }, { anew: { 'A-1': {} } }]) expect(read(jobs(wrong))).toEqual({ fault: 'no-job' });
  });
  it('hold a job, with or without notes, or all jobs', () => {
    expect(read(jobText(job('x')))).toEqual({ job: job('x') });
    expect(read('{ // a note with "quotes"\n"treadfold": 1, "site": {"title": "http://x"}, "stairs": []}')).toMatchObject({ job: { site: { title: 'http://x' } } });
    const records: JobRecord[] = [{ id: 'a', changed: '2026-01-01', step: 3, job: job('a'), progress: noProgress() }];
    expect(read(backupText(records))).toEqual({ jobs: records });
  });

  it.each([
    ['', 'not-json'],
    ['{"treadfold": 1', 'not-json'],
    ['[]', 'no-job'],
    ['null', 'no-job'],
    ['{"treadfold": 1}', 'no-job'],
    ['{"treadfold": 2, "site": {"title": "x"}, "stairs": []}', 'newer'],
    ['{"treadfold_jobs": 2, "jobs": []}', 'newer'],
    ['{"treadfold_jobs": 1, "jobs": [{"id": ""}]}', 'no-job'],
    ['{"treadfold_jobs": 1}', 'no-job'],
  ])('that are broken say how: %s', (text, fault) => expect(read(text)).toEqual({ fault }));
});
