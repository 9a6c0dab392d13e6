import { type Site, siteFromGeodetic } from '../../core/earth/site-frame.ts';
import { type WindVector, windVectorFrom } from '../../core/earth/wind-vector.ts';
import { airFromSite } from '../../core/plan/place.ts';
import type { Trail, TrailPoint } from '../../core/sky/trail.ts';
import { radiansFromDegrees } from '../../core/units/angle.ts';
import type { GroundHanging } from './ground-hanging.ts';
import { type LinkInstant } from '../../link/link-clock.ts';
import { freshness, type LaidSmoke, ourMilliseconds, type ShipFreshness, type ShipSeen } from '../../link/ship-seen.ts';

/** Where smoke that was told lies, and when it was laid. */
export interface SeenSkyFrame {
  readonly site: Site;
  readonly layerHeightMetres: number;
  /** With which it drifts. */
  readonly wind: WindVector;
  /** By this device's clock. */
  readonly datumMilliseconds: number;
  /** What a metre of each ship's smoke weighs. */
  readonly kilogramsPerMetre: (shipIndex: number) => number;
}

/** A ship as it is marked in a picture. */
export interface ShipMark {
  readonly device: string;
  readonly shipIndex: number | null;
  readonly name: string;
  readonly fresh: ShipFreshness;
  readonly smoke: 'on' | 'off' | null;
  readonly place: { readonly eastMetres: number; readonly northMetres: number; readonly upMetres: number } | null;
  /** Over the ground, clockwise from true north. */
  readonly trackRadians: number | null;
}

/** The trails of smoke that ships told they laid, in the frame of a sky picture; none while their clock is in doubt. */
export function trailsFromShips(ships: readonly ShipSeen[], frame: SeenSkyFrame): Trail[] {
  return ships.flatMap((ship) => {
    const tail: LaidSmoke = { ...tailLetter(ship), points: ship.tail };
    const joined = [...ship.laid, tail].filter(({ points }) => points.length >= 2);
    return joined.flatMap((laid, index): Trail[] => {
      const points = laid.points.flatMap((point): TrailPoint[] => {
        const milliseconds = ourMilliseconds(ship, point.atMilliseconds);
        if (milliseconds === null) return [];
        const laidAtSeconds = (milliseconds - frame.datumMilliseconds) / 1000;
        return [{ ...airFromSite(siteFromGeodetic(point, frame.layerHeightMetres, frame.site), frame.wind, laidAtSeconds), laidAtSeconds }];
      });
      if (points.length < 2) return [];
      const shipIndex = ship.shipIndex ?? 0;
      return [
        {
          shipIndex,
          letterIndex: laid.letterIndex ?? index,
          character: laid.character ?? '',
          points,
          kilogramsPerMetre: frame.kilogramsPerMetre(shipIndex),
          heightStepMetres: 0,
        },
      ];
    });
  });
}

/** Every ship with what is known of its place and how far to trust it. */
export function marksFromShips(ships: readonly ShipSeen[], site: Site, layerHeightMetres: number, now: LinkInstant): ShipMark[] {
  return ships.map((ship) => {
    const fix = ship.last?.state.fix ?? null;
    return {
      device: ship.device,
      shipIndex: ship.shipIndex,
      name: ship.name,
      fresh: freshness(ship, now),
      smoke: ship.last?.state.smoke ?? null,
      place: fix === null ? null : siteFromGeodetic(fix, fix.altitudeMetres ?? layerHeightMetres, site),
      trackRadians: fix?.trackDegreesTrue == null ? null : radiansFromDegrees(fix.trackDegreesTrue),
    };
  });
}

/** The wind a live ship measured last, or null: then that of the plan stands, see {@link windSource}. */
export function windFromShips(ships: readonly ShipSeen[]): WindVector | null {
  const measured = ships
    .flatMap(({ last }) =>
      last === null || last.retained || last.state.windFromDegreesTrue === null || last.state.windSpeedMetresPerSecond === null
        ? []
        : [{ at: last.at.monotonicMilliseconds, from: last.state.windFromDegreesTrue, speed: last.state.windSpeedMetresPerSecond }],
    )
    .sort((one, other) => one.at - other.at)
    .at(-1);
  return measured === undefined ? null : windVectorFrom({ fromRadians: radiansFromDegrees(measured.from), speedMetresPerSecond: measured.speed });
}

/** Whose wind the pictures go by: the ships' own, else the one that the word is hung for, else the forecast's. */
export function windSource(measured: WindVector | null, hung: GroundHanging): 'measured' | 'found' | 'forecast' {
  if (measured !== null) return 'measured';
  return hung.wind === null ? 'forecast' : 'found';
}

function tailLetter({ last, laid }: ShipSeen): Pick<LaidSmoke, 'letterIndex' | 'character'> {
  const character = last?.state.character ?? null;
  const before = laid.at(-1);
  return { character, letterIndex: before?.character === character ? (before?.letterIndex ?? null) : null };
}
