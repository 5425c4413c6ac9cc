/// The value typed last for each kind of measure, to be had again by one tap.
const kept = new Map<string, string>();
/// A measure's kind: its place without what counts steps and rows.
const kindOf = (path: string) => path.replace(/\/\d+(?=\/|$)/g, '');

export const lastTyped = (job: string, path: string) => kept.get(job + kindOf(path));
export const typedNow = (job: string, path: string, text: string) => void kept.set(job + kindOf(path), text);
