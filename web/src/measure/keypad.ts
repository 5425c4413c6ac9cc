/// What a key does to a half-typed measure. The text is the job file's own writing: "27 1/2", "2' 3 1/2", "68.5".
/// It is edited here and never read as a length: that is core's.
export type Kind = 'in' | 'metric' | 'count';
/// A digit, '.', 'back', 'clear', 'feet', '1/8' … '7/8', '1/16' (one sixteenth more, or off again), or as typed: ' ', '/', '-', "'", '"'.
export type Press = string;

export const eighths = ['1/8', '1/4', '3/8', '1/2', '5/8', '3/4', '7/8'] as const;
const MOST = 16; // characters
const FRACTION = /(?:^|[ -])(\d+)\/(2|4|8|16)$/;

const reduced = (sixteenths: number) => {
  let [n, d] = [sixteenths, 16];
  while (n % 2 === 0 && d > 1) [n, d] = [n / 2, d / 2];
  return `${n}/${d}`;
};
const sixteenths = (text: string) => {
  const found = FRACTION.exec(text);
  return found ? (Number(found[1]) * 16) / Number(found[2]) : 0;
};
/// Without its fraction, or the decimals in its place.
const whole = (text: string) => text.replace(FRACTION, '').replace(/\.\d*$/, '').trimEnd();
const withFraction = (text: string, n: number) => (n === 0 ? whole(text) : [whole(text), reduced(n)].filter(Boolean).join(' '));

function digit(text: string, key: string): string {
  const under = /(\d+)\/(\d*)$/.exec(text); // a fraction typed figure by figure
  if (under) return ['2', '4', '8', '16'].some((d) => d.startsWith(under[2]! + key)) ? text + key : text;
  if (text === '0') return key;
  if (/"$/.test(text)) return text;
  return text.endsWith("'") ? `${text} ${key}` : text + key;
}

function back(text: string): string {
  if (/\d+\/(2|4|8|16)$/.test(text) && FRACTION.test(text)) return whole(text);
  return text.slice(0, -1).trimEnd();
}

function feet(text: string): string {
  if (text.includes("'")) return text.replace(/' ?/, '');
  return /^\d+$/.test(text) ? `${text}'` : text;
}

function inches(text: string, key: Press): string {
  if ((eighths as readonly string[]).includes(key)) {
    const [n, d] = key.split('/').map(Number) as [number, number];
    const pressed = (n * 16) / d;
    return withFraction(text, sixteenths(text) === pressed ? 0 : pressed);
  }
  if (key === '1/16') return withFraction(text, sixteenths(text) ^ 1);
  if (key === 'feet' || key === "'") return feet(text);
  if (key === '"') return /\d$/.test(text) ? text + key : text;
  if (key === ' ' || key === '-') return /\d$|'$/.test(text) && !/[ -]\d*$/.test(text.replace(/^.*'\s*/, '')) ? text + key : text;
  if (key === '/') return /\d$/.test(text) && !text.includes('/') && !text.includes('.') ? text + key : text;
  return text;
}

export function press(text: string, key: Press, kind: Kind): string {
  const next = (() => {
    if (key === 'clear') return '';
    if (key === 'back') return kind === 'in' ? back(text) : text.slice(0, -1);
    if (/^\d$/.test(key)) return kind === 'in' ? digit(text, key) : text === '0' ? key : text + key;
    if (kind === 'count') return text;
    if (key === '.' || key === ',') return /[./"]/.test(text) ? text : text === '' || /'$/.test(text) ? `${text}0.`.replace("'0", "' 0") : `${text}.`;
    return kind === 'in' ? inches(text, key) : text;
  })();
  return next.length > (kind === 'count' ? 3 : MOST) ? text : next;
}

/// As the job file takes it: nothing left hanging at the end.
export const finished = (text: string) => text.replace(/(^|[ -])\d+\/$/, '').replace(/[\s.-]+$/, '');

/// The key pressed on a keyboard, if it is one of ours.
export function pressOf(event: { key: string; ctrlKey: boolean; metaKey: boolean; altKey: boolean }): Press | undefined {
  if (event.ctrlKey || event.metaKey || event.altKey) return undefined;
  if (/^[0-9.,/' "-]$/.test(event.key)) return event.key;
  return { Backspace: 'back', Delete: 'clear' }[event.key];
}
