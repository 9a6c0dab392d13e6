import type { VNode } from 'preact';
import { useMemo } from 'preact/hooks';
import { bearingDistance } from '../../core/earth/bearing-distance.ts';
import { jobVariation } from '../../core/job/job-variation.ts';
import { geodeticFromSite } from '../../core/earth/geodetic-from-site.ts';
import { type GeodeticPoint, siteDistanceMetres } from '../../core/earth/site-frame.ts';
import { siteFromAir } from '../../core/plan/place.ts';
import type { Landmark, Overlay } from '../../core/place/overlay.ts';
import type { DriftCorridor } from '../../core/place/drift-corridor.ts';
import { toldCorridor } from '../../core/place/told-corridor.ts';
import type { ReadableRadius } from '../../core/sky/readable-radius.ts';
import { degreesFromRadians, positiveDegrees } from '../../core/units/angle.ts';
import { FigureRow } from '../fields/FigureRow.tsx';
import { formatBearing, formatDuration, formatLatitude, formatLongitude } from '../../core/text/number-formats.ts';
import { circleWords } from '../words/circle-words.ts';
import { bothClocks } from '../words/clock.ts';
import type { PlannedJob } from '../../core/plan/planned-job.ts';
import { useDesk } from './desk-context.ts';
import { NamedPoints } from './NamedPoints.tsx';
import { missingWindWords } from '../../core/job/job-air.ts';
import type { Reading } from '../../core/sky/reading-of.ts';
import { PlacesTable } from './PlacesTable.tsx';
import { SightTable } from './SightTable.tsx';
import { useUnitText } from '../fields/units-context.ts';

export interface PlacementFiguresProps {
  readonly planned: PlannedJob;
  readonly sky: Reading;
  readonly corridor: DriftCorridor;
  /** At the read time. */
  readonly readable: ReadableRadius;
}

const LANDMARKS_SHOWN = 4;

