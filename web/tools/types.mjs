// TypeScript types of job, plan, fold and recut, made from the core's own JSON Schemas.
import { mkdirSync, readFileSync, writeFileSync } from 'node:fs';
import { compile } from 'json-schema-to-typescript';

const folder = new URL('../src/core/generated/', import.meta.url);
mkdirSync(folder, { recursive: true });
for (const name of ['job', 'plan', 'fold', 'recut']) {
  const schema = JSON.parse(readFileSync(new URL(`../../core/job/${name}.schema.json`, import.meta.url), 'utf8'));
  schema.title = name[0].toUpperCase() + name.slice(1);
  const text = await compile(schema, schema.title, { bannerComment: `// Made by tools/types.mjs from core/job/${name}.schema.json.`, additionalProperties: false });
  writeFileSync(new URL(`${name}.d.ts`, folder), text);
}
