import type { LetterPoint } from '../../src/core/letters/letter-path.ts';
import type { Puff } from './simulated-flight.ts';

/**
 * Smoke as someone below sees it who looks along `facingDegrees`: x to the right, y towards the viewer's zenith and
 * beyond, so that what lies nearer stands higher. Written out in bearings, apart from the app's own mirror.
 */
export function seenFromBelow(trails: readonly (readonly Puff[])[], facingDegrees: number): LetterPoint[][] {
  const facing = (facingDegrees * Math.PI) / 180;
  return trails
    .filter((trail) => trail.length > 1)
    .map((trail) =>
      trail.map(({ airEastMetres, airNorthMetres }) => {
        const ahead = airEastMetres * Math.sin(facing) + airNorthMetres * Math.cos(facing);
        const right = airEastMetres * Math.cos(facing) - airNorthMetres * Math.sin(facing);
        return { xMetres: right, yMetres: -ahead };
      }),
    );
}
