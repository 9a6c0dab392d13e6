/** Waits between the first attempts, and from then on. */
const WAITS_MILLISECONDS = [1000, 2000, 4000, 8000];
const LONGEST_MILLISECONDS = 15_000;

/**
 * Asks until it is answered, with growing waits: a store that does not answer at the start may do so a little later, and
 * nothing else would ask it again.
 *
 * @param ask true once it was answered
 * @param after calls back after a while, as setTimeout does
 */
export async function askAgain(ask: () => Promise<boolean>, after: (call: () => void, milliseconds: number) => unknown = setTimeout): Promise<void> {
  for (let attempt = 0; !(await ask()); attempt += 1) {
    await new Promise<void>((resolve) => void after(resolve, WAITS_MILLISECONDS[attempt] ?? LONGEST_MILLISECONDS));
  }
}
