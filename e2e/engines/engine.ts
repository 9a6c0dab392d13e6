/** A browser engine that is driven from outside by a public protocol. */
export interface Engine {
  readonly name: string;
  open(address: string): Promise<void>;
  /** The value of an expression in the page, awaited when it is a promise; it must be what JSON can hold. */
  evaluate(expression: string): Promise<unknown>;
  close(): Promise<void>;
}

/** Asks again until the expression is true; fails with what it was at last. */
export async function until(engine: Engine, what: string, expression: string, longestSeconds = 30): Promise<void> {
  const startedAt = performance.now();
  let last: unknown;
  for (;;) {
    last = await engine.evaluate(expression).catch((error: unknown) => String(error));
    if (last === true) return;
    if (performance.now() - startedAt > longestSeconds * 1000)
      throw new Error(`${engine.name}: not within ${longestSeconds} s: ${what} (${JSON.stringify(last)})`);
    await new Promise((resolve) => setTimeout(resolve, 250));
  }
}
