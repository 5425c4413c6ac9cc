/// Where we are: #/ the jobs; #/ID/part and what the part adds.
export const parts = ['measure', 'look', 'choose', 'cut', 'hand'] as const;
export type Part = (typeof parts)[number];

export interface Route { id?: string; part: Part; rest: string[] }

function read(hash: string): Route {
  const [id, part, ...rest] = hash.replace(/^#\/?/, '').split('/').filter(Boolean).map(decodeURIComponent);
  return { id, part: parts.includes(part as Part) ? (part as Part) : 'measure', rest };
}

class Place {
  now = $state.raw(read(location.hash));
}
export const place = new Place();
addEventListener('hashchange', () => (place.now = read(location.hash)));

export const link = (id?: string, part: Part = 'measure', ...rest: string[]) =>
  '#/' + (id ? [id, part, ...rest].map(encodeURIComponent).join('/') : '');
export const go = (...where: Parameters<typeof link>) => (location.hash = link(...where));
