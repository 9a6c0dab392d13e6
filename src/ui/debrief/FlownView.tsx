import { effect } from '@preact/signals';
import type { VNode } from 'preact';
import { useEffect, useLayoutEffect, useMemo, useRef } from 'preact/hooks';
import type { WindVector } from '../../core/earth/wind-vector.ts';
import { fittingView, type PlaneBox } from '../drawing/picture-view.ts';
import { PlainArrow } from '../drawing/PlainArrow.tsx';
import { useElementWidth } from '../drawing/use-element-width.ts';
import { useAppearance } from '../sky/use-appearance.ts';
import { useDebrief } from './debrief-context.ts';
import { type FlownColours, type FlownPicture, paintMoment, paintStill } from './flown-canvas.ts';
import type { FlownScene } from './flown-scene.ts';

export interface FlownViewProps {
  readonly scene: FlownScene;
  /** From above and from below in the air that stands still; over the ground as it was seen on a map. */
  readonly from: 'above' | 'below' | 'ground';
  /** Azimuth the crowd looks. */
  readonly facingRadians: number;
  /** The wind that was found, blowing towards; null where it was not. */
  readonly wind: WindVector | null;
  readonly description: string;
}

const MARGIN_PIXELS = 26;

/** The flight as it was flown, at the player's moment: still things once, moving ones over them. */
export function FlownView({ scene, from, facingRadians, wind, description }: FlownViewProps): VNode {
  const { player } = useDebrief();
  const { element, widthPixels } = useElementWidth<HTMLDivElement>();
  const stillCanvas = useRef<HTMLCanvasElement>(null);
  const movingCanvas = useRef<HTMLCanvasElement>(null);
  const appearance = useAppearance();
  const heightPixels = Math.round(Math.min(560, Math.max(220, widthPixels * (from === 'below' ? 0.5 : 0.62))));
  const view = useMemo(() => {
    if (widthPixels === 0) return null;
    const below = from === 'below';
    const turnRadians = below ? -facingRadians : 0;
    return fittingView(extent(scene, from === 'ground', turnRadians, below), { widthPixels, heightPixels }, MARGIN_PIXELS, turnRadians, below);
  }, [scene, from, facingRadians, widthPixels, heightPixels]);
  const picture = useRef<FlownPicture | null>(null);
  useLayoutEffect(() => {
    const canvas = stillCanvas.current;
    const moving = movingCanvas.current;
    if (canvas === null || moving === null || view === null) return;
    picture.current = { widthPixels, heightPixels, view, overGround: from === 'ground', colours: coloursOf(canvas) };
    const context = sized(canvas, widthPixels, heightPixels);
    sized(moving, widthPixels, heightPixels);
    if (context !== null) paintStill(context, scene, picture.current);
  }, [scene, view, from, widthPixels, heightPixels, appearance]);
  useEffect(() => {
    const context = movingCanvas.current?.getContext('2d') ?? null;
    if (context === null) return undefined;
    // Straight from the signal to the canvas: no component is rendered for a frame.
    return effect(() => {
      const at = player.atMilliseconds.value;
      if (picture.current === null) return;
      context.clearRect(0, 0, picture.current.widthPixels, picture.current.heightPixels);
      if (Number.isFinite(at)) paintMoment(context, scene, picture.current, at);
    });
  }, [scene, view, from, widthPixels, heightPixels, appearance, player]);
  return (
    <div class={`flown-view flown-from-${from}`} ref={element} style={{ height: `${heightPixels}px` }}>
      <canvas ref={stillCanvas} aria-hidden="true" />
      <canvas ref={movingCanvas} role="img" aria-label={description} />
      {from !== 'below' && (
        <svg class="bearings" width="96" height="60" viewBox="-22 -22 96 60" aria-hidden="true">
          <PlainArrow xPixels={0} yPixels={0} directionRadians={Math.PI / 2} text="N" kind="north" />
          {wind !== null && (
            <PlainArrow xPixels={48} yPixels={0} directionRadians={Math.atan2(wind.northMetresPerSecond, wind.eastMetresPerSecond)} text="wind" kind="wind" />
          )}
        </svg>
      )}
    </div>
  );
}

/** Sizes a canvas for the screen's density; the context draws in CSS pixels. */
function sized(canvas: HTMLCanvasElement, widthPixels: number, heightPixels: number): CanvasRenderingContext2D | null {
  const density = Math.min(2, devicePixelRatio);
  canvas.width = Math.round(widthPixels * density);
  canvas.height = Math.round(heightPixels * density);
  canvas.style.width = `${widthPixels}px`;
  canvas.style.height = `${heightPixels}px`;
  const context = canvas.getContext('2d');
  context?.setTransform(density, 0, 0, density, 0, 0);
  return context;
}

function coloursOf(element: Element): FlownColours {
  const style = getComputedStyle(element);
  const read = (name: string): string => style.getPropertyValue(name).trim();
  return {
    ground: read('--ground'),
    mark: read('--mark'),
    quiet: read('--mark-quiet'),
    smoke: read('--smoke'),
    planned: read('--smoke-planned'),
    way: read('--rule-strong'),
    raised: read('--raised'),
  };
}

/** What a view must hold: in the air the text, planned and flown; over the ground all ways, the crowd, the smoke to its end. */
function extent(scene: FlownScene, overGround: boolean, turnRadians: number, mirrored: boolean): PlaneBox {
  let [lowX, highX, lowY, highY] = [Infinity, -Infinity, Infinity, -Infinity];
  const cosine = Math.cos(turnRadians);
  const sine = Math.sin(turnRadians);
  const take = (xMetres: number, yMetres: number): void => {
    const y = mirrored ? -yMetres : yMetres;
    const turnedX = cosine * xMetres - sine * y;
    const turnedY = sine * xMetres + cosine * y;
    lowX = Math.min(lowX, turnedX);
    highX = Math.max(highX, turnedX);
    lowY = Math.min(lowY, turnedY);
    highY = Math.max(highY, turnedY);
  };
  const takeLine = (xy: Float64Array, shiftX = 0, shiftY = 0): void => {
    for (let index = 0; index + 1 < xy.length; index += 2) take((xy[index] ?? 0) + shiftX, (xy[index + 1] ?? 0) + shiftY);
  };
  const drift = scene.groundOffsetAt(scene.toMilliseconds);
  for (const ship of scene.ships) {
    if (overGround) {
      for (const line of ship.groundLines) takeLine(line.xy);
      for (const line of ship.smoke) takeLine(line.xy, drift.eastMetres, drift.northMetres);
    } else {
      for (const line of ship.smoke) takeLine(line.xy);
      for (const { start } of ship.planned) take(start.airEastMetres, start.airNorthMetres);
      if (ship.smoke.length === 0 && ship.planned.length === 0) for (const line of ship.airLines) takeLine(line.xy);
    }
  }
  if (overGround) take(0, 0);
  return { lowXMetres: lowX, highXMetres: highX, lowYMetres: lowY, highYMetres: highY };
}
