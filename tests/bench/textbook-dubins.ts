import type { AirPose } from '../../src/core/paths/air-path.ts';

/**
 * The shortest turn-limited length straight from the formulas of Shkel and Lumelsky (2001, eqs 10 to 20), six words
 * tried one by one on normalised coordinates: what a textbook version looks like, to be timed against.
 */
export function textbookDubinsMetres(from: AirPose, to: AirPose, radiusMetres: number): number {
  const turn = 2 * Math.PI;
  const mod = (angle: number): number => angle - turn * Math.floor(angle / turn);
  const x = to.airEastMetres - from.airEastMetres;
  const y = to.airNorthMetres - from.airNorthMetres;
  const d = Math.hypot(x, y) / radiusMetres;
  const theta = mod(Math.atan2(y, x));
  const a = mod(from.directionRadians - theta);
  const b = mod(to.directionRadians - theta);
  const [sa, sb, ca, cb, cab] = [Math.sin(a), Math.sin(b), Math.cos(a), Math.cos(b), Math.cos(a - b)];
  const words: (() => number[] | null)[] = [
    () => {
      const square = 2 + d * d - 2 * cab + 2 * d * (sa - sb);
      const angle = Math.atan2(cb - ca, d + sa - sb);
      return square < 0 ? null : [mod(angle - a), Math.sqrt(square), mod(b - angle)];
    },
    () => {
      const square = 2 + d * d - 2 * cab + 2 * d * (sb - sa);
      const angle = Math.atan2(ca - cb, d - sa + sb);
      return square < 0 ? null : [mod(a - angle), Math.sqrt(square), mod(angle - b)];
    },
    () => {
      const square = -2 + d * d + 2 * cab + 2 * d * (sa + sb);
      if (square < 0) return null;
      const angle = Math.atan2(-ca - cb, d + sa + sb) - Math.atan2(-2, Math.sqrt(square));
      return [mod(angle - a), Math.sqrt(square), mod(angle - b)];
    },
    () => {
      const square = -2 + d * d + 2 * cab - 2 * d * (sa + sb);
      if (square < 0) return null;
      const angle = Math.atan2(ca + cb, d - sa - sb) - Math.atan2(2, Math.sqrt(square));
      return [mod(a - angle), Math.sqrt(square), mod(b - angle)];
    },
    () => {
      const cosine = (6 - d * d + 2 * cab + 2 * d * (sa - sb)) / 8;
      if (Math.abs(cosine) > 1) return null;
      const p = mod(turn - Math.acos(cosine));
      const t = mod(a - Math.atan2(ca - cb, d - sa + sb) + p / 2);
      return [t, p, mod(a - b - t + p)];
    },
    () => {
      const cosine = (6 - d * d + 2 * cab + 2 * d * (sb - sa)) / 8;
      if (Math.abs(cosine) > 1) return null;
      const p = mod(turn - Math.acos(cosine));
      const t = mod(-a + Math.atan2(cb - ca, d + sa - sb) + p / 2);
      return [t, p, mod(b - a - t + p)];
    },
  ];
  let best = Infinity;
  for (const word of words) {
    const pieces = word();
    if (pieces !== null)
      best = Math.min(
        best,
        pieces.reduce((sum, piece) => sum + piece, 0),
      );
  }
  return best * radiusMetres;
}
