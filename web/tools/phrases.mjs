// Reads the phrases of core out of its sources: each string literal as a format with {} where a value goes. "a riser of " + size
// is `a riser of {}`, as fmt::format("a riser of {}", size) is; literals side by side are one.
import { readFileSync, readdirSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';

const core = fileURLToPath(new URL('../../core', import.meta.url));
const token = /\/\/[^\n]*|\/\*[\s\S]*?\*\/|R"\(([\s\S]*?)\)"|"((?:[^"\\\n]|\\.)*)"|'(?:[^'\\\n]|\\.)+'|#include[^\n]*|\d[\w.']*|\w+|::|->|==|&&|\|\||\s+|./g;

const plain = (literal) => JSON.parse(`"${literal.replace(/\\u([0-9a-f]{4})/gi, '\\u$1').replace(/\\x[0-9a-f]{2}|\\0/gi, '')}"`);

function tokens(text) {
  const out = [];
  for (const [whole, raw, literal] of text.matchAll(token)) {
    if (/^(\s|\/\/|\/\*|#include)/.test(whole)) continue;
    const said = raw ?? (literal === undefined ? undefined : plain(literal));
    const last = out.at(-1);
    if (said !== undefined && last?.said !== undefined) last.said += said;
    else out.push({ text: whole, said });
  }
  return out;
}

const opens = new Set(['(', '[', '{']), closes = new Set([')', ']', '}']);
const ends = new Set([',', ';', '?', ':', '=', '+', '==', '&&', '||', 'return', 'else', '<<', '+=']);

/// The operand that begins at `i`, going by `step`: the index beyond it.
function beyond(list, i, step) {
  const [inner, outer] = step > 0 ? [opens, closes] : [closes, opens];
  for (let depth = 0; i >= 0 && i < list.length; i += step) {
    const { text, said } = list[i];
    if (said !== undefined) continue;
    if (inner.has(text)) depth++;
    else if (outer.has(text) && depth-- === 0) return i;
    else if (depth === 0 && ends.has(text)) return i;
  }
  return i;
}

/**
 * The phrases of a source.
 * @param {string} text
 * @returns {Set<string>}
 */
export function phrasesOf(text) {
  const list = tokens(text), found = new Set();
  const alone = (from, to) => (Math.abs(to - from) === 1 ? list[from].said : undefined) ?? '{}';
  list.forEach(({ said }, i) => {
    if (said === undefined) return;
    let before = '', after = '';
    for (let at = i; list[at - 1]?.text === '+'; ) {
      const next = beyond(list, at - 2, -1);
      before = alone(at - 2, next) + before;
      at = next + 1;
    }
    if (list[i - 1]?.text === '=' && list[i - 2]?.text === '+') before = '{}'; // text += " and more"
    for (let at = i; list[at + 1]?.text === '+' && list[at + 2]?.text !== '='; ) {
      const next = beyond(list, at + 2, 1);
      after += alone(at + 2, next);
      at = next - 1;
    }
    found.add(before + said + after);
  });
  return found;
}

/**
 * Of every source of core: its phrases, by the source's name.
 * @returns {Map<string, Set<string>>}
 */
export const phrases = () =>
  new Map(readdirSync(core, { recursive: true, encoding: 'utf8' })
    .filter((name) => /\.(cpp|h)$/.test(name)).sort()
    .map((name) => [name, phrasesOf(readFileSync(join(core, name), 'utf8'))]));
