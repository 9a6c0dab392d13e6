import { expect, it } from 'vitest';
import { nearestAtOneHeight, type TruePlace } from './judge-separation.ts';

const along = (north: number, heightFeet: number, from = 0, to = 60): TruePlace[] =>
  Array.from({ length: (to - from) * 5 }, (_, index) => ({ atSeconds: from + index / 5, eastMetres: 50 * (from + index / 5), northMetres: north, heightFeet }));

it('finds ships that fly abreast at one height, and lets them be at another', () => {
  expect(nearestAtOneHeight([along(0, 10_000), along(120, 10_100)], 60)?.metres).toBeCloseTo(120, 6);
  expect(nearestAtOneHeight([along(0, 10_000), along(120, 10_300)], 60)).toBeNull();
});

it('judges from both first fixes to the last leaving, and says who and when', () => {
  const crossing = along(0, 10_000).map((place) => ({ ...place, northMetres: 900 - 30 * place.atSeconds }));
  const found = nearestAtOneHeight([along(0, 10_000), crossing], 60);
  expect(found).toMatchObject({ ships: [0, 1] });
  expect(found?.atSeconds).toBeCloseTo(30, 1);
  expect(nearestAtOneHeight([along(0, 10_000, 45), crossing], 60)?.metres).toBeGreaterThan(400);
  expect(nearestAtOneHeight([along(0, 10_000), crossing], 20)?.metres).toBeCloseTo(300, -1);
});
