import type { VNode } from 'preact';
import { useLayoutEffect, useRef } from 'preact/hooks';
import type { SkyDirection } from '../../core/earth/sun.ts';
import type { SkyMoment } from '../../core/sky/sky-picture.ts';
import type { Trail } from '../../core/sky/trail.ts';
import { useElementWidth } from '../drawing/use-element-width.ts';
import { paintHeld, smokeDirections } from './held-sky.ts';
import { skyColoursOf } from './sky-colours.ts';

export interface SkyCanvasProps {
  readonly trails: readonly Trail[];
  /** The moment but for its camera, which looks at the text. */
  readonly moment: Omit<SkyMoment, 'camera'>;
  readonly sun: SkyDirection;
  readonly description: string;
  /** Changes when the page's colours do. */
  readonly appearance: string;
}

/** The sky from where the eye stands, looking at the text. */
export function SkyCanvas({ trails, moment, sun, description, appearance }: SkyCanvasProps): VNode {
  const { element, widthPixels } = useElementWidth<HTMLDivElement>();
  const canvas = useRef<HTMLCanvasElement>(null);
  const heightPixels = Math.round(Math.min(560, Math.max(240, widthPixels * 0.56)));
  useLayoutEffect(() => {
    const drawn = canvas.current;
    const context = drawn?.getContext('2d');
    if (drawn === null || context === null || context === undefined || widthPixels === 0 || trails.length === 0) return;
    const density = Math.min(2, devicePixelRatio);
    drawn.width = Math.round(widthPixels * density);
    drawn.height = Math.round(heightPixels * density);
    context.setTransform(density, 0, 0, density, 0, 0);
    paintHeld(context, trails, moment, sun, smokeDirections(trails, moment), { widthPixels, heightPixels }, skyColoursOf(drawn));
  }, [trails, moment, sun, widthPixels, heightPixels, appearance]);
  return (
    <div class="sky-picture" ref={element}>
      <canvas ref={canvas} role="img" aria-label={description} style={{ width: `${widthPixels}px`, height: `${heightPixels}px` }} />
    </div>
  );
}
