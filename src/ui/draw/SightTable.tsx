import type { VNode } from 'preact';
import { siteDistanceMetres } from '../../core/earth/site-frame.ts';
import { siteFromAir } from '../../core/plan/place.ts';
import { lookToAir } from '../../core/sky/look-plan.ts';
import { shownTurnRadians } from '../../core/sky/perspective.ts';
import { degreesFromRadians, positiveDegrees } from '../../core/units/angle.ts';
import { formatBearing, formatDuration, formatNumber } from '../../core/text/number-formats.ts';
import type { PlannedJob } from '../../core/plan/planned-job.ts';
import type { Reading } from '../../core/sky/reading-of.ts';
import { LEVEL_DEGREES } from './turn-text.ts';
import { useUnitText } from '../fields/units-context.ts';

export interface SightTableProps {
  readonly planned: PlannedJob;
  readonly sky: Reading;
  /** East positive; null where headings are true. */
  readonly variationDegrees: number | null;
}

/** From the site, where the text's middle hangs from the first smoke to the end of reading. */
export function SightTable({ planned: { job, plan, air, readSeconds }, sky: { window }, variationDegrees }: SightTableProps): VNode {
  const { crowdDistance } = useUnitText();
  const unit = crowdDistance.unit.replace('statute ', '');
  const moments = [
    { label: 'First smoke', atSeconds: 0 },
    { label: 'All written', atSeconds: window.fromSeconds },
    { label: 'Read time', atSeconds: readSeconds },
    { label: 'Reads till, soonest', atSeconds: window.until.lowSeconds },
    { label: 'Likely', atSeconds: window.until.likelySeconds },
    { label: 'At the longest', atSeconds: window.until.highSeconds },
  ].sort((one, other) => one.atSeconds - other.atSeconds);
  return (
    <div class="scrolls" role="region" tabIndex={0} aria-label="Where the text hangs from the site, over time">
      <table class="figures sight-table">
        <caption>
          The text's middle from {job.viewingPlaces.length === 0 ? 'the site' : 'the crowd\u2019s middle'}, bearings{' '}
          {variationDegrees === null ? 'true' : 'magnetic'}
        </caption>
        <thead>
          <tr>
            <th scope="col">When</th>
            <th scope="col" class="number">
              Min
            </th>
            <th scope="col" class="number">
              Bearing
            </th>
            <th scope="col" class="number">
              Up
            </th>
            <th scope="col" class="number">
              Ground, {unit}
            </th>
            <th scope="col" class="number">
              Slant, {unit}
            </th>
            <th scope="col" class="number">
              Askew
            </th>
          </tr>
        </thead>
        <tbody>
          {moments.map(({ label, atSeconds }) => {
            const middle = siteFromAir(plan.frame.middle, air.wind, atSeconds);
            const { azimuthRadians, elevationRadians, rangeMetres } = lookToAir(plan.frame.middle, atSeconds, {
              eye: { eastMetres: 0, northMetres: 0, upMetres: 0 },
              wind: air.wind,
              layerAboveSiteMetres: air.layerAboveSiteMetres,
            });
            const turnDegrees = Math.abs(degreesFromRadians(shownTurnRadians(azimuthRadians, plan.frame.facingRadians, elevationRadians)));
            return (
              <tr key={label} data-moment={label} data-elevation-degrees={degreesFromRadians(elevationRadians).toFixed(2)}>
                <th scope="row">{label}</th>
                <td class="number">{formatDuration(atSeconds)}</td>
                <td class="number">
                  {formatBearing(positiveDegrees(degreesFromRadians(azimuthRadians) - (variationDegrees ?? 0)))}
                  {'\u00b0'}
                </td>
                <td class="number">{elevationRadians > 0 ? `${formatNumber(degreesFromRadians(elevationRadians))}\u00b0` : 'set'}</td>
                <td class="number">{crowdDistance.number(siteDistanceMetres(middle), 1)}</td>
                <td class="number">{crowdDistance.number(rangeMetres, 1)}</td>
                <td class="number">
                  {formatNumber(turnDegrees)}
                  {'\u00b0'}
                  {turnDegrees > LEVEL_DEGREES && <strong> !</strong>}
                </td>
              </tr>
            );
          })}
        </tbody>
      </table>
      <p class="small">
        Askew: how far the word's line leans in the eye. Beyond {LEVEL_DEGREES}
        {'\u00b0'} (!) it is read worse.
      </p>
    </div>
  );
}
