import { readFileSync, readdirSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import en from './en.json';
import es from './es.json';

const here = new URL('..', import.meta.url).pathname;
const sources = (readdirSync(here, { recursive: true }) as string[])
  .filter((name) => /\.(svelte|ts)$/.test(name) && !name.includes('generated') && !name.endsWith('.test.ts'))
  .map((name) => ({ name, text: readFileSync(join(here, name), 'utf8') }));

describe('every string in both languages', () => {
  it('has the same keys', () => expect(Object.keys(es).sort()).toEqual(Object.keys(en).sort()));

  it('asks for the same values', () => {
    const asked = (text: string) => [...new Set(text.match(/\{\w+\}/g) ?? [])].sort();
    for (const [key, text] of Object.entries(en)) expect(asked(es[key as keyof typeof es]), key).toEqual(asked(text));
  });

  it('leaves none empty', () => {
    for (const [key, text] of [...Object.entries(en), ...Object.entries(es)]) expect(text.trim(), key).not.toBe('');
  });

  it('is asked for by name somewhere', () => {
    const all = sources.map(({ text }) => text).join('\n');
    // A key made of parts, `look-${look}`, is known by its beginning.
    const beginnings = [...all.matchAll(/`([a-z][a-z0-9-]*-)\$\{/g)].map(([, beginning]) => beginning!);
    const unused = Object.keys(en).filter((key) => !all.includes(`'${key}'`) && !all.includes(`["${key}"]`) && !all.includes(`"${key}"`) && !beginnings.some((b) => key.startsWith(b)));
    expect(unused).toEqual([]);
  });
});

describe('no words in the code', () => {
  for (const { name, text } of sources.filter(({ name }) => name.endsWith('.svelte')))
    it(name, () => {
      const markup = text.replace(/<script[\s\S]*?<\/script>/g, '').replace(/<style[\s\S]*?<\/style>/g, '').replace(/<!--[\s\S]*?-->/g, '');
      let plain = '', depth = 0, tag = false;
      for (const c of markup) {
        if (c === '{') depth++;
        else if (c === '}') depth--, (plain += ' ');
        else if (depth > 0) continue;
        else if (c === '<') tag = true;
        else if (c === '>' && tag) tag = false, (plain += ' ');
        else if (!tag) plain += c;
      }
      expect(plain.match(/\p{L}{2,}/gu) ?? []).toEqual([]);
      expect(markup.match(/\s(?:aria-label|title|placeholder|alt)="[^"{]*\p{L}{2,}/gu) ?? []).toEqual([]);
    });
});
