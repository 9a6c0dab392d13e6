import exifr from 'exifr';
import type { SitePointUp } from '../core/earth/site-frame.ts';
import type { WindVector } from '../core/earth/wind-vector.ts';
import { type GreyPicture, redLight } from '../core/photograph/grey-picture.ts';
import { layWord } from '../core/photograph/lay-word.ts';
import { pictureKind } from '../core/photograph/picture-kind.ts';
import { type PicturePose, samplesShown, type Unknown } from '../core/photograph/picture-pose.ts';
import { type RectifiedWord, rectifiedWord } from '../core/photograph/rectify.ts';
import { strokeWidths, type WidthSeen } from '../core/photograph/stroke-widths.ts';
import { wordCorners } from '../core/photograph/word-corners.ts';
import { wordSamples } from '../core/photograph/word-samples.ts';
import type { Trail } from '../core/sky/trail.ts';
import { type Pointed, priorFor } from '../core/photograph/pose-prior.ts';

/** What a photograph says of itself; null where it does not. */
export interface PhotographData {
  readonly type: string;
  readonly takenAtMilliseconds: number | null;
  /** Of a lens that shows as much on film of 36 by 24 mm. */
  readonly focal35Millimetres: number | null;
  readonly latitudeDegrees: number | null;
  readonly longitudeDegrees: number | null;
}

/** A picture to lay a word over. */
export interface PhotographRequest {
  readonly file: Blob;
  readonly trails: readonly Trail[];
  /** Since the datum. */
  readonly atSeconds: number;
  readonly eye: SitePointUp;
  readonly wind: WindVector;
  readonly layerAboveSiteMetres: number;
  readonly facingRadians: number;
  readonly letterHeightMetres: number;
  readonly focal35Millimetres: number | null;
  /** Where the device's back pointed when the picture was taken: from true north, and up; null where nobody knows. */
  readonly pointed: Pointed | null;
  /** Where somebody sees the word's corners, shares of the picture's width and height; null to place them by the plan alone. */
  readonly handles: readonly { readonly x: number; readonly y: number }[] | null;
}

/** A line of the word in the picture, in shares of its width and height. */
export type ShownLine = readonly { readonly x: number; readonly y: number }[];

/** How one letter lies in the picture against the track. */
export interface LetterSeen {
  readonly letterIndex: number;
  readonly character: string;
  /** Mean distance of its smoke from where its strokes were laid, over letter heights; null where no smoke was found. */
  readonly offHeights: number | null;
  readonly foundShare: number;
  readonly sigmaMetres: number | null;
  readonly ageSeconds: number;
}

export type PhotographAnswer =
  | {
      readonly kind: 'placed';
      /** Where the word's corners would be by the plan, the place and the lens. */
      readonly corners: ShownLine;
    }
  | {
      readonly kind: 'laid';
      readonly lines: readonly ShownLine[];
      readonly foundShare: number;
      readonly residualHeights: number;
      readonly letters: readonly LetterSeen[];
      readonly widths: readonly WidthSeen[];
      readonly pose: PicturePose;
      readonly sigma: PicturePose;
      readonly untold: readonly Unknown[];
      readonly rectified: RectifiedWord;
    }
  | { readonly kind: 'refused'; readonly reason: string };

const HEAD_BYTES = 262_144;
const WORKING_PIXELS = 1400;
const STEPS_PER_HEIGHT = 30;
const RECTIFIED_PIXELS = 90;

/** Looks into a photograph's own data; a file that is none is refused in plain words. Never throws. */
export async function readPhotographData(
  file: Blob,
): Promise<{ readonly ok: true; readonly data: PhotographData } | { readonly ok: false; readonly reason: string }> {
  try {
    const kind = pictureKind(new Uint8Array(await file.slice(0, HEAD_BYTES).arrayBuffer()));
    if (!kind.ok) return kind;
    const told = await exifr
      .parse(file, {
        pick: [
          'DateTimeOriginal',
          'OffsetTimeOriginal',
          'FocalLengthIn35mmFormat',
          'latitude',
          'longitude',
          'GPSLatitude',
          'GPSLatitudeRef',
          'GPSLongitude',
          'GPSLongitudeRef',
        ],
        reviveValues: false,
        gps: true,
      })
      .then((value: unknown) => (typeof value === 'object' && value !== null ? (value as Readonly<Record<string, unknown>>) : {}))
      .catch(() => ({}) as Readonly<Record<string, unknown>>);
    return {
      ok: true,
      data: {
        type: kind.type,
        takenAtMilliseconds: takenFrom(told['DateTimeOriginal'], told['OffsetTimeOriginal']),
        focal35Millimetres: between(told['FocalLengthIn35mmFormat'], 8, 1200),
        latitudeDegrees: between(told['latitude'], -90, 90),
        longitudeDegrees: between(told['longitude'], -180, 180),
      },
    };
  } catch {
    return { ok: false, reason: 'The file could not be opened.' };
  }
}

