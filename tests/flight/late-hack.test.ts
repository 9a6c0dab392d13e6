import { expect, test } from 'vitest';
import { REASONS } from '../../src/core/guidance/cues.ts';
import { flySortie } from './fly-sortie.ts';
import { sortieOfKind, type SortieKind } from './measure-sortie.ts';

/** Two's hack of this sortie is pressed 25 s late. */
const SEED = 7;
const LEAST_METRES = 300;

const flown = (kind: SortieKind): ReturnType<typeof flySortie> & { readonly late: number } => {
  const sortie = sortieOfKind(SEED, kind);
  return { ...flySortie(sortie), late: sortie.lateHack!.shipIndex };
};

test('a hack pressed 25 s late: heard over the link the ship waits on its circle, and by the lead’s time it writes whole', { timeout: 120_000 }, () => {
  // Without a link nobody knows, and two ships pass nearer than they may: what follows is not true of every sortie.
  expect(flown('late hack').nearest!.metres).toBeLessThan(LEAST_METRES);

  const heard = flown('late hack heard');
  expect(heard.nearest?.metres ?? Infinity).toBeGreaterThan(LEAST_METRES);
  expect(heard.trails[heard.late]).toEqual([]);
  expect(heard.stories[heard.late]!.some((line) => line.includes(REASONS.timedOtherwise))).toBe(true);
  expect(heard.stories.filter((lines) => lines.some((line) => line.includes(REASONS.timedOtherwise)))).toHaveLength(1);

  const answered = flown('late hack answered');
  expect(answered.nearest!.metres).toBeGreaterThan(LEAST_METRES);
  expect(answered.whole).toBe(true);
});
