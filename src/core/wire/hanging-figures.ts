import { windFromVector, type WindVector, windVectorFrom } from '../earth/wind-vector.ts';
import { degreesFromRadians, radiansFromDegrees } from '../units/angle.ts';
import { knotsFromMetresPerSecond, metresPerSecondFromKnots } from '../units/quantity.ts';

/** What three figures on the radio say, or why they do not. */
export type HangingFigures = { readonly ok: true; readonly wind: WindVector } | { readonly ok: false; readonly reason: string };

/**
 * The wind that a text is hung for as three figures to be said on the radio: where it blows from, degrees true; tenths of a
 * knot; and a check figure. The same job hung for the same figures hangs in the same place on every ship and on the ground.
 * 098 degrees at 22.4 kt: `098 224 0`.
 */
export function figuresFromWind(wind: WindVector): string {
  const { fromRadians, speedMetresPerSecond } = windFromVector(wind);
  const from = String(Math.round(degreesFromRadians(fromRadians)) % 360).padStart(3, '0');
  const tenths = String(Math.min(999, Math.round(knotsFromMetresPerSecond(speedMetresPerSecond) * 10))).padStart(3, '0');
  return `${from} ${tenths} ${checkFigure(from + tenths)}`;
}

/** The wind of figures as they were heard, however they are spaced; a figure misheard, or two that changed places, are noticed. */
export function windFromFigures(heard: string): HangingFigures {
  const digits = heard.replaceAll(/[\s/.,-]/g, '');
  if (!/^\d{7}$/.test(digits)) return { ok: false, reason: 'Seven figures are wanted: three of direction, three of speed, one to check' };
  if (digits[6] !== checkFigure(digits.slice(0, 6))) return { ok: false, reason: 'The check figure does not fit: ask for them again' };
  const fromDegrees = Number(digits.slice(0, 3));
  if (fromDegrees >= 360) return { ok: false, reason: 'The direction must be under 360' };
  return {
    ok: true,
    wind: windVectorFrom({ fromRadians: radiansFromDegrees(fromDegrees), speedMetresPerSecond: metresPerSecondFromKnots(Number(digits.slice(3, 6)) / 10) }),
  };
}

/**
 * A figure that differs whenever one of the others does, or when two neighbours that differ change places: Damm's algorithm
 * (H. M. Damm 2004), over the quasigroup of order ten that he gives. 572 gives 4.
 */
export function checkFigure(digits: string): string {
  let interim = 0;
  for (const digit of digits) interim = QUASIGROUP[interim]?.[Number(digit)] ?? 0;
  return String(interim);
}

/** From memory; that it is totally anti-symmetric is what the test proves. */
const QUASIGROUP: readonly (readonly number[])[] = [
  [0, 3, 1, 7, 5, 9, 8, 6, 4, 2],
  [7, 0, 9, 2, 1, 5, 4, 8, 6, 3],
  [4, 2, 0, 6, 8, 7, 1, 3, 5, 9],
  [1, 7, 5, 0, 9, 8, 3, 4, 2, 6],
  [6, 1, 2, 3, 0, 4, 5, 9, 7, 8],
  [3, 6, 7, 4, 2, 0, 9, 5, 8, 1],
  [5, 8, 6, 9, 7, 2, 0, 1, 3, 4],
  [8, 9, 4, 5, 3, 6, 2, 0, 1, 7],
  [9, 4, 3, 8, 6, 1, 7, 2, 0, 5],
  [2, 5, 8, 1, 4, 3, 6, 7, 9, 0],
];
