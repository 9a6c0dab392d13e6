import type { ShearVector } from '../earth/wind-profile.ts';
import type { AirPoint } from '../paths/air-path.ts';
import { opticalDepthFromBelow, plumeSpread, shearAcross } from './plume.ts';
import type { SmokeCase } from './smoke-range.ts';
import { type Trail, type TrailPiece, trailPieces } from './trail.ts';

/** A stroke's smoke in few numbers: its middle, its time, its shear. */
interface StrokeSmoke {
  readonly lengthMetres: number;
  readonly laidAtSeconds: number;
  /** Root mean square over the stroke of what lies across it; null where the winds tell none. */
  readonly shearAcrossPerSecond: number | null;
  readonly kilogramsPerMetre: number;
}

/** All the smoke of one letter. */
export interface LetterSmoke {
  readonly letterIndex: number;
  readonly character: string;
  /** Middle of its extent, in the air-mass frame. */
  readonly middle: AirPoint;
  readonly firstSmokeSeconds: number;
  readonly lastSmokeSeconds: number;
  /** Between neighbouring strokes, for half of the ink at least; Infinity for a letter without neighbours. */
  readonly spacingMetres: number;
  /** It is one stem and nothing else, such as an I: all it is read by is what parts it from its neighbours. */
  readonly isStem: boolean;
  readonly strokes: readonly StrokeSmoke[];
}

/** Strokes are neighbours when they run within this of parallel. */
const PARALLEL_RADIANS = (25 * Math.PI) / 180;
/** A letter no wider than this share of its height is a stem. */
const THIN_HEIGHTS = 0.1;

/**
 * The letters of some trails, in reading order.
 *
 * Spacing: every bit of a letter's ink looks square to both sides for the nearest ink that runs alongside, its own
 * letter's or the next one's; the spacing is the median over the letter's length, so that strokes that only meet at a
 * corner do not count as merged. The three bars and the stem of an E of height H: H / 2. Beside a letter that is one
 * stem and nothing else, its neighbours' ink counts whichever way it runs.
 */
export function letterSmokes(trails: readonly Trail[], letterHeightMetres: number, shear: ShearVector | null): LetterSmoke[] {
  const byLetter = new Map<number, Trail[]>();
  for (const trail of trails) byLetter.set(trail.letterIndex, [...(byLetter.get(trail.letterIndex) ?? []), trail]);
  const ink = new Map([...byLetter].map(([letterIndex, own]) => [letterIndex, own.flatMap(trailPieces)]));
  return [...byLetter]
    .sort(([one], [other]) => one - other)
    .map(([letterIndex, own]) => {
      const points = own.flatMap((trail) => trail.points);
      const east = points.map((point) => point.airEastMetres);
      const north = points.map((point) => point.airNorthMetres);
      const pieces = ink.get(letterIndex) ?? [];
      const beside = [-1, 1].flatMap((step) => ink.get(letterIndex + step) ?? []);
      const isStem = isOneStem(pieces, letterHeightMetres);
      return {
        letterIndex,
        character: own[0]?.character ?? '',
        middle: {
          airEastMetres: (Math.min(...east) + Math.max(...east)) / 2,
          airNorthMetres: (Math.min(...north) + Math.max(...north)) / 2,
        },
        firstSmokeSeconds: Math.min(...points.map((point) => point.laidAtSeconds)),
        lastSmokeSeconds: Math.max(...points.map((point) => point.laidAtSeconds)),
        spacingMetres: isStem
          ? medianSpacing(pieces, beside, letterHeightMetres, Math.PI / 2)
          : medianSpacing(pieces, [...pieces, ...beside], letterHeightMetres, PARALLEL_RADIANS),
        isStem,
        strokes: own.map((trail) => strokeSmoke(trail, shear)),
      };
    });
}

/** How wide a letter's smoke is at a time: root mean square of its strokes' spreads, by their length. */
export function letterSpreadMetres(letter: LetterSmoke, smoke: SmokeCase, atSeconds: number): number {
  let squares = 0;
  let lengthMetres = 0;
  for (const stroke of letter.strokes) {
    squares += stroke.lengthMetres * strokeSpread(stroke, smoke, atSeconds).horizontalMetres ** 2;
    lengthMetres += stroke.lengthMetres;
  }
  return lengthMetres > 0 ? Math.sqrt(squares / lengthMetres) : 0;
}

