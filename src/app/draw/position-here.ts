import type { GeodeticPoint } from '../../core/earth/site-frame.ts';

const PATIENCE_MILLISECONDS = 20_000;
/** About a metre. */
const DECIMALS = 5;

/** Where this device is, to about a metre; null where it gives no position, or none in time. Asks for the permission. */
export function positionHere(): Promise<GeodeticPoint | null> {
  return new Promise((resolve) => {
    navigator.geolocation.getCurrentPosition(
      ({ coords }) => resolve({ latitudeDegrees: Number(coords.latitude.toFixed(DECIMALS)), longitudeDegrees: Number(coords.longitude.toFixed(DECIMALS)) }),
      () => resolve(null),
      { enableHighAccuracy: true, timeout: PATIENCE_MILLISECONDS },
    );
  });
}
