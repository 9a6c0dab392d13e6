import type { GeodeticPoint } from '../../core/earth/site-frame.ts';
import { formatLatitude, formatLongitude } from '../../core/text/number-formats.ts';
import type { Measure } from '../../core/text/unit-text.ts';

/** `7.1 NM of 43° 53.51′ N 079° 14.10′ W`, to the next tenth: a circle rounded down would leave part of what it stands for outside. */
export function circleWords(radiusMetres: number, centre: GeodeticPoint, distance: Measure): string {
  const radius = distance.text(distance.rounded(radiusMetres, 0.1, 'up'), 1);
  return `${radius} of ${formatLatitude(centre.latitudeDegrees)} ${formatLongitude(centre.longitudeDegrees)}`;
}