/** Optical depth from below of the letter's faintest stroke at a time; strokes under a tenth of its ink are left out. */
export function letterDepth(letter: LetterSmoke, smoke: SmokeCase, atSeconds: number): number {
  const total = letter.strokes.reduce((sum, stroke) => sum + stroke.lengthMetres, 0);
  const depths = letter.strokes
    .filter((stroke) => stroke.lengthMetres >= total / 10)
    .map((stroke) => {
      const load = {
        kilogramsPerMetre: stroke.kilogramsPerMetre,
        extinctionSquareMetresPerKilogram: smoke.extinctionSquareMetresPerKilogram,
      };
      return opticalDepthFromBelow(load, strokeSpread(stroke, smoke, atSeconds));
    });
  return Math.min(...depths);
}

function strokeSpread(stroke: StrokeSmoke, smoke: SmokeCase, atSeconds: number): ReturnType<typeof plumeSpread> {
  const ageSeconds = Math.max(0, atSeconds - stroke.laidAtSeconds);
  return plumeSpread(ageSeconds, stroke.shearAcrossPerSecond ?? smoke.assumedShearPerSecond, smoke.air);
}

function strokeSmoke(trail: Trail, shear: ShearVector | null): StrokeSmoke {
  const pieces = trailPieces(trail);
  const lengthMetres = pieces.reduce((sum, piece) => sum + piece.lengthMetres, 0);
  const mean = (value: (piece: TrailPiece) => number): number =>
    lengthMetres > 0 ? pieces.reduce((sum, piece) => sum + piece.lengthMetres * value(piece), 0) / lengthMetres : 0;
  return {
    lengthMetres,
    laidAtSeconds: mean((piece) => piece.laidAtSeconds),
    shearAcrossPerSecond: shear === null ? null : Math.sqrt(mean((piece) => shearAcross(shear, piece.directionRadians) ** 2)),
    kilogramsPerMetre: trail.kilogramsPerMetre,
  };
}

function medianSpacing(own: readonly TrailPiece[], all: readonly TrailPiece[], letterHeightMetres: number, withinRadians: number): number {
  const spacings = own
    .map((piece) => ({ lengthMetres: piece.lengthMetres, spacingMetres: nearestAlongside(piece, all, letterHeightMetres, withinRadians) }))
    .sort((one, other) => one.spacingMetres - other.spacingMetres);
  let leftMetres = own.reduce((sum, piece) => sum + piece.lengthMetres, 0) / 2;
  for (const { lengthMetres, spacingMetres } of spacings) {
    leftMetres -= lengthMetres;
    if (leftMetres <= 0) return spacingMetres;
  }
  return Infinity;
}

/** Whether some ink is straight, and long enough to be told from a dot. */
function isOneStem(pieces: readonly TrailPiece[], letterHeightMetres: number): boolean {
  const first = pieces[0];
  if (first === undefined) return false;
  const cosine = Math.cos(first.directionRadians);
  const sine = Math.sin(first.directionRadians);
  const across = pieces.flatMap(({ from, to }) => [from, to].map(({ airEastMetres, airNorthMetres }) => airNorthMetres * cosine - airEastMetres * sine));
  const lengthMetres = pieces.reduce((sum, piece) => sum + piece.lengthMetres, 0);
  return Math.max(...across) - Math.min(...across) < THIN_HEIGHTS * letterHeightMetres && lengthMetres > letterHeightMetres / 2;
}

function nearestAlongside(piece: TrailPiece, all: readonly TrailPiece[], letterHeightMetres: number, withinRadians: number): number {
  const cosine = Math.cos(piece.directionRadians);
  const sine = Math.sin(piece.directionRadians);
  const east = (piece.from.airEastMetres + piece.to.airEastMetres) / 2;
  const north = (piece.from.airNorthMetres + piece.to.airNorthMetres) / 2;
  let nearestMetres = Infinity;
  for (const other of all) {
    const turn = Math.abs(Math.sin(other.directionRadians - piece.directionRadians));
    if (turn > Math.sin(withinRadians)) continue;
    const toEast = (other.from.airEastMetres + other.to.airEastMetres) / 2 - east;
    const toNorth = (other.from.airNorthMetres + other.to.airNorthMetres) / 2 - north;
    const along = Math.abs(toEast * cosine + toNorth * sine);
    const aside = Math.abs(toNorth * cosine - toEast * sine);
    // Nearer than this it is the same stroke, bent or begun anew.
    if (aside > 0.08 * letterHeightMetres && along <= other.lengthMetres) nearestMetres = Math.min(nearestMetres, aside);
  }
  return nearestMetres;
}
