const FIRST_BOUND_SECONDS = 2;
const LONGEST_SECONDS = 30;

/**
 * How long to wait before the next attempt: a bound that doubles, 2, 4, 8, 16, 30, 30 s, of which a random share from
 * a half to the whole is waited, so that many devices that lost the same link do not come back together. From 1 to 30.
 *
 * @param failures in a row so far, 0 or more
 * @param random from 0 to 1
 */
export function backoffSeconds(failures: number, random: number): number {
  const boundSeconds = Math.min(LONGEST_SECONDS, FIRST_BOUND_SECONDS * 2 ** Math.min(failures, 10));
  return (boundSeconds * (1 + random)) / 2;
}
