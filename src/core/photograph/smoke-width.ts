import { SMOKE_RANGE } from '../sky/smoke-range.ts';

/** How wide smoke of an age likely is across its line, without shear: what the finder of lines looks for. */
export function smokeSigmaMetres(ageSeconds: number): number {
  const { initialHorizontalMetres, horizontalSquareMetresPerSecond } = SMOKE_RANGE.likely.air;
  return Math.sqrt(initialHorizontalMetres ** 2 + 2 * horizontalSquareMetresPerSecond * Math.max(0, ageSeconds));
}
