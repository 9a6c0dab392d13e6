import type { ReadonlySignal } from '@preact/signals';
import type { VNode } from 'preact';
import { useLayoutEffect, useMemo, useRef } from 'preact/hooks';
import '../sky/sky.css';
import { sunAt } from '../../core/earth/sun.ts';
import { type Camera, imageOf } from '../../core/sky/camera.ts';
import { seenFrom } from '../../core/sky/perspective.ts';
import { cameraAround, seenSmoke, type SkyMoment } from '../../core/sky/sky-picture.ts';
import { SMOKE_RANGE } from '../../core/sky/smoke-range.ts';
import type { Trail } from '../../core/sky/trail.ts';
import { degreesFromRadians, radiansFromDegrees } from '../../core/units/angle.ts';
import { formatBearing } from '../../core/text/number-formats.ts';
import { useElementWidth } from '../drawing/use-element-width.ts';
import { skyColoursOf } from '../sky/sky-colours.ts';
import { paintSky } from '../sky/sky-scene.ts';
import { useAppearance } from '../sky/use-appearance.ts';
import { type LookProps, useGround } from './ground-context.ts';
import type { GroundSky } from './ground-sky.ts';
import { SkyMark } from './SkyMark.tsx';

export interface SkyWatchProps extends LookProps {
  readonly sky: ReadonlySignal<GroundSky>;
}

/** Above this the horizon is left out, so that the letters show large enough to be compared with those in the sky. */
const HORIZON_WITHIN_RADIANS = radiansFromDegrees(28);
const SOME_POINTS = 6;

/** The sky as the observer sees it now: smoke drifting and fading, the planned strokes pencilled in, the ships marked. */
export function SkyWatch({ plan, sinceDatumSeconds, sky }: SkyWatchProps): VNode {
  const { job, datum, observerPlace } = useGround();
  const eye = observerPlace.eye.value;
  const { element, widthPixels } = useElementWidth<HTMLDivElement>();
  const canvas = useRef<HTMLCanvasElement>(null);
  const appearance = useAppearance();
  const heightPixels = Math.round(Math.min(520, Math.max(230, widthPixels * 0.58)));
  const { trails, marks, wind } = sky.value;
  const before = sinceDatumSeconds < 0;
  // Waiting letters hang over their place until the datum.
  const moment = {
    atSeconds: Math.max(0, sinceDatumSeconds),
    eye,
    wind,
    shear: plan.air.shear,
    layerAboveSiteMetres: plan.air.layerAboveSiteMetres,
    visibilityMetres: null,
    smoke: SMOKE_RANGE.likely,
  };
  const frame = useMemo(() => somePoints([...plan.trails, ...trails]), [plan.trails, trails]);
  const camera = useMemo(() => {
    if (widthPixels === 0 || frame.length === 0) return null;
    const unseen: SkyMoment = { ...moment, camera: { azimuthRadians: 0, elevationRadians: 0, fieldRadians: 1, widthPixels, heightPixels } };
    const directions = frame.map(({ point, step }) => seenSmoke(point, step, unseen));
    return cameraAround(
      directions,
      widthPixels,
      heightPixels,
      directions.every(({ elevationRadians }) => elevationRadians < HORIZON_WITHIN_RADIANS),
    );
  }, [frame, moment.atSeconds, wind, eye, widthPixels, heightPixels]);
  const milliseconds = (datum.value?.datumMilliseconds ?? Date.parse(job.readTime)) + sinceDatumSeconds * 1000;
  useLayoutEffect(() => {
    const drawn = canvas.current;
    const context = drawn?.getContext('2d');
    if (drawn === null || context === null || context === undefined || camera === null) return;
    const density = Math.min(2, devicePixelRatio);
    drawn.width = Math.round(widthPixels * density);
    drawn.height = Math.round(heightPixels * density);
    context.setTransform(density, 0, 0, density, 0, 0);
    paintSky(context, before ? [] : trails, { ...moment, camera }, sunAt(job.site, milliseconds), skyColoursOf(drawn));
  }, [trails, camera, moment.atSeconds, before, appearance]);
  return (
    <div class="sky-picture sky-watch" ref={element} data-smoke={sky.value.smokeIs}>
      <canvas
        ref={canvas}
        role="img"
        aria-label={`The sky from the ground, ${sky.value.smokeIs === 'told' ? 'with the smoke that the ships told they laid' : 'with the smoke that the plan lays'}`}
        style={{ width: `${widthPixels}px`, height: `${heightPixels}px` }}
      />
      {camera !== null && (
        <svg class="sky-overlay" width={widthPixels} height={heightPixels} viewBox={`0 0 ${widthPixels} ${heightPixels}`} aria-hidden="true">
          <path class="sky-plan" d={planPath(plan.trails, { ...moment, wind: plan.air.wind, camera })} />
          <Bearings camera={camera} />
          {marks.map((mark) => {
            const image = mark.place === null ? null : imageOf(seenFrom(mark.place, eye), camera);
            return image === null ? null : (
              <SkyMark key={mark.device} mark={mark} xPixels={image.xPixels} yPixels={image.yPixels} widthPixels={widthPixels} heightPixels={heightPixels} />
            );
          })}
        </svg>
      )}
    </div>
  );
}

/** Bearings along the foot of the picture, every ten degrees, every twenty in a wide one. */
function Bearings({ camera }: { readonly camera: Camera }): VNode {
  const half = degreesFromRadians(camera.fieldRadians) / 2;
  const middle = degreesFromRadians(camera.azimuthRadians);
  const step = half > 35 || camera.widthPixels < 500 ? 20 : 10;
  const first = Math.ceil((middle - half) / step) * step;
  const bearings = Array.from({ length: Math.floor((2 * half) / step) + 1 }, (_, index) => first + index * step);
  return (
    <g class="sky-bearings">
      {bearings.map((bearing) => {
        const image = imageOf({ azimuthRadians: radiansFromDegrees(bearing), elevationRadians: Math.max(0, camera.elevationRadians - 0.4) }, camera);
        if (image === null || image.xPixels < 18 || image.xPixels > camera.widthPixels - 18) return null;
        return (
          <text key={bearing} x={image.xPixels.toFixed(1)} y={camera.heightPixels - 8}>
            {formatBearing(bearing)}
            {'\u00b0'}
          </text>
        );
      })}
    </g>
  );
}

function somePoints(trails: readonly Trail[]): { readonly point: Trail['points'][number]; readonly step: number }[] {
  return trails.flatMap((trail) =>
    trail.points.filter((_, index, all) => index % SOME_POINTS === 0 || index === all.length - 1).map((point) => ({ point, step: trail.heightStepMetres })),
  );
}

function planPath(trails: readonly Trail[], moment: SkyMoment): string {
  return trails
    .map(({ points, heightStepMetres }) => {
      const images = points.map((point) => imageOf(seenSmoke(point, heightStepMetres, moment), moment.camera));
      return images.some((image) => image === null) ? '' : `M${images.map((image) => `${image?.xPixels.toFixed(1)} ${image?.yPixels.toFixed(1)}`).join('L')}`;
    })
    .join('');
}
