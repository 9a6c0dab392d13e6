import type { Trail, TrailPoint } from '../sky/trail.ts';
import { airMomentAt } from './air-track.ts';
import type { ShipDebrief } from './ship-debrief.ts';

/** Points of a trail stand this far apart in time: 54 m at 104 kt, the chord of an arc of 280 m leaves it by 1.3 m. */
const STEP_SECONDS = 1;

/**
 * The smoke a flight really laid, as the sky's computations take it: in the air-mass frame of the datum, times since
 * the datum. Smoke nobody was told to make belongs to no letter and is given the index -1.
 */
export function flownTrails({ log, intervals, air, datumSeconds }: ShipDebrief): Trail[] {
  const { setup } = log;
  if (air === null) return [];
  return intervals.flatMap((interval): Trail[] => {
    const count = Math.max(1, Math.ceil((interval.offSeconds - interval.onSeconds) / STEP_SECONDS));
    const points = Array.from({ length: count + 1 }, (_, step) => interval.onSeconds + ((interval.offSeconds - interval.onSeconds) * step) / count).flatMap(
      (atSeconds): TrailPoint[] => {
        const moment = airMomentAt(air, atSeconds);
        return moment === null ? [] : [{ airEastMetres: moment.airEastMetres, airNorthMetres: moment.airNorthMetres, laidAtSeconds: atSeconds - datumSeconds }];
      },
    );
    if (points.length < 2) return [];
    const stroke = interval.strokeIndex === null ? undefined : setup.strokes[interval.strokeIndex];
    return [
      {
        shipIndex: setup.shipIndex,
        letterIndex: stroke?.letterIndex ?? -1,
        character: stroke?.character ?? '',
        points,
        kilogramsPerMetre: setup.oilKilogramsPerSecond / setup.trueAirspeedMetresPerSecond,
        heightStepMetres: 0,
      },
    ];
  });
}
