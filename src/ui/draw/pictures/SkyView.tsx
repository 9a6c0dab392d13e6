import { useComputed, useSignal } from '@preact/signals';
import type { VNode } from 'preact';
import { useEffect, useMemo } from 'preact/hooks';
import { separationRadians, type SkyDirection, sunAt } from '../../../core/earth/sun.ts';
import { lookToAir } from '../../../core/sky/look-plan.ts';
import { shownTurnRadians } from '../../../core/sky/perspective.ts';
import type { SmokeRange } from '../../../core/sky/smoke-range.ts';
import { seenSmoke } from '../../../core/sky/sky-picture.ts';
import { degreesFromRadians } from '../../../core/units/angle.ts';
import { ChoiceField } from '../../fields/ChoiceField.tsx';
import { formatNumber } from '../../../core/text/number-formats.ts';
import type { PlannedJob } from '../../../core/plan/planned-job.ts';
import { useDesk } from '../desk-context.ts';
import { EyePlace, eyePoint, SITE_EYE } from '../../sky/EyePlace.tsx';
import type { Reading } from '../../../core/sky/reading-of.ts';
import { createPlayer, PLAN_RATES } from '../../../app/player.ts';
import { FilmKey } from '../../sky/FilmKey.tsx';
import { SkyCanvas } from '../../sky/SkyCanvas.tsx';
import { SkyTimeline } from '../../sky/SkyTimeline.tsx';
import { SkyWindow } from '../../sky/SkyWindow.tsx';
import { sunText } from '../sun-text.ts';
import { turnText } from '../turn-text.ts';
import { useAppearance } from '../../sky/use-appearance.ts';

const TIMELINE_PAST_GONE = 1.05;

/** The sky as the crowd sees it, from the first smoke until it is gone. */
export function SkyView(): VNode | null {
  const { settled, sky } = useDesk();
  const [now, its] = [settled.value, sky.value];
  return now === null || its === null ? null : <OpenSky planned={now} sky={its} />;
}

interface OpenSkyProps {
  readonly planned: PlannedJob;
  readonly sky: Reading;
}

function OpenSky({ planned: { job, plan, air, readSeconds }, sky: { smoke, trails, window, goneSeconds: lastSeconds } }: OpenSkyProps): VNode {
  const { calibration } = useDesk();
  const { visibilityMetres } = air;
  const goneSeconds = TIMELINE_PAST_GONE * Math.max(readSeconds, lastSeconds);
  const player = useMemo(
    () =>
      createPlayer({
        span: () => ({ fromSeconds: 0, toSeconds: goneSeconds }),
        rates: PLAN_RATES,
        rate: 20,
        stopsSeconds: () => Array.from({ length: 40 }, (_, index) => (goneSeconds * (index + 1)) / 40),
        reducedMotion: () => matchMedia('(prefers-reduced-motion: reduce)').matches,
      }),
    [goneSeconds],
  );
  useEffect(() => () => player.dispose(), [player]);
  const eye = useSignal(SITE_EYE);
  const smokeCase = useSignal<keyof SmokeRange>('likely');
  const appearance = useAppearance();
  const at = useComputed(() => player.atSeconds.value ?? readSeconds).value;
  const sunOver = (seconds: number): SkyDirection => sunAt(job.site, Date.parse(job.readTime) + (seconds - readSeconds) * 1000);
  const sun = sunOver(at);
  const moment = {
    atSeconds: at,
    eye: eyePoint(eye.value),
    wind: air.wind,
    shear: air.shear,
    layerAboveSiteMetres: air.layerAboveSiteMetres,
    visibilityMetres,
    smoke: smoke[smokeCase.value],
  };
  const letters = trails.flatMap(({ points, heightStepMetres }) =>
    points.map((point) => seenSmoke(point, heightStepMetres, { ...moment, camera: UNUSED_CAMERA })),
  );
  const nearest = letters.reduce((least, direction) => Math.min(least, separationRadians(direction, sun)), Math.PI);
  const middle = lookToAir(plan.frame.middle, at, moment);
  const turnDegrees = degreesFromRadians(shownTurnRadians(middle.azimuthRadians, plan.frame.facingRadians, middle.elevationRadians));
  const elevations = letters.map(({ elevationRadians }) => degreesFromRadians(elevationRadians));
  return (
    <div class="sky-view">
      <SkyCanvas trails={trails} moment={moment} sun={sun} appearance={appearance} description={`${plan.text} in the sky, seen from below`} />
      <SkyTimeline player={player} shownSeconds={at} endSeconds={goneSeconds} readSeconds={readSeconds} window={window} />
      <p class="small">
        The text stands {formatNumber(Math.min(...elevations))} to {formatNumber(Math.max(...elevations))}
        {'\u00b0'} high. {sunText(sun, nearest)}
      </p>
      <p class="small" data-turn-degrees={turnDegrees.toFixed(1)}>
        {turnText(turnDegrees)}
      </p>
      <p>
        <FilmKey
          scene={() => ({
            trails,
            from: 0,
            to: goneSeconds,
            momentAt: (seconds) => ({ ...moment, atSeconds: seconds }),
            sunAt: sunOver,
            caption: `${job.demo ? 'DEMO, ' : ''}computed from the plan`,
          })}
          label="Film of the plan"
          title={`${job.name} as planned`}
        />
      </p>
      <SkyWindow window={window} readSeconds={readSeconds} shearKnown={air.shear !== null} />
      <div class="fields">
        <ChoiceField
          label="Smoke and air as"
          value={smokeCase.value}
          choices={[
            { value: 'low', label: 'Fades soonest' },
            { value: 'likely', label: 'Likely' },
            { value: 'high', label: 'Lasts longest' },
          ]}
          onChange={(next) => (smokeCase.value = next)}
        />
        {calibration.value !== null && (
          <p class="small">
            Spreading as a debrief measured it: {formatNumber(calibration.value.horizontalSquareMetresPerSecond, 1)} m{'\u00b2'}/s, likely; 5 to 20 are
            published.
          </p>
        )}
        <EyePlace eye={eye.value} fromMiddle={job.viewingPlaces.length > 0} onChange={(next) => (eye.value = next)} />
      </div>
    </div>
  );
}

const UNUSED_CAMERA = { azimuthRadians: 0, elevationRadians: 0, fieldRadians: 1, widthPixels: 1, heightPixels: 1 };
