/** One number of a show: what it is, what was found, what it must be, and whether it is. */
export interface Figure {
  readonly name: string;
  readonly value: string;
  /** Empty for what is only reported. */
  readonly limit: string;
  readonly ok: boolean;
}

/** What a show found: its figures, and the one that a reader should keep, printed last. */
export interface Shown {
  readonly figures: readonly Figure[];
  readonly headline: Figure;
}

function withUnit(value: number, unit: string, digits: number): string {
  return `${value.toFixed(digits)}${unit === '' ? '' : ` ${unit}`}`;
}

/** A figure that must be `limit` or more. */
export function atLeast(name: string, value: number, limit: number, unit: string, digits: number): Figure {
  return { name, value: withUnit(value, unit, digits), limit: `at least ${withUnit(limit, unit, digits)}`, ok: value >= limit };
}

/** A figure that must be `limit` or less. */
export function atMost(name: string, value: number, limit: number, unit: string, digits: number): Figure {
  return { name, value: withUnit(value, unit, digits), limit: `at most ${withUnit(limit, unit, digits)}`, ok: value <= limit };
}

/** A figure that must lie between two limits. */
export function between(name: string, value: number, least: number, most: number, unit: string, digits: number): Figure {
  return {
    name,
    value: withUnit(value, unit, digits),
    limit: `${least.toFixed(digits)} to ${withUnit(most, unit, digits)}`,
    ok: value >= least && value <= most,
  };
}

/** What a reader should know beside the figures; it has no limit. */
export function reported(name: string, value: string): Figure {
  return { name, value, limit: '', ok: true };
}

/** The lines of a show, each figure with its limit and OK or SHORT, the headline last. */
export function shownLines({ figures, headline }: Shown): string[] {
  const limited = [...figures, headline].filter(({ limit }) => limit !== '');
  const width = (all: readonly Figure[], textOf: (figure: Figure) => string): number => Math.max(0, ...all.map((figure) => textOf(figure).length));
  const names = width([...figures, headline], ({ name }) => name);
  const values = width(limited, ({ value }) => value);
  const limits = width(limited, ({ limit }) => limit);
  const line = ({ name, value, limit, ok }: Figure): string =>
    limit === '' ? `${name.padEnd(names)}  ${value}` : `${name.padEnd(names)}  ${value.padStart(values)}  ${limit.padEnd(limits)}  ${ok ? 'OK' : 'SHORT'}`;
  return [...figures.map(line), '', line(headline)];
}

/** Prints a show; the process ends with 1 when a figure falls short. */
export function printShown(shown: Shown): void {
  for (const line of shownLines(shown)) console.log(line);
  if ([...shown.figures, shown.headline].some(({ ok }) => !ok)) process.exitCode = 1;
}
