/** Numbers that look random and are the same for the same seed. */
export interface SeededRandom {
  /** In [0, 1). */
  next(): number;
  /** A whole number in [0, count). */
  below(count: number): number;
  /** A seed with which another generator goes on where this one stands. */
  state(): number;
}

/** A 32-bit generator of the mulberry kind (T. Ettinger, 2017, public domain); good enough to shake a search. */
export function seededRandom(seed: number): SeededRandom {
  let state = seed >>> 0;
  const next = (): number => {
    state = (state + 0x6d2b79f5) >>> 0;
    let mixed = Math.imul(state ^ (state >>> 15), 1 | state);
    mixed = (mixed + Math.imul(mixed ^ (mixed >>> 7), 61 | mixed)) ^ mixed;
    return ((mixed ^ (mixed >>> 14)) >>> 0) / 4_294_967_296;
  };
  return { next, below: (count) => Math.floor(next() * count), state: () => state };
}
