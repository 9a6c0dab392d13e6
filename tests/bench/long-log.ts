import { geodeticFromSite } from '../../src/core/earth/geodetic-from-site.ts';
import type { FlightEvent } from '../../src/core/guidance/flight-event.ts';
import type { FlightSetup } from '../../src/core/guidance/flight-setup.ts';
import { normalFrom, uniformFrom } from '../flight/random.ts';

export const LONG_HOURS = 3;
export const LONG_RATE_HERTZ = 5;

/**
 * Three hours of racetracks in air that moves, five fixes a second of 3 m: events as they come out of the store.
 *
 * @param index sets where and with what noise
 * @param ticksPerFix how often the clock's own ticks were logged between two fixes
 */
export function longLog(index: number, setup: FlightSetup, ticksPerFix = 0): FlightEvent[] {
  const normal = normalFrom(uniformFrom(index + 1));
  const wall = Date.UTC(2027, 6, 17, 15);
  const events: FlightEvent[] = [{ kind: 'flightStarted', setup, atSeconds: 0, wallMilliseconds: wall }];
  let [east, north, heading] = [400 * index, 0, 0];
  for (let step = 1; step <= LONG_HOURS * 3600 * LONG_RATE_HERTZ; step += 1) {
    const atSeconds = step / LONG_RATE_HERTZ;
    if (atSeconds % 90 > 54) heading += 0.175 / LONG_RATE_HERTZ;
    east += (54 * Math.cos(heading) + 6) / LONG_RATE_HERTZ;
    north += (54 * Math.sin(heading) + 3) / LONG_RATE_HERTZ;
    for (let tick = ticksPerFix; tick > 0; tick -= 1) {
      const tickSeconds = atSeconds - tick / (LONG_RATE_HERTZ * (ticksPerFix + 1));
      events.push({ kind: 'clockAdvanced', atSeconds: tickSeconds, wallMilliseconds: wall + tickSeconds * 1000 });
    }
    const place = geodeticFromSite({ eastMetres: east + 3 * normal(), northMetres: north + 3 * normal() }, setup.layerHeightMetres, setup.site);
    events.push({
      kind: 'fixReceived',
      atSeconds,
      wallMilliseconds: wall + atSeconds * 1000,
      fix: { ...place, accuracyMetres: 7, altitudeMetres: null, groundSpeedMetresPerSecond: null, trackDegrees: null, stampMilliseconds: null },
    });
  }
  return events;
}
