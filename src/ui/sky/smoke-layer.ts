import type { ImagePoint } from '../../core/sky/camera.ts';
import { drawSky, type SkyMoment } from '../../core/sky/sky-picture.ts';
import type { Trail } from '../../core/sky/trail.ts';

type Layer = OffscreenCanvasRenderingContext2D;

/** A trail's bits overlap where they bend; of overlapping bits the denser one counts, as of one trail it must. */
const WITHIN_TRAIL = 'lighten';
/** Where trails cross, what shines through the one is covered by the other: 1 - (1 - a) (1 - b). */
const BETWEEN_TRAILS = 'screen';
/** Black about what lines reach, over which their edges are smoothed where the page's pixels are finer. */
const RIM_PIXELS = 2;

/** A line of smoke as it lies in the picture. */
interface SmokeLine {
  readonly line: readonly ImagePoint[];
  readonly linePixels: number;
  /** 0 to 255, with all wider lines beneath it. */
  readonly grey: number;
}

/** A part of the picture, whole pixels. */
interface Box {
  readonly left: number;
  readonly top: number;
  readonly right: number;
  readonly bottom: number;
}

/**
 * Paints smoke over the sky that is there. The smoke's cover is first gathered as grey on black, so that bits of one
 * trail leave no seams; ends are round because smoke spreads along its trail as it does across. Only the part of the
 * picture that smoke reaches is touched.
 *
 * Where the browser has no off-screen canvas nothing is painted, and false is returned.
 */
export function paintSmoke(context: CanvasRenderingContext2D, trails: readonly Trail[], moment: SkyMoment, colour: string): boolean {
  if (typeof OffscreenCanvas === 'undefined') return false;
  const drawn = trails.map((trail) => smokeLines(trail, moment)).flatMap((lines) => (lines.length === 0 ? [] : [{ lines, box: boxAround(lines, moment) }]));
  const all = drawn.map(({ box }) => box).reduce<Box | null>((sum, box) => (sum === null ? box : union(sum, box)), null);
  if (all === null || isEmpty(all)) return true;
  const layers = layersOf(moment.camera.widthPixels, moment.camera.heightPixels);
  if (layers === null) return false;
  const { whole, single } = layers;
  fill(whole, 'black', 'source-over', all);
  for (const { lines, box } of drawn) {
    if (isEmpty(box)) continue;
    fill(single, 'black', 'source-over', box);
    strokeLines(single, lines);
    copy(single.canvas, whole, BETWEEN_TRAILS, box);
  }
  // The sky keeps what the smoke does not cover, then the covered share is added in the smoke's colour.
  fill(single, 'white', 'source-over', all);
  copy(whole.canvas, single, 'difference', all);
  copy(single.canvas, context, 'multiply', all);
  fill(whole, colour, 'multiply', all);
  copy(whole.canvas, context, 'lighter', all);
  context.globalCompositeOperation = 'source-over';
  return true;
}

/** A trail's lines in the order in which they are to be painted. */
function smokeLines(trail: Trail, moment: SkyMoment): SmokeLine[] {
  const lines: SmokeLine[] = [];
  let cover = 0;
  let beforePixels = 0;
  drawSky([trail], moment, {
    smoke(line, linePixels, opacity) {
      // Lines come from wide to narrow, each adding to the wider ones beneath; a wider one begins anew.
      if (linePixels >= beforePixels) cover = 0;
      beforePixels = linePixels;
      cover = 1 - (1 - cover) * (1 - Math.min(1, Math.max(0, opacity)));
      if (line.length === 0 || cover < 0.002) return;
      // Under a pixel the line is drawn a pixel wide and fainter by as much.
      lines.push({ line, linePixels: Math.max(1, linePixels), grey: Math.round(255 * cover * Math.min(1, linePixels)) });
    },
  });
  return lines;
}

function strokeLines(single: Layer, lines: readonly SmokeLine[]): void {
  single.globalCompositeOperation = WITHIN_TRAIL;
  single.lineCap = 'round';
  single.lineJoin = 'round';
  for (const { line, linePixels, grey } of lines) {
    single.strokeStyle = `rgb(${grey} ${grey} ${grey})`;
    single.lineWidth = linePixels;
    single.beginPath();
    for (const [index, { xPixels, yPixels }] of line.entries()) {
      if (index === 0) single.moveTo(xPixels, yPixels);
      else single.lineTo(xPixels, yPixels);
    }
    single.stroke();
  }
}

/** All that the lines reach of the picture, and a rim. */
function boxAround(lines: readonly SmokeLine[], { camera: { widthPixels, heightPixels } }: SkyMoment): Box {
  let [left, top, right, bottom] = [Infinity, Infinity, -Infinity, -Infinity];
  for (const { line, linePixels } of lines)
    for (const { xPixels, yPixels } of line) {
      const reach = linePixels / 2 + RIM_PIXELS;
      left = Math.min(left, xPixels - reach);
      right = Math.max(right, xPixels + reach);
      top = Math.min(top, yPixels - reach);
      bottom = Math.max(bottom, yPixels + reach);
    }
  return {
    left: Math.max(0, Math.floor(left)),
    top: Math.max(0, Math.floor(top)),
    right: Math.min(Math.ceil(widthPixels), Math.ceil(right)),
    bottom: Math.min(Math.ceil(heightPixels), Math.ceil(bottom)),
  };
}

function union(one: Box, other: Box): Box {
  return {
    left: Math.min(one.left, other.left),
    top: Math.min(one.top, other.top),
    right: Math.max(one.right, other.right),
    bottom: Math.max(one.bottom, other.bottom),
  };
}

function isEmpty({ left, top, right, bottom }: Box): boolean {
  return right <= left || bottom <= top;
}

/** Kept from picture to picture: making two canvases each time costs more than an empty sky. */
let kept: { readonly whole: Layer; readonly single: Layer } | null = null;

/** Two layers at least as large as asked for, with whatever was painted before on them. */
function layersOf(widthPixels: number, heightPixels: number): typeof kept {
  if (kept !== null && kept.whole.canvas.width >= widthPixels && kept.whole.canvas.height >= heightPixels) return kept;
  const width = Math.max(1, Math.ceil(widthPixels), kept?.whole.canvas.width ?? 0);
  const height = Math.max(1, Math.ceil(heightPixels), kept?.whole.canvas.height ?? 0);
  const [whole, single] = [new OffscreenCanvas(width, height).getContext('2d'), new OffscreenCanvas(width, height).getContext('2d')];
  kept = whole === null || single === null ? null : { whole, single };
  return kept;
}

/** With the pixels around it, which are smoothed into its edge when it is copied into finer pixels. */
function fill(context: Layer, colour: string, operation: GlobalCompositeOperation, { left, top, right, bottom }: Box): void {
  context.globalCompositeOperation = operation;
  context.fillStyle = colour;
  context.fillRect(left - RIM_PIXELS, top - RIM_PIXELS, right - left + 2 * RIM_PIXELS, bottom - top + 2 * RIM_PIXELS);
}

/** The same part of one picture onto the same place of another. */
function copy(from: OffscreenCanvas, onto: Layer | CanvasRenderingContext2D, operation: GlobalCompositeOperation, { left, top, right, bottom }: Box): void {
  const [width, height] = [right - left, bottom - top];
  onto.globalCompositeOperation = operation;
  onto.drawImage(from, left, top, width, height, left, top, width, height);
}
