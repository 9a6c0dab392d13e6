import type { VNode } from 'preact';
import { useMemo } from 'preact/hooks';
import { encode } from 'uqr';

export interface QrPictureProps {
  readonly text: string;
  readonly description: string;
}

/** A QR code, dark on light by day and by night: scanners want it so. */
export function QrPicture({ text, description }: QrPictureProps): VNode {
  const { dark: darkPath, size } = useMemo(() => {
    const code = encode(text, { ecc: 'L', border: 3 });
    // One run of dark squares makes one rectangle.
    const drawn = code.data
      .map((row, y) => row.map((isDark, x) => (isDark && row[x - 1] !== true ? `M${x} ${y}h${runLength(row, x)}v1h-${runLength(row, x)}z` : '')).join(''))
      .join('');
    return { dark: drawn, size: code.size };
  }, [text]);
  return (
    <svg class="qr-picture" viewBox={`0 0 ${size} ${size}`} role="img" aria-label={description} shape-rendering="crispEdges">
      <rect width={size} height={size} class="qr-light" />
      <path d={darkPath} class="qr-dark" />
    </svg>
  );
}

function runLength(row: readonly boolean[], from: number): number {
  let to = from;
  while (row[to] === true) to += 1;
  return to - from;
}