/** Where to be and when: first smoke, the text's middle, the drift. */
export function PlacementFigures({ planned, sky, corridor, readable }: PlacementFiguresProps): VNode {
  const { job, plan, air, readSeconds } = planned;
  const { overlay } = useDesk().overlay;
  const units = useUnitText();
  const readMilliseconds = Date.parse(job.readTime);
  const firstMilliseconds = readMilliseconds - readSeconds * 1000;
  const variation = jobVariation(job, air.layerHeightMetres, readMilliseconds);
  const geodetic = (point: { readonly eastMetres: number; readonly northMetres: number }): GeodeticPoint =>
    geodeticFromSite(point, air.layerHeightMetres, air.site);
  const firstSmoke = geodetic(corridor.firstSmoke);
  const middleAtRead = siteFromAir(plan.frame.middle, air.wind, readSeconds);
  const told = useMemo(() => toldCorridor(plan, air, sky.window), [plan, air, sky]);
  const toldCentre = geodetic(told.corridor.wholeCircle.centre);
  const landmarks = overlay.value === null ? [] : nearestLandmarks(overlay.value, firstSmoke);
  const from = (place: GeodeticPoint, named: string, point: GeodeticPoint): string => {
    const { bearingRadians, distanceMetres } = bearingDistance(place, point);
    const trueDegrees = degreesFromRadians(bearingRadians);
    const magnetic = variation.ok
      ? `${formatBearing(positiveDegrees(trueDegrees - variation.variationDegrees))}\u00b0 magnetic`
      : `${formatBearing(trueDegrees)}\u00b0 true`;
    return `${magnetic}, ${units.distance.text(distanceMetres, 1)} from ${named}`;
  };
  const clock = (milliseconds: number): string => bothClocks(milliseconds, job.site.timeZone);
  return (
    <div class="placement-figures">
      {air.windMissing !== null && <p class="fault">{missingWindWords(air)}</p>}
      <dl class="figure-rows">
        <FigureRow
          label="First smoke at"
          name="first-smoke"
          value={`${firstSmoke.latitudeDegrees.toFixed(6)},${firstSmoke.longitudeDegrees.toFixed(6)}`}
          note={from(job.site, 'the site', firstSmoke)}
        >
          {formatLatitude(firstSmoke.latitudeDegrees)} {formatLongitude(firstSmoke.longitudeDegrees)}
        </FigureRow>
        <FigureRow label="First smoke when" note={`${formatDuration(readSeconds)} before the read time`}>
          {clock(firstMilliseconds)}
        </FigureRow>
        <FigureRow
          label="Text's middle, first smoke"
          name="middle-at-first-smoke"
          note={from(job.site, 'the site', geodetic(siteFromAir(plan.frame.middle, air.wind, 0)))}
        >
          {pointText(geodetic(siteFromAir(plan.frame.middle, air.wind, 0)))}
        </FigureRow>
        <FigureRow
          label="Text's middle, read time"
          note={`${units.crowdDistance.text(siteDistanceMetres(middleAtRead), 1)} over the ground, ${units.crowdDistance.number(Math.hypot(siteDistanceMetres(middleAtRead), air.layerAboveSiteMetres), 1)} along the sight`}
        >
          {pointText(geodetic(middleAtRead))}
        </FigureRow>
        <FigureRow
          label="Drift in all"
          note={`Until ${formatDuration(corridor.stations.at(-1)?.atSeconds ?? 0)} after the first smoke, the end of the map\u2019s corridor`}
        >
          {units.crowdDistance.text(corridor.driftedMetres, 1)}
        </FigureRow>
        <FigureRow
          label="Read on the ground within"
          name="readable-radius-metres"
          value={readable.radiusMetres.toFixed(0)}
          note={readableNote(readable, planned.air.visibilityMetres)}
        >
          {readable.radiusMetres > 0 ? units.crowdDistance.text(readable.radiusMetres) : 'nowhere'}
        </FigureRow>
        <FigureRow
          label="Smoke and ships within"
          note={`As the controller is told, until about ${clock(firstMilliseconds + told.untilSeconds * 1000)}; its middle ${from(job.site, 'the site', toldCentre)}`}
        >
          {circleWords(told.corridor.wholeCircle.radiusMetres, toldCentre, units.distance)}
        </FigureRow>
      </dl>
      <SightTable planned={planned} sky={sky} variationDegrees={variation.ok ? variation.variationDegrees : null} />
      <PlacesTable planned={planned} sky={sky} variationDegrees={variation.ok ? variation.variationDegrees : null} />
      {landmarks.length > 0 && (
        <ul class="small">
          {landmarks.map(({ name, latitudeDegrees, longitudeDegrees, topFeet }) => (
            <li key={`${latitudeDegrees}/${longitudeDegrees}`}>
              First smoke {from({ latitudeDegrees, longitudeDegrees }, name === '' ? 'a landmark without a name' : name, firstSmoke)}
              {topFeet === null ? '' : `, its top ${units.height.own(topFeet)} above sea level`}
            </li>
          ))}
        </ul>
      )}
      <NamedPoints say={(place, name) => from(place, name, firstSmoke)} />
    </div>
  );
}

function readableNote({ radiusMetres, endedBy }: ReadableRadius, visibilityMetres: number | null): string {
  const air = visibilityMetres === null ? ', if the air is clear: no visibility is entered' : '';
  if (radiusMetres === 0) return endedBy === 'faint' ? 'At the read time it is too faint to read' : 'The letters are too small for this height';
  return `Of the point below the text, at the read time${air}. Farther off the letters are ${endedBy === 'faint' ? 'too faint' : 'too small'}; from the side the word stands askew`;
}

/** The overlay's landmarks nearest to a point. */
function nearestLandmarks({ landmarks }: Overlay, point: GeodeticPoint): Landmark[] {
  return landmarks
    .map((landmark) => ({ landmark, distanceMetres: bearingDistance(landmark, point).distanceMetres }))
    .sort((one, other) => one.distanceMetres - other.distanceMetres)
    .slice(0, LANDMARKS_SHOWN)
    .map(({ landmark }) => landmark);
}

function pointText(point: GeodeticPoint): string {
  return `${formatLatitude(point.latitudeDegrees)} ${formatLongitude(point.longitudeDegrees)}`;
}
