import { layerPoint } from '../sky/perspective.ts';
import type { Trail } from '../sky/trail.ts';
import type { FromEye } from './photo-camera.ts';
import type { WindVector } from '../earth/wind-vector.ts';
import { siteFromAir } from '../plan/place.ts';
import type { SitePointUp } from '../earth/site-frame.ts';

/** A bit of a stroke at the moment of a picture. */
export interface WordSample {
  /** Where its middle and a point a metre on along the stroke are, from the eye, by the wind as it was believed. */
  readonly at: FromEye;
  readonly onEast: number;
  readonly onNorth: number;
  /** Index of the trail, and of the letter it belongs to. */
  readonly stroke: number;
  readonly letterIndex: number;
  readonly alongMetres: number;
  readonly ageSeconds: number;
  /** Than the word's bits are on the mean. */
  readonly olderSeconds: number;
  readonly kilogramsPerMetre: number;
}

/** What ties trails to a picture. */
export interface PictureMoment {
  /** Since the datum. */
  readonly atSeconds: number;
  /** The camera's place in the site frame. */
  readonly eye: SitePointUp;
  /** As planned or found, steady. */
  readonly wind: WindVector;
  readonly layerAboveSiteMetres: number;
}

/** Bits of a word's strokes at equal steps, as they stand when a picture is taken; what is laid later is left out. */
export function wordSamples(trails: readonly Trail[], { atSeconds, eye, wind, layerAboveSiteMetres }: PictureMoment, stepMetres: number): WordSample[] {
  const samples: Omit<WordSample, 'olderSeconds'>[] = [];
  trails.forEach(({ points, letterIndex, kilogramsPerMetre, heightStepMetres }, stroke) => {
    let alongMetres = 0;
    let next = stepMetres / 2;
    for (let index = 1; index < points.length; index++) {
      const from = points[index - 1]!;
      const to = points[index]!;
      const east = to.airEastMetres - from.airEastMetres;
      const north = to.airNorthMetres - from.airNorthMetres;
      const length = Math.hypot(east, north);
      for (; length > 0 && next <= alongMetres + length; next += stepMetres) {
        const share = (next - alongMetres) / length;
        const ageSeconds = atSeconds - from.laidAtSeconds - share * (to.laidAtSeconds - from.laidAtSeconds);
        if (ageSeconds < 0) continue;
        const ground = siteFromAir({ airEastMetres: from.airEastMetres + share * east, airNorthMetres: from.airNorthMetres + share * north }, wind, atSeconds);
        const point = layerPoint(ground, layerAboveSiteMetres + heightStepMetres);
        samples.push({
          at: {
            eastMetres: point.eastMetres - eye.eastMetres,
            northMetres: point.northMetres - eye.northMetres,
            upMetres: point.upMetres - eye.upMetres,
          },
          onEast: east / length,
          onNorth: north / length,
          stroke,
          letterIndex,
          alongMetres: next,
          ageSeconds,
          kilogramsPerMetre,
        });
      }
      alongMetres += length;
    }
  });
  const middleSeconds = samples.reduce((sum, { ageSeconds }) => sum + ageSeconds, 0) / samples.length;
  return samples.map((sample) => ({ ...sample, olderSeconds: sample.ageSeconds - middleSeconds }));
}
