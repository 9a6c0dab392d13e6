import { variationDegrees } from '../core/earth/magnetic-variation.ts';
import type { GeodeticPoint } from '../core/earth/site-frame.ts';
import type { SkyDirection } from '../core/earth/sun.ts';
import { positiveRadians, radiansFromDegrees } from '../core/units/angle.ts';
import { compassPlatform, followCompass } from '../sensors/compass.ts';

/** Where the device points, by true north. */
export type CompassPointing =
  | { readonly kind: 'pointing'; readonly direction: SkyDirection; readonly errorDegrees: number | null }
  | { readonly kind: 'nowhere' | 'silent' | 'refused' | 'unsupported' };

/** Follows the device's compass, corrected by the variation at a place, until the returned function is called. */
export function compassPointing(place: GeodeticPoint, epochMilliseconds: number, onPointing: (pointing: CompassPointing) => void): () => void {
  const variation = variationDegrees(place, 0, epochMilliseconds);
  const eastRadians = variation.ok ? radiansFromDegrees(variation.variationDegrees) : 0;
  return followCompass(compassPlatform(), (reading) => {
    if (reading.kind !== 'pointing') onPointing(reading);
    else {
      const { azimuthRadians, elevationRadians } = reading.magnetic;
      onPointing({
        kind: 'pointing',
        direction: { azimuthRadians: positiveRadians(azimuthRadians + eastRadians), elevationRadians },
        errorDegrees: reading.errorDegrees,
      });
    }
  });
}
