import { expect, it } from 'vitest';
import { drawPolylines } from './draw-strokes.ts';
import { flyFormation } from './formation-flight.ts';
import { TEN_KNOTS } from './ordinary-world.ts';
import { openTextReader } from './read-text.ts';
import { seenFromBelow } from './smoke-from-below.ts';
import { WORD_FACING_DEGREES, WORD_HEIGHT_METRES } from './word-setup.ts';

it('three ships without a link, their clocks up to 1.9 s off, write a word that is read and stay 300 m apart', { timeout: 120_000 }, async () => {
  const flight = flyFormation('SPRING', 2, TEN_KNOTS);
  expect(flight.finished).toBe(true);
  expect(flight.nearestMetres).toBeGreaterThan(300);
  const reader = await openTextReader();
  const picture = drawPolylines(seenFromBelow(flight.trails, WORD_FACING_DEGREES), { letterHeightMetres: WORD_HEIGHT_METRES });
  expect((await reader.read(picture)).text).toBe('SPRING');
  await reader.close();
});
