import type { WidthSeen } from './stroke-widths.ts';

/** How fast smoke spread, as its widths at several ages tell. */
export interface SpreadingSeen {
  readonly horizontalSquareMetresPerSecond: number;
  readonly sigmaSquareMetresPerSecond: number;
  /** Deviation when it was laid. */
  readonly initialMetres: number;
  readonly count: number;
}

/** Less spread of ages than this tells nothing of spreading. */
const LEAST_AGES_SECONDS = 60;
/** Neighbouring runs share their sky and their air: the error is that of fewer. */
const ALIKE_RUNS = 3;

/**
 * The diffusivity of smoke from its widths at several ages: `s^2 = s0^2 + 2 D t` (Schumann et al. 1995), a straight line
 * by weighted least squares, twice, what lies farther than three deviations left out the second time. Null where the ages
 * are too much alike.
 */
export function spreadingFrom(widths: readonly WidthSeen[]): SpreadingSeen | null {
  let kept = widths;
  let fit: ReturnType<typeof lineThrough> = null;
  for (let round = 0; round < 3; round++) {
    fit = lineThrough(kept);
    if (fit === null) return null;
    const line = fit;
    kept = kept.filter(
      ({ ageSeconds, sigmaMetres, errorMetres }) =>
        Math.abs(sigmaMetres ** 2 - line.start - line.slope * ageSeconds) < 3 * 2 * sigmaMetres * errorMetres * Math.max(1, line.scatter),
    );
  }
  const ages = kept.map(({ ageSeconds }) => ageSeconds);
  if (fit === null || kept.length < 4 || Math.max(...ages) - Math.min(...ages) < LEAST_AGES_SECONDS || fit.slope <= 0) return null;
  return {
    horizontalSquareMetresPerSecond: fit.slope / 2,
    sigmaSquareMetresPerSecond: (fit.slopeSigma * Math.sqrt(ALIKE_RUNS) * Math.max(1, fit.scatter)) / 2,
    initialMetres: Math.sqrt(Math.max(0, fit.start)),
    count: kept.length,
  };
}

function lineThrough(widths: readonly WidthSeen[]): { start: number; slope: number; slopeSigma: number; scatter: number } | null {
  let [w, x, y, xx, xy] = [0, 0, 0, 0, 0];
  for (const { ageSeconds, sigmaMetres, errorMetres } of widths) {
    const weight = 1 / (2 * sigmaMetres * errorMetres) ** 2;
    const square = sigmaMetres ** 2;
    w += weight;
    x += weight * ageSeconds;
    y += weight * square;
    xx += weight * ageSeconds ** 2;
    xy += weight * ageSeconds * square;
  }
  const determinant = w * xx - x * x;
  if (!(determinant > 1e-12 * w * xx)) return null;
  const slope = (w * xy - x * y) / determinant;
  const start = (y - slope * x) / w;
  const squares = widths.reduce(
    (sum, { ageSeconds, sigmaMetres, errorMetres }) => sum + ((sigmaMetres ** 2 - start - slope * ageSeconds) / (2 * sigmaMetres * errorMetres)) ** 2,
    0,
  );
  return { start, slope, slopeSigma: Math.sqrt(w / determinant), scatter: Math.sqrt(squares / Math.max(1, widths.length - 2)) };
}
