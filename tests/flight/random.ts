/** Uniform numbers in [0, 1) from a seed: mulberry32 (Tommy Ettinger, 2017, public domain). */
export function uniformFrom(seed: number): () => number {
  let state = seed >>> 0;
  return () => {
    state = (state + 0x6d2b79f5) >>> 0;
    let mixed = state;
    mixed = Math.imul(mixed ^ (mixed >>> 15), mixed | 1);
    mixed ^= mixed + Math.imul(mixed ^ (mixed >>> 7), mixed | 61);
    return ((mixed ^ (mixed >>> 14)) >>> 0) / 4_294_967_296;
  };
}

/** Normal numbers, mean 0 and variance 1 (Box and Muller 1958). */
export function normalFrom(uniform: () => number): () => number {
  return () => Math.sqrt(-2 * Math.log(1 - uniform())) * Math.cos(2 * Math.PI * uniform());
}

/**
 * A slowly wandering quantity of mean 0: the Ornstein-Uhlenbeck process with this standard deviation and this
 * correlation time, stepped exactly.
 */
export function wanderFrom(normal: () => number, sigma: number, correlationSeconds: number): (dtSeconds: number) => number {
  let value = sigma * normal();
  return (dtSeconds) => {
    const keep = Math.exp(-dtSeconds / correlationSeconds);
    value = value * keep + sigma * Math.sqrt(1 - keep * keep) * normal();
    return value;
  };
}
