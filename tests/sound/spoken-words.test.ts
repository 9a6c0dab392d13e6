import { readdirSync, readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { expect, it } from 'vitest';
import { SPOKEN_WORDS } from '../../src/sound/spoken-words.ts';

const folder = fileURLToPath(new URL('../../public/sounds/', import.meta.url));

it('has an MP3 of every word and of no other, small enough to be stored with the app', () => {
  const files = readdirSync(folder).filter((name) => name.endsWith('.mp3'));
  expect(files.sort()).toEqual(SPOKEN_WORDS.map((word) => `${word}.mp3`).sort());
  let bytes = 0;
  for (const file of files) {
    const content = readFileSync(`${folder}${file}`);
    bytes += content.length;
    // ISO/IEC 11172-3: a frame begins with eleven set bits; layer III is binary 01.
    expect(content[0], file).toBe(0xff);
    expect(content[1]! & 0xe6, file).toBe(0xe2);
  }
  expect(bytes).toBeLessThan(60_000);
});
