import { useSignal } from '@preact/signals';
import type { VNode } from 'preact';
import { useEffect, useRef } from 'preact/hooks';
import { compassPointing, type CompassPointing } from '../../app/compass-pointing.ts';
import { separationRadians, sunAt } from '../../core/earth/sun.ts';
import { lookChange } from '../../core/sky/look-device.ts';
import { firstSmokeLook, lookToAir } from '../../core/sky/look-plan.ts';
import { degreesFromRadians } from '../../core/units/angle.ts';
import { jobVariation } from '../../core/job/job-variation.ts';
import { formatBearing, formatNumber } from '../../core/text/number-formats.ts';
import { writtenWords } from '../../core/job/written-words.ts';
import { type LookProps, useGround } from './ground-context.ts';
import { compassWords, seenWords } from './ground-words.ts';
import { highWords } from '../words/high-words.ts';
import { LookDrawing } from './LookDrawing.tsx';
import { useUnitText } from '../fields/units-context.ts';

/** Common practice, no source: nearer to the sun than this the eye is at risk and the smoke lost in the glare. */
const GLARE_DEGREES = 25;
/** Near enough to say that the device points at it. */
const THERE_DEGREES = 8;

/** Where to look for the text: direction, height, and with the device's compass which way to turn. */
export function LookPanel({ plan, sinceDatumSeconds }: LookProps): VNode {
  const units = useUnitText();
  const { job, datum, observerPlace } = useGround();
  const eye = observerPlace.eye.value;
  const compass = useSignal<CompassPointing | null>(null);
  const stop = useRef<() => void>(() => {});
  useEffect(() => () => stop.current(), []);
  const { wind, layerAboveSiteMetres } = plan.air;
  // Before the first smoke the text hangs over its place and waits.
  const look = lookToAir(plan.plan.frame.middle, Math.max(0, sinceDatumSeconds), { eye, wind, layerAboveSiteMetres });
  const first = firstSmokeLook(plan.plan, { eye, wind, layerAboveSiteMetres });
  const azimuth = degreesFromRadians(look.azimuthRadians);
  const elevation = degreesFromRadians(look.elevationRadians);
  const milliseconds = (datum.value?.datumMilliseconds ?? Date.parse(job.readTime)) + sinceDatumSeconds * 1000;
  const sun = sunAt(job.site, milliseconds);
  const glare = degreesFromRadians(separationRadians(look, sun));
  const begin = (): void => {
    stop.current();
    stop.current = compassPointing(job.site, milliseconds, (next) => (compass.value = next));
  };
  const reading = compass.value;
  const variation = jobVariation(job, plan.air.layerHeightMetres, milliseconds);
  const byCompass = (trueDegrees: number): string => (variation.ok ? `, ${formatBearing(trueDegrees - variation.variationDegrees)}° by a hand compass` : '');
  return (
    <section class="ground-look" aria-labelledby="ground-look-title">
      <h2 id="ground-look-title">Where to look</h2>
      <div class="ground-look-body">
        <LookDrawing azimuthRadians={look.azimuthRadians} elevationRadians={look.elevationRadians} text={writtenWords(job)} />
        <div class="ground-look-words">
          <p class="ground-look-figures">
            <strong data-figure="look-azimuth" data-value={azimuth.toFixed(3)}>
              {formatBearing(azimuth)}
              {'\u00b0'}
            </strong>{' '}
            true{byCompass(azimuth)}, {compassWords(azimuth)}
          </p>
          <p class="ground-look-figures">
            <strong data-figure="look-elevation" data-value={elevation.toFixed(3)}>
              {highWords(look.elevationRadians)}
            </strong>
            {seenWords(elevation)}
          </p>
          <p class="quiet small ground-look-range">
            {units.crowdDistance.text(look.rangeMetres, 1)} away, {units.height.text(units.height.rounded(layerAboveSiteMetres - eye.upMetres, 100, 'nearest'))}{' '}
            above you
            {sinceDatumSeconds < 0 ? ', the middle of the text' : ', drifting'}
          </p>
          {sinceDatumSeconds < 0 && first !== null && (
            <p>
              First smoke at{' '}
              <strong data-figure="first-smoke-azimuth" data-value={degreesFromRadians(first.azimuthRadians).toFixed(3)}>
                {formatBearing(degreesFromRadians(first.azimuthRadians))}°
              </strong>{' '}
              true{byCompass(degreesFromRadians(first.azimuthRadians))}, <strong>{highWords(first.elevationRadians)}</strong>
            </p>
          )}
          <CompassLine reading={reading} look={look} onBegin={begin} />
        </div>
      </div>
      {sun.elevationRadians > 0 && glare < GLARE_DEGREES && (
        <p class="notice caution" role="alert">
          The sun stands {formatNumber(glare)}° from the text. Never look into it: hide it behind a roof or a hand.
        </p>
      )}
    </section>
  );
}

interface CompassLineProps {
  readonly reading: CompassPointing | null;
  readonly look: Parameters<typeof lookChange>[1];
  readonly onBegin: () => void;
}

/** What the compass says of where the device points. */
function CompassLine({ reading, look, onBegin }: CompassLineProps): VNode {
  if (reading === null) {
    return (
      <button type="button" onClick={onBegin}>
        Point with this device
      </button>
    );
  }
  if (reading.kind !== 'pointing') {
    const why = {
      silent: 'Waiting for the compass.',
      nowhere: 'Hold the device up as if to take a picture of the sky.',
      refused: 'The compass was refused. Allow motion and orientation for this page, then try again.',
      unsupported: 'This device gives the page no compass. Go by the bearing.',
    }[reading.kind];
    return (
      <div class="ground-compass" data-compass={reading.kind}>
        <p role="status">{why}</p>
        {reading.kind === 'refused' && (
          <button type="button" onClick={onBegin}>
            Ask again
          </button>
        )}
      </div>
    );
  }
  const { rightRadians, upRadians, apartRadians } = lookChange(reading.direction, look);
  const [right, up] = [degreesFromRadians(rightRadians), degreesFromRadians(upRadians)];
  const there = degreesFromRadians(apartRadians) < THERE_DEGREES;
  return (
    <div class="ground-compass" data-compass="pointing">
      <p class="ground-turn">
        {there
          ? 'There.'
          : `${Math.abs(right) < 4 ? '' : `Turn ${right > 0 ? 'right' : 'left'} ${formatNumber(Math.abs(right))}\u00b0. `}${Math.abs(up) < 4 ? '' : `${up > 0 ? 'Higher' : 'Lower'} ${formatNumber(Math.abs(up))}\u00b0.`}`}
      </p>
      <p class="quiet small">
        A device’s compass is a hint: near cars, railings, speakers and magnets it is off by 20° and more
        {reading.errorDegrees === null ? '' : `; it says ±${formatNumber(reading.errorDegrees)}° of itself`}. Trust a landmark on the bearing more.
      </p>
    </div>
  );
}
