/// Every word on the screen, in the reader's language. No words stand in the code.
import en from './en.json';
import es from './es.json';

export type Key = keyof typeof en;
export type Language = 'en' | 'es';
export const languages: Record<Language, Record<Key, string>> = { en, es };

const kept = 'treadfold.language';
const first = (): Language => {
  const chosen = localStorage.getItem(kept);
  if (chosen === 'en' || chosen === 'es') return chosen;
  return navigator.language.startsWith('es') ? 'es' : 'en';
};

class Reader {
  language = $state<Language>(first());
  choose(language: Language) {
    this.language = language;
    localStorage.setItem(kept, language);
    document.documentElement.lang = language;
  }
}
export const reader = new Reader();
document.documentElement.lang = reader.language;

/// "{n}" stands for given.n. "one | many" is told by given.n.
export function t(key: Key, given: Record<string, string | number> = {}): string {
  const parts = languages[reader.language][key].split(' | ');
  const chosen = parts.length > 1 && given.n !== 1 ? parts[1]! : parts[0]!;
  return chosen.replace(/\{(\w+)\}/g, (whole, name: string) => String(given[name] ?? whole));
}

export const dated = (iso: string) => new Intl.DateTimeFormat(reader.language, { dateStyle: 'medium', timeStyle: 'short' }).format(new Date(iso));
export const numbered = (value: number, places = 0) => new Intl.NumberFormat(reader.language, { maximumFractionDigits: places }).format(value);
/// The decimal mark, as people here write it.
export const mark = () => new Intl.NumberFormat(reader.language).format(1.5).charAt(1);
/// A measure as it stands in the job, with the reader's decimal mark.
export const written = (measure: string) => measure.replace(/(\d)\.(?=\d|$)/g, `$1${mark()}`);
