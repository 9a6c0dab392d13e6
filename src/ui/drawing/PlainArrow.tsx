import type { VNode } from 'preact';

export interface PlainArrowProps {
  readonly xPixels: number;
  /** Down from the picture's top edge is positive SVG y, as everywhere inside an svg element. */
  readonly yPixels: number;
  /** Where it points, anticlockwise from the picture's right. */
  readonly directionRadians: number;
  readonly text: string;
  readonly kind: 'north' | 'wind' | 'facing';
}

/** A short pencilled arrow with a word under it: north, or where the wind goes. */
export function PlainArrow({ xPixels, yPixels, directionRadians, text, kind }: PlainArrowProps): VNode {
  const degrees = ((-directionRadians * 180) / Math.PI).toFixed(1);
  return (
    <g class={`plain-arrow ${kind}`} transform={`translate(${xPixels.toFixed(1)} ${yPixels.toFixed(1)})`}>
      <path d={kind === 'wind' ? 'M-14 -4L2 -4M-14 4L2 4M-2 -9L13 0L-2 9' : 'M-13 0L12 0M5 -5L13 0L5 5'} transform={`rotate(${degrees})`} />
      <text y="29">{text}</text>
    </g>
  );
}
