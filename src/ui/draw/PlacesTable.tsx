import type { VNode } from 'preact';
import { placeSights, weighed } from '../../core/checks/place-sights.ts';
import { SUN_MARGIN_RADIANS } from '../../core/place/facing-choice.ts';
import type { PlannedJob } from '../../core/plan/planned-job.ts';
import type { Reading } from '../../core/sky/reading-of.ts';
import { formatBearing, formatDuration, formatNumber } from '../../core/text/number-formats.ts';
import { degreesFromRadians, positiveDegrees } from '../../core/units/angle.ts';
import { LEVEL_DEGREES } from './turn-text.ts';
import { useUnitText } from '../fields/units-context.ts';

export interface PlacesTableProps {
  readonly planned: PlannedJob;
  readonly sky: Reading;
  readonly variationDegrees: number | null;
}

/** From every viewing place at the read time: where the word hangs, how it stands, and until when it reads from there. */
export function PlacesTable({ planned, sky, variationDegrees }: PlacesTableProps): VNode | null {
  const units = useUnitText();
  if (planned.job.viewingPlaces.length === 0) return null;
  const sights = placeSights(planned, sky);
  const degrees = (radians: number): string => `${formatNumber(degreesFromRadians(radians))}\u00b0`;
  return (
    <div class="scrolls" role="region" tabIndex={0} aria-label="The word from every viewing place">
      <table class="figures sight-table places-table">
        <caption>From every viewing place at the read time, bearings {variationDegrees === null ? 'true' : 'magnetic'}</caption>
        <thead>
          <tr>
            <th scope="col">From</th>
            <th scope="col" class="number">
              Of the crowd
            </th>
            <th scope="col" class="number">
              Bearing
            </th>
            <th scope="col" class="number">
              Up
            </th>
            <th scope="col" class="number">
              Slant, {units.crowdDistance.unit}
            </th>
            <th scope="col" class="number">
              Askew
            </th>
            <th scope="col" class="number">
              Letter
            </th>
            <th scope="col" class="number">
              Sun off
            </th>
            <th scope="col">Reads until</th>
          </tr>
        </thead>
        <tbody>
          {sights.map(({ name, share, look, turnRadians, letterDepthRadians, sunRadians, untilSeconds, endedBy }, index) => (
            <tr key={index} data-place={index} data-share={share.toFixed(4)} data-elevation-degrees={degreesFromRadians(look.elevationRadians).toFixed(2)}>
              <th scope="row">{name === '' ? (index === 0 ? 'The site' : `Place ${index}`) : name}</th>
              <td class="number">{formatNumber(100 * share)} %</td>
              <td class="number">
                {formatBearing(positiveDegrees(degreesFromRadians(look.azimuthRadians) - (variationDegrees ?? 0)))}
                {'\u00b0'}
              </td>
              <td class="number">{look.elevationRadians > 0 ? degrees(look.elevationRadians) : 'set'}</td>
              <td class="number">{units.crowdDistance.number(look.rangeMetres, 1)}</td>
              <td class="number">
                {degrees(Math.abs(turnRadians))}
                {Math.abs(degreesFromRadians(turnRadians)) > LEVEL_DEGREES && <strong> !</strong>}
              </td>
              <td class="number">{formatNumber(60 * degreesFromRadians(letterDepthRadians))}&prime;</td>
              <td class="number">
                {sunRadians === null ? 'down' : degrees(sunRadians)}
                {sunRadians !== null && sunRadians < SUN_MARGIN_RADIANS && <strong> !</strong>}
              </td>
              <td>
                {endedBy === 'never large enough'
                  ? 'too small from here'
                  : `${formatDuration(untilSeconds)}${endedBy === 'as the whole' ? '' : ', then too small'}`}
              </td>
            </tr>
          ))}
          <tr>
            <th scope="row">The crowd, weighed</th>
            <td class="number">100 %</td>
            <td />
            <td class="number">{degrees(weighed(sights, ({ look }) => look.elevationRadians))}</td>
            <td class="number">
              {units.crowdDistance.number(
                weighed(sights, ({ look }) => look.rangeMetres),
                1,
              )}
            </td>
            <td class="number">{degrees(weighed(sights, ({ turnRadians }) => Math.abs(turnRadians)))}</td>
            <td class="number">{formatNumber(60 * degreesFromRadians(weighed(sights, ({ letterDepthRadians }) => letterDepthRadians)))}&prime;</td>
            <td />
            <td>{formatDuration(weighed(sights, ({ untilSeconds, endedBy }) => (endedBy === 'never large enough' ? 0 : untilSeconds)))}</td>
          </tr>
        </tbody>
      </table>
      <p class="small">
        The word hangs for the crowd{'\u2019'}s weighted middle. Letter: how deep one shows, in minutes of arc; under 20&prime; it is too small to read. Times
        count from the first smoke; (!) leans by more than {LEVEL_DEGREES}
        {'\u00b0'}, or the sun is nearer than {degrees(SUN_MARGIN_RADIANS)}.
      </p>
    </div>
  );
}
