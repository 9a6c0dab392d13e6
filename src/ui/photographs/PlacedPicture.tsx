import type { VNode } from 'preact';
import { useRef } from 'preact/hooks';

/** A point in shares of a picture's width and height. */
export interface PicturePlace {
  readonly x: number;
  readonly y: number;
}

export interface PlacedPictureProps {
  readonly address: string;
  readonly description: string;
  /** Corners of the word: lower left, lower right, upper right, upper left. */
  readonly corners: readonly PicturePlace[];
  /** The word's lines once it is laid. */
  readonly lines: readonly (readonly PicturePlace[])[];
  readonly onMove: (corner: number, to: PicturePlace) => void;
}

const NAMES = ['Lower left of the word', 'Lower right of the word', 'Upper right of the word', 'Upper left of the word'] as const;
/** An arrow key moves a corner by this share of the picture. */
const KEY_SHARE = 0.005;

/** A photograph with the word's corners to be dragged onto it, by finger or by arrow keys, and the word once it is laid. */
export function PlacedPicture({ address, description, corners, lines, onMove }: PlacedPictureProps): VNode {
  const frame = useRef<HTMLDivElement>(null);
  const moveTo = (corner: number, clientX: number, clientY: number): void => {
    const box = frame.current?.getBoundingClientRect();
    if (box === undefined || box.width === 0) return;
    onMove(corner, { x: share(clientX - box.left, box.width), y: share(clientY - box.top, box.height) });
  };
  const onKey = (corner: number, event: KeyboardEvent): void => {
    const step = { ArrowLeft: [-1, 0], ArrowRight: [1, 0], ArrowUp: [0, -1], ArrowDown: [0, 1] }[event.key];
    const at = corners[corner];
    if (step === undefined || at === undefined) return;
    event.preventDefault();
    onMove(corner, { x: share(at.x + (step[0] ?? 0) * KEY_SHARE, 1), y: share(at.y + (step[1] ?? 0) * KEY_SHARE, 1) });
  };
  return (
    <div class="placed-picture" ref={frame}>
      <img src={address} alt={description} />
      <svg viewBox="0 0 1 1" preserveAspectRatio="none" aria-hidden="true">
        {lines.length === 0 && <polygon points={corners.map(({ x, y }) => `${x},${y}`).join(' ')} />}
        {lines.map((line, index) => (
          <polyline key={index} points={line.map(({ x, y }) => `${x},${y}`).join(' ')} />
        ))}
      </svg>
      {corners.map(({ x, y }, corner) => (
        <button
          key={corner}
          type="button"
          class="corner"
          aria-label={`${NAMES[corner] ?? 'Corner'}: drag it, or move it with the arrow keys`}
          style={{ left: `${100 * x}%`, top: `${100 * y}%` }}
          onPointerDown={(event) => event.currentTarget.setPointerCapture(event.pointerId)}
          onPointerMove={(event) => {
            if (event.currentTarget.hasPointerCapture(event.pointerId)) moveTo(corner, event.clientX, event.clientY);
          }}
          onKeyDown={(event) => onKey(corner, event)}
        />
      ))}
    </div>
  );
}

function share(value: number, whole: number): number {
  return Math.min(1, Math.max(0, value / whole));
}
