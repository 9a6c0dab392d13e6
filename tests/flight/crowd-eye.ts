import { createCanvas } from '@napi-rs/canvas';
import type { Puff } from './simulated-flight.ts';

/**
 * An eye on the ground at the site, in the simulated world: where the true smoke stands, how the word leans, and a
 * picture of it in perspective, its smoke aged. Knows nothing of the app; written in bearings.
 */

/** How far the air had moved by a time since the flight began. */
export type DriftAt = (atSeconds: number) => { readonly eastMetres: number; readonly northMetres: number };

/** Ink of a word as it was planned, in the letter frame: x along reading, y to the letters' top, the middle at zero. */
export type PlannedInk = readonly { readonly xMetres: number; readonly yMetres: number }[];

/** How a word truly lies in the air. */
export interface WordPose {
  /** Its middle, in the coordinates of the puffs. */
  readonly airEastMetres: number;
  readonly airNorthMetres: number;
  /** The azimuth along which it is read level: reading runs along this plus 90 degrees. */
  readonly facingDegrees: number;
  readonly rmsMetres: number;
}

/** A word as it is seen at a moment. */
export interface WordSeen {
  /** Its line's angle in the picture, positive rising to the right; over 90 from behind. */
  readonly leanDegrees: number;
  readonly bearingDegrees: number;
  readonly elevationDegrees: number;
  readonly distanceMetres: number;
  readonly eastMetres: number;
  readonly northMetres: number;
}

const DEGREE = Math.PI / 180;
const EARTH_METRES = 6_371_000;
export const angleBetween = (one: number, other: number): number => ((((one - other + 180) % 360) + 360) % 360) - 180;

/** A fit by nearest ink, turned and moved, never stretched: from 24 directions, the best kept. */
export function wordPose(trails: readonly (readonly Puff[])[], ink: PlannedInk): WordPose {
  const puffs = trails.flat();
  const every = Math.max(1, Math.floor(puffs.length / 160));
  const smoke = puffs.filter((_, index) => index % every === 0);
  const middle = middleOf(ink.map(({ xMetres, yMetres }) => ({ airEastMetres: xMetres, airNorthMetres: yMetres })));
  const cloud = middleOf(smoke);
  let best: WordPose | null = null;
  for (let turn = 0; turn < 24; turn += 1) {
    const facing = turn * 15 * DEGREE;
    const from = placed({ xMetres: middle.airEastMetres, yMetres: middle.airNorthMetres }, facing, 0, 0);
    const pose = fitted(smoke, ink, facing, cloud.airEastMetres - from.east, cloud.airNorthMetres - from.north, best === null ? 12 : 8);
    if (best === null || pose.rmsMetres < best.rmsMetres) best = pose;
  }
  return fitted(smoke, ink, best!.facingDegrees * DEGREE, best!.airEastMetres, best!.airNorthMetres, 20);
}

function middleOf(points: readonly Pick<Puff, 'airEastMetres' | 'airNorthMetres'>[]): { airEastMetres: number; airNorthMetres: number } {
  const sum = points.reduce((all, one) => ({ e: all.e + one.airEastMetres, n: all.n + one.airNorthMetres }), { e: 0, n: 0 });
  return { airEastMetres: sum.e / points.length, airNorthMetres: sum.n / points.length };
}

/** Seen from below, reading runs along the facing plus 90 degrees and tops point towards the eye. */
function placed({ xMetres, yMetres }: PlannedInk[number], facing: number, east: number, north: number): { east: number; north: number } {
  return {
    east: east + xMetres * Math.cos(facing) - yMetres * Math.sin(facing),
    north: north - xMetres * Math.sin(facing) - yMetres * Math.cos(facing),
  };
}

function fitted(smoke: readonly Puff[], ink: PlannedInk, facing0: number, east0: number, north0: number, rounds: number): WordPose {
  let [facing, east, north] = [facing0, east0, north0];
  let rms = Infinity;
  for (let round = 0; round < rounds; round += 1) {
    const lines = ink.map((point) => placed(point, facing, east, north));
    const pairs = smoke.map((puff) => {
      let nearest = 0;
      let least = Infinity;
      lines.forEach((point, index) => {
        const square = (point.east - puff.airEastMetres) ** 2 + (point.north - puff.airNorthMetres) ** 2;
        if (square < least) [least, nearest] = [square, index];
      });
      return { puff, point: ink[nearest]!, square: least };
    });
    // What lies farthest off is left out: a stroke begun again, a tail.
    const kept = pairs.toSorted((one, other) => one.square - other.square).slice(0, Math.ceil(0.95 * pairs.length));
    rms = Math.sqrt(kept.reduce((sum, { square }) => sum + square, 0) / kept.length);
    const mean = kept.reduce(
      (all, { puff, point }) => ({ e: all.e + puff.airEastMetres, n: all.n + puff.airNorthMetres, x: all.x + point.xMetres, y: all.y + point.yMetres }),
      { e: 0, n: 0, x: 0, y: 0 },
    );
    const [e, n, x, y] = [mean.e / kept.length, mean.n / kept.length, mean.x / kept.length, mean.y / kept.length];
    let cosine = 0;
    let sine = 0;
    for (const { puff, point } of kept) {
      const [de, dn, dx, dy] = [puff.airEastMetres - e, puff.airNorthMetres - n, point.xMetres - x, point.yMetres - y];
      cosine += de * dx - dn * dy;
      sine += -de * dy - dn * dx;
    }
    facing = Math.atan2(sine, cosine);
    const back = placed({ xMetres: x, yMetres: y }, facing, 0, 0);
    [east, north] = [e - back.east, n - back.north];
  }
  return { airEastMetres: east, airNorthMetres: north, facingDegrees: (((facing / DEGREE) % 360) + 360) % 360, rmsMetres: rms };
}

