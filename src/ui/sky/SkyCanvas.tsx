import type { VNode } from 'preact';
import { useLayoutEffect, useMemo, useRef } from 'preact/hooks';
import type { SkyDirection } from '../../core/earth/sun.ts';
import { cameraAround, seenSmoke, type SkyMoment } from '../../core/sky/sky-picture.ts';
import type { Trail } from '../../core/sky/trail.ts';
import { useElementWidth } from '../drawing/use-element-width.ts';
import { skyColoursOf } from './sky-colours.ts';
import { paintSky } from './sky-scene.ts';

export interface SkyCanvasProps {
  readonly trails: readonly Trail[];
  /** The moment but for its camera, which looks at the text. */
  readonly moment: Omit<SkyMoment, 'camera'>;
  readonly sun: SkyDirection;
  readonly description: string;
  /** Changes when the page's colours do. */
  readonly appearance: string;
}

/** Above this the horizon is left out: nobody sees both at once. */
const HORIZON_WITHIN_RADIANS = (58 * Math.PI) / 180;

/** The sky from where the eye stands, looking at the text. */
export function SkyCanvas({ trails, moment, sun, description, appearance }: SkyCanvasProps): VNode {
  const { element, widthPixels } = useElementWidth<HTMLDivElement>();
  const canvas = useRef<HTMLCanvasElement>(null);
  const heightPixels = Math.round(Math.min(560, Math.max(240, widthPixels * 0.56)));
  const ends = useMemo(
    () =>
      trails.flatMap((trail) =>
        trail.points.filter((_, index, all) => index % 8 === 0 || index === all.length - 1).map((point) => ({ point, step: trail.heightStepMetres })),
      ),
    [trails],
  );
  useLayoutEffect(() => {
    const drawn = canvas.current;
    const context = drawn?.getContext('2d');
    if (drawn === null || context === null || context === undefined || widthPixels === 0 || ends.length === 0) return;
    const density = Math.min(2, devicePixelRatio);
    drawn.width = Math.round(widthPixels * density);
    drawn.height = Math.round(heightPixels * density);
    context.setTransform(density, 0, 0, density, 0, 0);
    const unseen = { ...moment, camera: { azimuthRadians: 0, elevationRadians: 0, fieldRadians: 1, widthPixels, heightPixels } };
    const directions = ends.map(({ point, step }) => seenSmoke(point, step, unseen));
    const low = directions.every(({ elevationRadians }) => elevationRadians < HORIZON_WITHIN_RADIANS);
    const camera = cameraAround(directions, widthPixels, heightPixels, low);
    paintSky(context, trails, { ...moment, camera }, sun, skyColoursOf(drawn));
  }, [trails, ends, moment, sun, widthPixels, heightPixels, appearance]);
  return (
    <div class="sky-picture" ref={element}>
      <canvas ref={canvas} role="img" aria-label={description} style={{ width: `${widthPixels}px`, height: `${heightPixels}px` }} />
    </div>
  );
}
