/// Core's sentences in another language. A catalogue maps a format of core's, with {} where a value goes, to the same in that
/// language, where {0}, {1} … may stand in any order. A sentence is matched back to the format it was made from, whole, and what
/// filled its places is itself a sentence, a value that stays as it is, or words of the user's; what stands in quotes always stays.

export type Catalogue = Record<string, string>;

/// `unknown`: what is neither in the catalogue nor a value. `ways`: the readings that are equally good; more than one is a fault
/// of the catalogue.
export interface Said { text: string; unknown: string[]; ways: string[] }

const place = /\{\d*(?::[^{}\s]*)?\}/;
/// Numbers, lengths, lists of steps, paragraphs of a code; words of the job between quotes; ids of pieces.
const value = /^[-−+]?[\d.,/'"°%–…\s-]*(?:\d\s?(?:mm|cm|m|in|ft|%))?$|^'[^']*'(?:, '[^']*')*$|^R?\d[\d.]*$|^[A-Z]+(?:-\d[\w.]*)?(?:, [A-Z]+(?:-\d[\w.]*)?)*$|^(?:null|true|false|-?\d[\d.eE+-]*…?|IRC|IBC|Approved Document K| %)$/s;

interface Format { literals: string[]; weight: number; into: string }

/// The user's words, or a word of the job file's own: they stay.
const quoted = ({ literals }: Format, place: number) => literals[place]!.endsWith("'") && literals[place + 1]!.startsWith("'");

/// Every way to fill the places between `literals`, in turn.
function* fillings([first, ...rest]: string[], text: string): Generator<string[]> {
  if (!text.startsWith(first!)) return;
  const left = text.slice(first!.length);
  if (rest.length === 1) {
    if (left.endsWith(rest[0]!)) yield [left.slice(0, left.length - rest[0]!.length)];
    return;
  }
  for (let i = left.indexOf(rest[0]!); i >= 0; i = i < left.length ? left.indexOf(rest[0]!, i + 1) : -1)
    for (const others of fillings(rest, left.slice(i))) yield [left.slice(0, i), ...others];
}

export function matcher(catalogue: Catalogue): (text: string) => Said {
  const formats: Format[] = [], whole = new Map<string, string>();
  for (const [english, into] of Object.entries(catalogue)) {
    const literals = english.split(place);
    if (literals.length === 1) whole.set(english, into);
    else formats.push({ literals, weight: literals.join('').length, into });
  }
  formats.sort((a, b) => b.weight - a.weight); // the most specific first
  const known = new Map<string, Said>();

  /// The reading that leaves the fewest letters unknown; of those, by the most specific format.
  function read(text: string): Said {
    const found = whole.get(text);
    if (found !== undefined) return { text: found, unknown: [], ways: [found] };
    if (value.test(text)) return { text, unknown: [], ways: [text] };
    let best: Said = { text, unknown: [text], ways: [text] }, least = text.length, weight = 0;
    for (const format of formats) {
      if (least === 0 && format.weight < weight) break;
      for (const filling of fillings(format.literals, text)) {
        const parts = filling.map((part, i) => (quoted(format, i) ? { text: part, unknown: [], ways: [part] } : said(part))), unknown = parts.flatMap((part) => part.unknown);
        const left = unknown.join('').length;
        if (left > least || (left === least && format.weight < weight)) continue;
        const way = format.into.replace(/\{(\d)\}/g, (_, n: string) => parts[Number(n)]!.text);
        const ways = left === least && format.weight === weight ? [...new Set([...best.ways, way])] : [way];
        best = { text: ways[0]!, unknown, ways };
        least = left;
        weight = format.weight;
      }
    }
    return best;
  }

  function said(text: string): Said {
    let one = known.get(text);
    if (!one) known.set(text, (one = read(text)));
    return one;
  }
  return said;
}
