import { drawSky, type SkyMoment } from '../../core/sky/sky-picture.ts';
import type { Trail } from '../../core/sky/trail.ts';

type Layer = OffscreenCanvasRenderingContext2D;

/** A trail's bits overlap where they bend; of overlapping bits the denser one counts, as of one trail it must. */
const WITHIN_TRAIL = 'lighten';
/** Where trails cross, what shines through the one is covered by the other: 1 - (1 - a) (1 - b). */
const BETWEEN_TRAILS = 'screen';

/**
 * Paints smoke over the sky that is there. The smoke's cover is first gathered as grey on black, so that bits of one
 * trail leave no seams; ends are round because smoke spreads along its trail as it does across.
 *
 * Where the browser has no off-screen canvas nothing is painted, and false is returned.
 */
export function paintSmoke(context: CanvasRenderingContext2D, trails: readonly Trail[], moment: SkyMoment, colour: string): boolean {
  const { widthPixels, heightPixels } = moment.camera;
  const whole = layer(widthPixels, heightPixels);
  const single = layer(widthPixels, heightPixels);
  if (whole === null || single === null) return false;
  fill(whole, 'black', 'source-over');
  for (const trail of trails) {
    fill(single, 'black', 'source-over');
    if (!drawTrail(single, trail, moment)) continue;
    whole.globalCompositeOperation = BETWEEN_TRAILS;
    whole.drawImage(single.canvas, 0, 0);
  }
  // The sky keeps what the smoke does not cover, then the covered share is added in the smoke's colour.
  fill(single, 'white', 'source-over');
  single.globalCompositeOperation = 'difference';
  single.drawImage(whole.canvas, 0, 0);
  context.globalCompositeOperation = 'multiply';
  context.drawImage(single.canvas, 0, 0, widthPixels, heightPixels);
  fill(whole, colour, 'multiply');
  context.globalCompositeOperation = 'lighter';
  context.drawImage(whole.canvas, 0, 0, widthPixels, heightPixels);
  context.globalCompositeOperation = 'source-over';
  return true;
}

function drawTrail(single: Layer, trail: Trail, moment: SkyMoment): boolean {
  let drawn = false;
  let cover = 0;
  let beforePixels = 0;
  single.globalCompositeOperation = WITHIN_TRAIL;
  single.lineCap = 'round';
  single.lineJoin = 'round';
  drawSky([trail], moment, {
    smoke(line, linePixels, opacity) {
      // Lines come from wide to narrow, each adding to the wider ones beneath; a wider one begins anew.
      if (linePixels >= beforePixels) cover = 0;
      beforePixels = linePixels;
      cover = 1 - (1 - cover) * (1 - Math.min(1, Math.max(0, opacity)));
      const first = line[0];
      if (first === undefined || cover < 0.002) return;
      drawn = true;
      // Under a pixel the line is drawn a pixel wide and fainter by as much.
      const grey = Math.round(255 * cover * Math.min(1, linePixels));
      single.strokeStyle = `rgb(${grey} ${grey} ${grey})`;
      single.lineWidth = Math.max(1, linePixels);
      single.beginPath();
      single.moveTo(first.xPixels, first.yPixels);
      for (const { xPixels, yPixels } of line.slice(1)) single.lineTo(xPixels, yPixels);
      single.stroke();
    },
  });
  return drawn;
}

function layer(widthPixels: number, heightPixels: number): Layer | null {
  if (typeof OffscreenCanvas === 'undefined') return null;
  return new OffscreenCanvas(Math.max(1, widthPixels), Math.max(1, heightPixels)).getContext('2d');
}

function fill(context: Layer, colour: string, operation: GlobalCompositeOperation): void {
  context.globalCompositeOperation = operation;
  context.fillStyle = colour;
  context.fillRect(0, 0, context.canvas.width, context.canvas.height);
}
