import type { VNode } from 'preact';
import type { PicturePoint } from '../drawing/picture-view.ts';

export interface MapLabelProps {
  readonly kind: 'site' | 'first-smoke' | 'station' | 'landmark';
  readonly place: PicturePoint;
  readonly text: string;
  /** Of the picture: near its right edge the words stand on the left. */
  readonly widthPixels: number;
}

/** Above or below its mark, so that the kinds do not write over each other. */
const RISE_PIXELS = { site: 19, 'first-smoke': -9, station: 17, landmark: -7 } as const;

/** A mark on a map with its word. */
export function MapLabel({ kind, place: { xPixels, upPixels }, text, widthPixels }: MapLabelProps): VNode {
  const left = xPixels > widthPixels * 0.6;
  return (
    <g class={`map-label ${kind}`} transform={`translate(${xPixels.toFixed(1)} ${(-upPixels).toFixed(1)})`}>
      {kind === 'site' ? (
        <rect x="-4.5" y="-4.5" width="9" height="9" />
      ) : kind === 'landmark' ? (
        <path d="M0 -5L4.5 3H-4.5Z" />
      ) : (
        <circle r={kind === 'station' ? 3 : 6} />
      )}
      {kind === 'first-smoke' && <circle class="dot" r="1.5" />}
      <text x={left ? -8 : 8} y={RISE_PIXELS[kind]} text-anchor={left ? 'end' : 'start'}>
        {text}
      </text>
    </g>
  );
}
