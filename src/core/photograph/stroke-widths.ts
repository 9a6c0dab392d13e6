import { SMOKE_RANGE } from '../sky/smoke-range.ts';
import { type GreyPicture, valueAt } from './grey-picture.ts';
import { fitProfile } from './profile-width.ts';
import type { WordAligned } from './align-word.ts';
import { smokeSigmaMetres } from './smoke-width.ts';
import type { WordSample } from './word-samples.ts';

/** How wide a bit of a stroke is in a picture. */
export interface WidthSeen {
  readonly stroke: number;
  readonly letterIndex: number;
  readonly ageSeconds: number;
  /** Standard deviation of the smoke across the stroke, and of this measurement. */
  readonly sigmaMetres: number;
  readonly errorMetres: number;
}

/** Bits taken together for one measurement: their brightness is averaged along the stroke. */
const TOGETHER = 6;
/** Looked at so many deviations to either side. */
const ASIDE_SIGMAS = 4;
const PLACES = 41;
/** How well the depth of smoke is known beforehand: the extinction of oil droplets alone spans 4.9 to 8.4 m2 a gram. */
const DEPTH_SIGMA = 0.35;

/**
 * The widths of a word's strokes in a picture that it was laid over, from the brightness across runs of neighbouring bits.
 * Runs that another stroke comes near are left out, since its smoke lies in theirs.
 */
export function strokeWidths(picture: GreyPicture, samples: readonly WordSample[], { shown, offsetsPixels }: WordAligned): WidthSeen[] {
  const widths: WidthSeen[] = [];
  for (let first = 0; first + TOGETHER <= samples.length; first += TOGETHER) {
    const run = Array.from({ length: TOGETHER }, (_, index) => first + index);
    const start = samples[first]!;
    if (run.some((index) => samples[index]!.stroke !== start.stroke || shown[index] == null || offsetsPixels[index] == null)) continue;
    const middle = samples[first + TOGETHER / 2]!;
    const believed = smokeSigmaMetres(middle.ageSeconds);
    const asideMetres = ASIDE_SIGMAS * believed;
    if (crowded(samples, first, asideMetres + believed)) continue;
    const step = (2 * asideMetres) / (PLACES - 1);
    const places = Array.from({ length: PLACES }, (_, index) => -asideMetres + index * step);
    const brightness = places.map((place) => {
      let sum = 0;
      for (const index of run) {
        const at = shown[index]!;
        const pixels = place * at.pixelsPerMetreAcross + offsetsPixels[index]!;
        sum += valueAt(picture, at.x - at.alongY * pixels, at.y + at.alongX * pixels);
      }
      return sum / TOGETHER;
    });
    const air = SMOKE_RANGE.likely;
    // The sight passes through the layer at a slant.
    const slant = Math.hypot(middle.at.eastMetres, middle.at.northMetres, middle.at.upMetres) / middle.at.upMetres;
    const depth = (slant * air.extinctionSquareMetresPerKilogram * middle.kilogramsPerMetre) / (Math.sqrt(2 * Math.PI) * believed);
    const fit = fitProfile(places, brightness, { sigma: believed, depth: Math.max(0.02, depth), depthSigma: DEPTH_SIGMA });
    if (fit === null || fit.sigma > 2.5 * believed || fit.sigma < 0.3 * believed) continue;
    // Not narrower than a pixel can show.
    const pixelMetres = 1 / shown[first + TOGETHER / 2]!.pixelsPerMetreAcross;
    if (fit.sigma < 0.7 * pixelMetres) continue;
    widths.push({
      stroke: start.stroke,
      letterIndex: start.letterIndex,
      ageSeconds: middle.ageSeconds,
      sigmaMetres: Math.sqrt(Math.max(0.01, fit.sigma ** 2 - pixelMetres ** 2 / 12)),
      errorMetres: Math.hypot(fit.sigmaOfSigma, 0.07 * fit.sigma),
    });
  }
  return widths;
}

/** Whether smoke of another stroke, or of a far part of the same, comes nearer than this. */
function crowded(samples: readonly WordSample[], first: number, nearMetres: number): boolean {
  const at = samples[first + TOGETHER / 2]!;
  return samples.some((other) => {
    if (other.stroke === at.stroke && Math.abs(other.alongMetres - at.alongMetres) < 2.5 * nearMetres) return false;
    return Math.hypot(other.at.eastMetres - at.at.eastMetres, other.at.northMetres - at.at.northMetres) < nearMetres;
  });
}