/** Exif writes `2027:06:19 13:31:05` and, where the device knows it, `+02:00`; without a zone the time is not known. */
function takenFrom(written: unknown, offset: unknown): number | null {
  if (typeof written !== 'string' || typeof offset !== 'string') return null;
  const [date = '', time = ''] = written.split(' ');
  const at = Date.parse(`${date.replaceAll(':', '-')}T${time}${offset}`);
  return Number.isFinite(at) ? at : null;
}

function between(value: unknown, least: number, most: number): number | null {
  return typeof value === 'number' && value >= least && value <= most ? value : null;
}

/** Lays the word over the picture; answers as {@link PhotographAnswer} says, with its progress. Never throws. */
export async function layPhotograph(request: PhotographRequest, onProgress: (words: string) => void): Promise<PhotographAnswer> {
  try {
    onProgress('Opening the picture');
    const picture = await openPicture(request.file);
    if (picture === null)
      return { kind: 'refused', reason: 'The picture could not be opened: it is damaged, broken off, or of a kind this browser does not read.' };
    const { trails, atSeconds, eye, wind, layerAboveSiteMetres, letterHeightMetres, facingRadians } = request;
    const samples = wordSamples(trails, { atSeconds, eye, wind, layerAboveSiteMetres }, letterHeightMetres / STEPS_PER_HEIGHT);
    if (samples.length === 0) return { kind: 'refused', reason: 'Nothing of the word was written when this picture was taken. Check its time.' };
    const prior = priorFor(samples, request, picture);
    const corners = wordCorners(samples, { facingRadians });
    const { widthPixels, heightPixels } = picture;
    if (request.handles === null) {
      const at = samplesShown(
        corners.map((point) => ({ ...samples[0]!, at: point })),
        prior.mean,
        widthPixels,
        heightPixels,
      );
      return { kind: 'placed', corners: at.map((point) => (point === null ? { x: 0.5, y: 0.5 } : { x: point.x / widthPixels, y: point.y / heightPixels })) };
    }
    onProgress('Looking for smoke, and laying the word over it');
    const handles = request.handles.map(({ x, y }, index) => ({ point: corners[index]!, seenAt: { x: x * widthPixels, y: y * heightPixels } }));
    const laid = layWord(picture, samples, prior, handles, letterHeightMetres);
    if (!laid.ok) return { kind: 'refused', reason: laid.reason };
    onProgress('Measuring the strokes');
    const { aligned } = laid;
    const widths = strokeWidths(picture, samples, aligned);
    const lines = trails.map((_, stroke) =>
      aligned.shown.flatMap((at, index) => (at === null || samples[index]!.stroke !== stroke ? [] : [{ x: at.x / widthPixels, y: at.y / heightPixels }])),
    );
    const letters = [...new Set(samples.map(({ letterIndex }) => letterIndex))].map((letterIndex): LetterSeen => {
      const own = samples.flatMap((sample, index) => (sample.letterIndex === letterIndex ? [index] : []));
      const offs = own.flatMap((index) => {
        const at = aligned.shown[index];
        const off = aligned.offsetsPixels[index];
        return at == null || off == null ? [] : [Math.abs(off) / (letterHeightMetres * at.pixelsPerMetreAcross)];
      });
      const seen = widths.filter((width) => width.letterIndex === letterIndex);
      return {
        letterIndex,
        character: trails.find((trail) => trail.letterIndex === letterIndex)?.character ?? '',
        offHeights: offs.length === 0 ? null : offs.reduce((sum, off) => sum + off, 0) / offs.length,
        foundShare: own.length === 0 ? 0 : offs.length / own.length,
        sigmaMetres: seen.length === 0 ? null : seen.reduce((sum, { sigmaMetres }) => sum + sigmaMetres, 0) / seen.length,
        ageSeconds: own.reduce((sum, index) => sum + samples[index]!.ageSeconds, 0) / Math.max(1, own.length),
      };
    });
    onProgress('Drawing it as from below');
    const rectified = rectifiedWord(picture, aligned.pose, samples, { facingRadians }, letterHeightMetres, RECTIFIED_PIXELS);
    const { foundShare, residualHeights, pose, sigma, untold } = aligned;
    return { kind: 'laid', lines, foundShare, residualHeights, letters, widths, pose, sigma, untold, rectified };
  } catch (error) {
    return { kind: 'refused', reason: `The picture could not be measured: ${error instanceof Error ? error.message : String(error)}.` };
  }
}

/** The picture's red light, upright, no larger than it is worked on: decoded small, so that 12 megapixels cost little. */
async function openPicture(file: Blob): Promise<GreyPicture | null> {
  const whole = await createImageBitmap(file, { imageOrientation: 'from-image' }).catch(() => null);
  if (whole === null) return null;
  const shrink = Math.min(1, WORKING_PIXELS / Math.max(whole.width, whole.height));
  const width = Math.max(1, Math.round(whole.width * shrink));
  const height = Math.max(1, Math.round(whole.height * shrink));
  const context = new OffscreenCanvas(width, height).getContext('2d', { willReadFrequently: true });
  if (context === null) return null;
  context.imageSmoothingQuality = 'high';
  context.drawImage(whole, 0, 0, width, height);
  whole.close();
  return redLight(context.getImageData(0, 0, width, height).data, width, height, WORKING_PIXELS);
}