/** A word as it is seen from the site at a time. */
export function wordSeen(pose: WordPose, driftAt: DriftAt, atSeconds: number, aboveEyeMetres: number): WordSeen {
  const drift = driftAt(atSeconds);
  const east = pose.airEastMetres + drift.eastMetres;
  const north = pose.airNorthMetres + drift.northMetres;
  const distance = Math.hypot(east, north);
  const bearing = Math.atan2(east, north);
  const elevation = Math.atan2(aboveEyeMetres - distance ** 2 / 2 / EARTH_METRES, distance);
  const aside = pose.facingDegrees * DEGREE - bearing;
  // A level line seen at a slant: its part along the sight is shortened by the sine of the elevation.
  const lean = Math.atan2(Math.sin(aside) * Math.sin(elevation), Math.cos(aside));
  return {
    leanDegrees: lean / DEGREE,
    bearingDegrees: (((bearing / DEGREE) % 360) + 360) % 360,
    elevationDegrees: elevation / DEGREE,
    distanceMetres: distance,
    eastMetres: east,
    northMetres: north,
  };
}

export interface EyePicture {
  readonly atSeconds: number;
  readonly aboveEyeMetres: number;
  /** Diffusivity of the air, m2/s: smoke spreads to the root of 2 D t. */
  readonly diffusivity: number;
  readonly letterHeightMetres: number;
  /** The elevation whose slant is taken off, in degrees; null leaves the picture as it stands. */
  readonly slantOffDegrees: number | null;
  /** How high the reader gets the letters, unslanted; 48 by default. */
  readonly letterPixels?: number;
  /** Darker than this share of full black is ink and the rest sky; left out, the picture stays grey. */
  readonly tracedAt?: number;
}

const LETTER_PIXELS = 48;
const FIRST_SPREAD_METRES = 15;

/**
 * The word as an eye at the site sees it: central projection about its own middle, every puff as wide as its age makes
 * it, grey by how much smoke lies along the sight. With a slant to be taken off, the picture is tilted back by the
 * elevation that was promised, whatever the true one is. The reader's letters are 48 pixels high, unslanted.
 */
export function eyePicture(trails: readonly (readonly Puff[])[], pose: WordPose, driftAt: DriftAt, picture: EyePicture): Buffer {
  const { atSeconds, aboveEyeMetres, slantOffDegrees } = picture;
  const drift = driftAt(atSeconds);
  const seen = wordSeen(pose, driftAt, atSeconds, aboveEyeMetres);
  const bearing = seen.bearingDegrees * DEGREE;
  const elevation = seen.elevationDegrees * DEGREE;
  const promised = slantOffDegrees === null ? null : slantOffDegrees * DEGREE;
  const spots: { x: number; y: number; wide: number; high: number }[] = [];
  for (const trail of trails) {
    trail.forEach((puff, index) => {
      if (index % 3 !== 0) return;
      const east = puff.airEastMetres + drift.eastMetres;
      const north = puff.airNorthMetres + drift.northMetres;
      const up = aboveEyeMetres - (east * east + north * north) / 2 / EARTH_METRES;
      const right = east * Math.cos(bearing) - north * Math.sin(bearing);
      const level = east * Math.sin(bearing) + north * Math.cos(bearing);
      const ahead = level * Math.cos(elevation) + up * Math.sin(elevation);
      if (ahead < 0.05 * aboveEyeMetres) return;
      const x = right / ahead;
      const y = (up * Math.cos(elevation) - level * Math.sin(elevation)) / ahead;
      const spread = Math.hypot(FIRST_SPREAD_METRES, Math.sqrt(2 * picture.diffusivity * Math.max(0, atSeconds - puff.atSeconds)));
      const range = Math.hypot(east, north, up);
      if (promised === null) spots.push({ x, y, wide: spread / range, high: (spread / range) * Math.sin(elevation) });
      else {
        // Back onto a level sheet at height one, as if it hung at the promised elevation.
        const rise = Math.sin(promised) + y * Math.cos(promised);
        if (rise < 0.05) return;
        const away = (Math.cos(promised) - y * Math.sin(promised)) / rise;
        const tilt = spread / range / Math.sin(promised);
        spots.push({ x: x / rise, y: 1 / Math.tan(promised) - away, wide: tilt, high: (tilt * Math.sin(elevation)) / Math.sin(promised) });
      }
    });
  }
  const unit = promised === null ? Math.sin(elevation) / aboveEyeMetres : 1 / aboveEyeMetres;
  const { letterPixels = LETTER_PIXELS, tracedAt } = picture;
  return paint(spots, letterPixels / (picture.letterHeightMetres * unit), letterPixels, tracedAt);
}

