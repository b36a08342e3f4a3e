/** The document of the record format names every kind and every field that this program writes, and no other kind. */
import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { BODIES } from './bodies.ts';
import type { KnownKind } from './record.ts';
import type { Shape } from './shape.ts';

const text = readFileSync(new URL('../../../docs/formats/diary-records.md', import.meta.url), 'utf8');
/** Rows of the table of kinds. */
const kindsPart = text.split(/^## /m).find((part) => part.startsWith('Kinds'))!;
const kinds = [...kindsPart.matchAll(/^\| `(\w+)` \| `/gm)].map((match) => match[1]);

/** Names of all fields of a shape, however deep. Those of statements and problems are told once for all. */
function namesIn(shape: Shape): string[] {
  if (typeof shape === 'string') return [];
  if ('maybe' in shape) return namesIn(shape.maybe);
  if ('perhaps' in shape) return namesIn(shape.perhaps);
  if ('list' in shape) return namesIn(shape.list);
  return Object.entries(shape.fields).flatMap(([name, field]) => [
    ...(['code', 'params', 'severity'].includes(name) ? [] : [name]),
    ...namesIn(field),
  ]);
}

describe('docs/formats/diary-records.md', () => {
  it('has a row for each kind, and for no other', () => {
    expect(kinds.sort()).toEqual(Object.keys(BODIES).sort());
  });

  it.each(Object.keys(BODIES) as KnownKind[])('names every field of %s', (kind) => {
    const fields = namesIn({ fields: BODIES[kind].fields });
    const missing = fields.filter((name) => !new RegExp(`\\b${name}\\b[^\`]*\``).test(text));
    expect([fields.length > 0, missing]).toEqual([true, []]);
  });

  it('is about version 1, which every kind is at', () => {
    expect(Object.values(BODIES).map(({ v }) => v)).toEqual(Object.keys(BODIES).map(() => 1));
  });
});
