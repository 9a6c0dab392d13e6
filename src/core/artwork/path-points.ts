/** A hand-drawn figure has tens of points, a traced photograph has 100,000 and cannot be flown. */
const MOST_POINTS = 10_000;

/** About how many points SVG path data has: half of its numbers. `M0 0L1 1` has 2. */
export function pathPoints(pathData: string): number {
  return Math.floor((pathData.match(/[+-]?(?:\d+\.?\d*|\.\d+)(?:e[+-]?\d+)?/gi)?.length ?? 0) / 2);
}

/** Why a drawing of so many points is not read; null when it is. Asked before anything that takes time with them. */
export function tooManyPoints(points: number): string | null {
  if (points <= MOST_POINTS) return null;
  return `The drawing has about ${points.toLocaleString('en')} points; at most ${MOST_POINTS.toLocaleString('en')} can be read. Simplify its paths first.`;
}
