import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { GROUND_CALLS, LETTER_RATINGS, LINK_PAYLOAD_BYTES, LINK_TOUCHES } from '../../src/core/wire/link-schemas.ts';
import { LINK_KINDS, LINK_TOPIC_ROOT } from '../../src/core/wire/link-topics.ts';

const read = (path: string): string => readFileSync(new URL(path, import.meta.url), 'utf8');

/** Whoever joins with a program of his own has nothing but this text. */
describe('the specification of the link', () => {
  const text = read('../../src/link/README.md');

  it('names every field of every message', () => {
    const schema: unknown = JSON.parse(read('../../public/quillwind-link.schema.json'));
    const fields = [...new Set(propertiesIn(schema))];
    expect(fields.length).toBeGreaterThan(35);
    expect(fields.filter((field) => !new RegExp(`[\`"{]${field}[\`"]`).test(text))).toEqual([]);
  });

  it('names every word that a field can hold', () => {
    const words = [...GROUND_CALLS, ...LETTER_RATINGS, ...LINK_TOUCHES];
    expect(words.filter((word) => !text.includes(`\`${word}\``))).toEqual([]);
  });

  it('names every topic and the longest payload', () => {
    for (const kind of new Set([...LINK_KINDS.ship, ...LINK_KINDS.ground])) expect(text).toContain(`DEVICE/${kind}`);
    expect(text).toContain(`\`${LINK_TOPIC_ROOT}/JOB/`);
    expect(text).toContain(LINK_PAYLOAD_BYTES.toLocaleString('en-US'));
  });
});

function propertiesIn(schema: unknown): string[] {
  if (typeof schema !== 'object' || schema === null) return [];
  const here = 'properties' in schema ? Object.keys(schema.properties as object) : [];
  return [...here, ...Object.values(schema).flatMap(propertiesIn)];
}
