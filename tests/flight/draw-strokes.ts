import { createCanvas, type SKRSContext2D } from '@napi-rs/canvas';
import type { PathSink } from '../../src/core/letters/letter-drawing.ts';
import type { LetterPoint } from '../../src/core/letters/letter-path.ts';

/** How a text on the sky is drawn as a picture for a reader below. */
export interface PictureOptions {
  readonly letterHeightMetres: number;
  /** Width of the smoke in letter heights; 0.1 by default, 0.06 to 0.16 is what smoke looks like in its good minutes. */
  readonly strokeWidthHeights?: number;
  /** 48 by default: the OCR engine reads thin strokes best at 40 to 60. */
  readonly letterHeightPixels?: number;
  /** Left and right exchanged: what an onlooker above would see. */
  readonly mirrored?: boolean;
  /** Clear sky round the ink, in letter heights; 0.5 by default. */
  readonly marginHeights?: number;
}

/** Smoke sampled as points of the letter frame, one list per stroke: a PNG. Nothing to draw throws RangeError. */
export function drawPolylines(lines: readonly (readonly LetterPoint[])[], options: PictureOptions): Buffer {
  return paint(
    lines.map((line) => (sink) => line.forEach(({ xMetres, yMetres }, index) => (index === 0 ? sink.moveTo(xMetres, yMetres) : sink.lineTo(xMetres, yMetres)))),
    options,
  );
}

type Drawing = (sink: PathSink) => void;

function paint(drawings: readonly Drawing[], options: PictureOptions): Buffer {
  const { letterHeightMetres, strokeWidthHeights = 0.1, letterHeightPixels = 48, mirrored = false, marginHeights = 0.5 } = options;
  const extent = extentOf(drawings);
  if (extent === null) throw new RangeError('nothing to draw');
  const pixelsPerMetre = letterHeightPixels / letterHeightMetres;
  const marginPixels = marginHeights * letterHeightPixels;
  const widthPixels = Math.ceil((extent.maxX - extent.minX) * pixelsPerMetre + 2 * marginPixels);
  const heightPixels = Math.ceil((extent.maxY - extent.minY) * pixelsPerMetre + 2 * marginPixels);
  const canvas = createCanvas(widthPixels, heightPixels);
  const context = canvas.getContext('2d');
  context.fillStyle = 'white';
  context.fillRect(0, 0, widthPixels, heightPixels);
  if (mirrored) {
    context.translate(widthPixels, 0);
    context.scale(-1, 1);
  }
  context.translate(marginPixels - extent.minX * pixelsPerMetre, marginPixels + extent.maxY * pixelsPerMetre);
  context.scale(pixelsPerMetre, -pixelsPerMetre);
  context.strokeStyle = 'black';
  context.lineWidth = strokeWidthHeights * letterHeightMetres;
  context.lineCap = 'round';
  context.lineJoin = 'round';
  for (const drawing of drawings) {
    context.beginPath();
    drawing(canvasSink(context));
    context.stroke();
  }
  return canvas.toBuffer('image/png');
}

function canvasSink(context: SKRSContext2D): PathSink {
  return {
    moveTo: (x, y) => context.moveTo(x, y),
    lineTo: (x, y) => context.lineTo(x, y),
    arcTo: ({ centreX, centreY, radius, startRadians, sweepRadians }) =>
      context.arc(centreX, centreY, radius, startRadians, startRadians + sweepRadians, sweepRadians < 0),
  };
}

/** The extent of the drawings, arcs sampled a sixteenth of their sweep apart (the margin covers what that misses). */
function extentOf(drawings: readonly Drawing[]): { minX: number; maxX: number; minY: number; maxY: number } | null {
  let minX = Infinity;
  let maxX = -Infinity;
  let minY = Infinity;
  let maxY = -Infinity;
  const take = (x: number, y: number): void => {
    minX = Math.min(minX, x);
    maxX = Math.max(maxX, x);
    minY = Math.min(minY, y);
    maxY = Math.max(maxY, y);
  };
  for (const drawing of drawings) {
    drawing({
      moveTo: take,
      lineTo: take,
      arcTo: ({ centreX, centreY, radius, startRadians, sweepRadians }) => {
        for (let part = 1; part <= 16; part++) {
          const angle = startRadians + (sweepRadians * part) / 16;
          take(centreX + radius * Math.cos(angle), centreY + radius * Math.sin(angle));
        }
      },
    });
  }
  return Number.isFinite(minX) ? { minX, maxX, minY, maxY } : null;
}
