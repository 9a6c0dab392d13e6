import type { Puff } from './simulated-flight.ts';

/** Smoke at a moment: what was laid above or below its layer has gone with its own air since. */
export function slippedSmoke(trails: readonly (readonly Puff[])[], atSeconds: number): Puff[][] {
  return trails.map((trail) =>
    trail.map((puff) => {
      const age = Math.max(0, atSeconds - puff.atSeconds);
      const { eastMetresPerSecond = 0, northMetresPerSecond = 0 } = puff.slip ?? {};
      return { ...puff, airEastMetres: puff.airEastMetres + age * eastMetresPerSecond, airNorthMetres: puff.airNorthMetres + age * northMetresPerSecond };
    }),
  );
}
