/** How a card's strokes are set: in type of one size, so many on each page. */
export interface CardFit {
  readonly points: number;
  readonly strokesOnPages: readonly number[];
}

/** The largest type that is tried, and the smallest that is read on a knee (common practice, no source). */
const LARGEST_POINTS = 15;
export const SMALLEST_POINTS = 11;
const STEP_POINTS = 0.5;

/** All on one page in the largest type. */
export function firstFit(strokeCount: number): CardFit {
  return { points: LARGEST_POINTS, strokesOnPages: [strokeCount] };
}

/**
 * The next setting to try after one was laid out; null when it fits. Type grows smaller while there is one page; in the
 * smallest the strokes that do not fit go overleaf, one by one.
 *
 * @param isOver for each page whether it is higher than its paper
 */
export function nextFit({ points, strokesOnPages }: CardFit, isOver: readonly boolean[]): CardFit | null {
  if (!isOver.includes(true)) return null;
  if (points > SMALLEST_POINTS) return { points: Math.max(SMALLEST_POINTS, points - STEP_POINTS), strokesOnPages };
  const pages = [...strokesOnPages];
  let moved = false;
  for (const [page, over] of isOver.entries()) {
    const count = pages[page] ?? 0;
    // A stroke that fills a page by itself stays: it cannot be halved.
    if (!over || count <= 1) continue;
    pages[page] = count - 1;
    pages[page + 1] = (pages[page + 1] ?? 0) + 1;
    moved = true;
  }
  return moved ? { points, strokesOnPages: pages } : null;
}
