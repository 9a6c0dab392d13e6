import { readdirSync, readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { expect, it } from 'vitest';
import { SPOKEN_SECONDS, SPOKEN_WORDS, spokenSeconds } from '../../src/sound/spoken-words.ts';

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

/** MPEG-2 layer III at 22,050 Hz: 576 samples a frame (ISO/IEC 13818-3, 2.4.2.3); a frame of 32 kbit/s has 104 bytes, or 105 padded. */
function framesOf(content: Buffer): number {
  let frames = 0;
  for (let at = 0; at + 4 <= content.length; frames += 1) {
    const padded = (content[at + 2]! >> 1) & 1;
    at += 104 + padded;
  }
  return frames;
}

it('knows how long every clip lasts, by its frames', () => {
  for (const word of SPOKEN_WORDS) {
    const seconds = (framesOf(readFileSync(`${folder}${word}.mp3`)) * 576) / 22_050;
    expect(Math.abs(seconds - SPOKEN_SECONDS[word]), word).toBeLessThan(0.06);
  }
});

it('adds up words', () => {
  expect(spokenSeconds(['left', 'steep', 'zero', 'nine', 'zero'])).toBeCloseTo(1.9, 1);
});
