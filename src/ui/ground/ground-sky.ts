import { useComputed, type ReadonlySignal } from '@preact/signals';
import { marksFromShips, type SeenSkyFrame, type ShipMark, trailsFromShips, windFromShips, windSource } from '../../app/ground/seen-sky.ts';
import type { GroundPlan } from '../../app/ground/ground-plan.ts';
import type { WindVector } from '../../core/earth/wind-vector.ts';
import type { Trail } from '../../core/sky/trail.ts';
import { kilogramsFromPounds, metresPerSecondFromKnots } from '../../core/units/quantity.ts';
import { useApplication } from '../application-context.ts';
import { useGround } from './ground-context.ts';

/** What the pictures of the Ground screen show: ships as they told, and smoke as laid, or as planned while none was. */
export interface GroundSky {
  readonly marks: readonly ShipMark[];
  readonly trails: readonly Trail[];
  readonly smokeIs: 'told' | 'planned';
  /** With which the smoke drifts, and whose it is. */
  readonly wind: WindVector;
  readonly windIs: 'measured' | 'found' | 'forecast';
}

const SECONDS_PER_MINUTE = 60;

/** The sky over the link, or by the plan without one. */
export function useGroundSky(plan: GroundPlan): ReadonlySignal<GroundSky> {
  const { link } = useApplication();
  const { job, datum, hung, now, receiver } = useGround();
  return useComputed(() => {
    const ships = link.room.value?.ships ?? [];
    const { site, layerHeightMetres } = plan.air;
    const measured = windFromShips(ships);
    const wind = measured ?? plan.air.wind;
    const frame: SeenSkyFrame = {
      site,
      layerHeightMetres,
      wind,
      datumMilliseconds: datum.value?.datumMilliseconds ?? 0,
      kilogramsPerMetre: (shipIndex) => {
        const ship = job.ships[shipIndex] ?? job.ships[0];
        return ship === undefined
          ? 0
          : kilogramsFromPounds(ship.smokeOilPoundsPerMinute) / SECONDS_PER_MINUTE / metresPerSecondFromKnots(ship.trueAirspeedKnots);
      },
    };
    const told = trailsFromShips(ships, frame);
    const followed = receiver.mark.value;
    return {
      marks: [...marksFromShips(ships, site, layerHeightMetres, now.value), ...(followed === null ? [] : [followed])],
      trails: told.length > 0 ? told : plan.trails,
      smokeIs: told.length > 0 ? 'told' : 'planned',
      wind,
      windIs: windSource(measured, hung.value),
    };
  });
}
