import type { VNode } from 'preact';
import type { ShipMark } from '../../app/ground/seen-sky.ts';
import { freshnessWords } from './ground-words.ts';

export interface SkyMarkProps {
  readonly mark: ShipMark;
  readonly xPixels: number;
  readonly yPixels: number;
  readonly widthPixels: number;
  readonly heightPixels: number;
}

const EDGE_PIXELS = 16;

/** A ship in a picture, with how far its place can be trusted: whole and named when live, a hollow ghost when not. */
export function SkyMark({ mark, xPixels, yPixels, widthPixels, heightPixels }: SkyMarkProps): VNode {
  const outside = xPixels < EDGE_PIXELS || xPixels > widthPixels - EDGE_PIXELS || yPixels < EDGE_PIXELS || yPixels > heightPixels - EDGE_PIXELS;
  const x = Math.min(widthPixels - EDGE_PIXELS, Math.max(EDGE_PIXELS, xPixels));
  const y = Math.min(heightPixels - EDGE_PIXELS, Math.max(EDGE_PIXELS, yPixels));
  const live = mark.fresh.kind === 'live' || mark.fresh.kind === 'ageing';
  const left = x > widthPixels * 0.62;
  return (
    <g
      class="sky-mark"
      data-ship={mark.device}
      data-fresh={mark.fresh.kind}
      data-outside={outside ? 'yes' : 'no'}
      data-smoke={mark.smoke ?? ''}
      transform={`translate(${x.toFixed(1)} ${y.toFixed(1)})`}
    >
      <circle r="7" />
      {live ? <circle class="sky-mark-dot" r="2.5" /> : <path d="M-5 -5L5 5M5 -5L-5 5" />}
      <text x={left ? -12 : 12} y={y < 40 ? 20 : -8} text-anchor={left ? 'end' : 'start'}>
        {mark.name}, {freshnessWords(mark.fresh)}
        {outside ? ', beyond the picture' : ''}
      </text>
    </g>
  );
}
