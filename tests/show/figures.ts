/** One number of a show: what it is, what was found, what it must be, and whether it is. */
export interface Figure {
  readonly name: string;
  readonly value: string;
  readonly limit: string;
  readonly ok: boolean;
}

/** What a show found: its figures, and the one sentence that a reader should keep. */
export interface Shown {
  readonly figures: readonly Figure[];
  readonly headline: string;
}

/** The lines of a show, each figure with its limit and OK or SHORT, the headline last. */
export function shownLines({ figures, headline }: Shown): string[] {
  const width = (textOf: (figure: Figure) => string): number => Math.max(0, ...figures.map((figure) => textOf(figure).length));
  const names = width(({ name }) => name);
  const values = width(({ value }) => value);
  const limits = width(({ limit }) => limit);
  const rows = figures.map(({ name, value, limit, ok }) => `${name.padEnd(names)}  ${value.padStart(values)}  ${limit.padEnd(limits)}  ${ok ? 'OK' : 'SHORT'}`);
  const short = figures.filter(({ ok }) => !ok).length;
  return [...rows, '', short === 0 ? headline : `${headline} ${short} of ${figures.length} figures fall short.`];
}

/** Prints a show; the process ends with 1 when a figure falls short. */
export function printShown(shown: Shown): void {
  for (const line of shownLines(shown)) console.log(line);
  if (shown.figures.some(({ ok }) => !ok)) process.exitCode = 1;
}
