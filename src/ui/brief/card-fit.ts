/** How a card's strokes are set: in type of one size, so many on each page. */
export interface CardFit {
  readonly points: number;
  readonly strokesOnPages: readonly number[];
  /** The largest type that was seen to fit one page, and the smallest that was not; 0 and infinity before. */
  readonly fits: number;
  readonly over: number;
}

/** A page that was laid out, in parts of its paper's height. */
export interface PageMeasure {
  readonly height: number;
  /** Of its strokes, in order. */
  readonly rows: readonly number[];
}

/** The largest type that is tried, and the smallest that is read on a knee (common practice, no source). */
const LARGEST_POINTS = 15;
export const SMALLEST_POINTS = 11;
const STEP_POINTS = 0.5;

/** All on one page in the largest type. */
export function firstFit(strokeCount: number): CardFit {
  return { points: LARGEST_POINTS, strokesOnPages: [strokeCount], fits: 0, over: Infinity };
}

/**
 * The next setting to try after one was laid out; null when it fits. The largest type that fits one page is looked for from a
 * guess, since to lay a card out takes a tablet a twentieth of a second; in the smallest the strokes that do not fit go overleaf.
 */
export function nextFit(fit: CardFit, pages: readonly PageMeasure[]): CardFit | null {
  const { points, strokesOnPages } = fit;
  const isOver = pages.some(({ height }) => height > 1);
  if (strokesOnPages.length === 1 && !isOver) {
    const larger = points + STEP_POINTS;
    return larger > LARGEST_POINTS || larger >= fit.over ? null : { ...fit, fits: points, points: larger };
  }
  if (!isOver) return null;
  if (points > SMALLEST_POINTS) {
    // Lines and what a line holds both go with the type: as high as the page it is where their product is.
    const guess = Math.floor(points / Math.sqrt(pages[0]?.height ?? 1) / STEP_POINTS) * STEP_POINTS;
    return { ...fit, over: points, points: Math.max(SMALLEST_POINTS, fit.fits, Math.min(points - STEP_POINTS, guess)) };
  }
  const counts = [...strokesOnPages];
  let moved = false;
  for (const [page, measure] of pages.entries()) {
    const count = counts[page] ?? 0;
    // What stands at a card's end goes overleaf with the first stroke: how much room that leaves is seen then.
    const atOnce = page === pages.length - 1 ? 1 : count - 1;
    const overleaf = Math.min(strokesOver(measure), atOnce, count - 1);
    // A stroke that fills a page by itself stays: it cannot be halved.
    if (overleaf <= 0) continue;
    counts[page] = count - overleaf;
    counts[page + 1] = (counts[page + 1] ?? 0) + overleaf;
    moved = true;
  }
  return moved ? { ...fit, strokesOnPages: counts } : null;
}

/** How many strokes at the end of a page are more than it holds. */
function strokesOver({ height, rows }: PageMeasure): number {
  let left = height;
  let count = 0;
  while (left > 1 && count < rows.length) {
    count += 1;
    left -= rows.at(-count) ?? 0;
  }
  return count;
}
