/** Share of a file's points that may be unreadable before the whole file is refused. */
const TOLERATED_SHARE = 0.01;
const TOLERATED_ALWAYS = 3;

/** Counts what could not be read, and keeps the first reason with its line. */
export interface ReadFaults {
  add(line: number, reason: string): void;
  /** Why the file is refused, given how many points could be read; null while the damage is small. */
  refusal(readCount: number): string | null;
  /** A sentence on what was left out; none when nothing was. */
  warnings(): readonly string[];
}

/**
 * A file with a few bad points is still a flight, one with many is something else: up to 1 % of the points (or three)
 * may be left out with a warning, beyond that the file is refused.
 */
export function createReadFaults(): ReadFaults {
  let count = 0;
  let first = '';
  return {
    add(line, reason) {
      if (count === 0) first = `line ${line}: ${reason}`;
      count += 1;
    },
    refusal: (readCount) =>
      count > Math.max(TOLERATED_ALWAYS, TOLERATED_SHARE * (readCount + count))
        ? `${count} of ${readCount + count} points cannot be read. First, ${first}.`
        : null,
    warnings: () =>
      count === 0 ? [] : [`${count} ${count === 1 ? 'point that could not be read was' : 'points that could not be read were'} left out. First, ${first}.`],
  };
}