/** Grey by the smoke that lies on each pixel. */
function paint(
  spots: readonly { x: number; y: number; wide: number; high: number }[],
  pixels: number,
  letterPixels: number,
  tracedAt: number | undefined,
): Buffer {
  const margin = 0.6 * letterPixels;
  const [minX, maxX] = [Math.min(...spots.map(({ x }) => x)), Math.max(...spots.map(({ x }) => x))];
  const [minY, maxY] = [Math.min(...spots.map(({ y }) => y)), Math.max(...spots.map(({ y }) => y))];
  const width = Math.min(3000, Math.ceil((maxX - minX) * pixels + 2 * margin));
  const height = Math.min(1500, Math.ceil((maxY - minY) * pixels + 2 * margin));
  const depth = new Float32Array(width * height);
  for (const spot of spots) {
    const [cx, cy] = [(spot.x - minX) * pixels + margin, (maxY - spot.y) * pixels + margin];
    const [sx, sy] = [Math.max(0.7, spot.wide * pixels), Math.max(0.7, spot.high * pixels)];
    const load = 1 / sx / sy;
    for (let row = Math.max(0, Math.floor(cy - 3 * sy)); row <= Math.min(height - 1, cy + 3 * sy); row += 1) {
      const down = ((row - cy) / sy) ** 2;
      for (let column = Math.max(0, Math.floor(cx - 3 * sx)); column <= Math.min(width - 1, cx + 3 * sx); column += 1) {
        depth[row * width + column]! += load * Math.exp(-(down + ((column - cx) / sx) ** 2) / 2);
      }
    }
  }
  // The eye sees old smoke beside new as letters too: the middle of the faintest strokes is full ink, what is denser no more than that.
  const widest = Math.max(...spots.map(({ wide, high }) => wide * high));
  const oldest = spots.filter(({ wide, high }) => wide * high > 0.8 * widest);
  const cores = oldest
    .map(({ x, y }) => depth[Math.round((maxY - y) * pixels + margin) * width + Math.round((x - minX) * pixels + margin)] ?? 0)
    .sort((one, other) => one - other);
  const full = cores[Math.floor(cores.length / 2)] ?? 1;
  const canvas = createCanvas(width, height);
  const context = canvas.getContext('2d');
  const image = context.createImageData(width, height);
  depth.forEach((value, index) => {
    const ink = Math.min(1, value / full);
    const grey = Math.round(255 * (1 - (tracedAt === undefined ? ink : ink > tracedAt ? 1 : 0)));
    image.data.set([grey, grey, grey, 255], index * 4);
  });
  context.putImageData(image, 0, 0);
  return canvas.toBuffer('image/png');
}

/** How many of a word's letters a reading has in order: the longest common subsequence over the word's length. */
export function shareOfLetters(word: string, read: string): number {
  const best = Array.from({ length: word.length + 1 }, () => new Array<number>(read.length + 1).fill(0));
  for (let one = 1; one <= word.length; one += 1) {
    for (let other = 1; other <= read.length; other += 1) {
      best[one]![other] = word[one - 1] === read[other - 1] ? best[one - 1]![other - 1]! + 1 : Math.max(best[one - 1]![other]!, best[one]![other - 1]!);
    }
  }
  return best[word.length]![read.length]! / word.length;
}

/** A reader looks again: nearer and farther, at the greys and at tracings of them. */
const LOOKS: readonly Pick<EyePicture, 'letterPixels' | 'tracedAt'>[] = [44, 52, 60].flatMap((letterPixels) => [
  { letterPixels },
  { letterPixels, tracedAt: 0.4 },
  { letterPixels, tracedAt: 0.55 },
]);

/** What most looks at a word give, without blanks: one look may read by an accident of a letter, nine agree. Empty answers do not count. */
export async function readFromSite(
  pictureOf: (look: Pick<EyePicture, 'letterPixels' | 'tracedAt'>) => Buffer,
  read: (png: Buffer) => Promise<{ readonly text: string }>,
): Promise<string> {
  const votes = new Map<string, number>();
  for (const look of LOOKS) {
    const text = (await read(pictureOf(look))).text.replaceAll(' ', '');
    if (text !== '') votes.set(text, (votes.get(text) ?? 0) + 1);
  }
  return [...votes].toSorted(([, one], [, other]) => other - one)[0]?.[0] ?? '';
}
