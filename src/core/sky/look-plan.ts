import type { SitePointUp } from '../earth/site-frame.ts';
import type { WindVector } from '../earth/wind-vector.ts';
import { type AirPoint, airPathLengthMetres, airPoseAt } from '../paths/air-path.ts';
import { siteFromAir } from '../plan/place.ts';
import type { Plan, ShipPlan, SmokeLeg } from '../plan/plan.ts';
import { layerPoint, type SeenPoint, seenFrom } from './perspective.ts';
import type { LetterWindow, ReadingWindow, SecondsRange } from './reading-window.ts';

/** Who looks, and at what air. */
export interface LookConditions {
  /** In the site frame; the site itself is all zeros. */
  readonly eye: SitePointUp;
  /** At the layer, steady. */
  readonly wind: WindVector;
  readonly layerAboveSiteMetres: number;
}

/** `fading` begins when the letter may first be lost and ends when nothing of it is seen any more. */
export type LetterStage = 'to come' | 'being written' | 'stands' | 'fading' | 'gone';

/** A letter as the plan has it at an instant. */
export interface LetterNow {
  readonly letterIndex: number;
  readonly character: string;
  readonly stage: LetterStage;
  /** First and last smoke, seconds since the datum. */
  readonly begunSeconds: number;
  readonly completedSeconds: number;
  /** Until when it reads. */
  readonly until: SecondsRange;
  readonly endedBy: LetterWindow['endedBy'];
  /** Where its middle stands now. */
  readonly look: SeenPoint;
}

/** A ship as the plan has it at an instant. */
export interface ShipNow {
  readonly shipIndex: number;
  readonly doing: 'waiting' | 'smoke' | 'between' | 'finished';
  /** The letter being written, or written next; null when finished. */
  readonly letterIndex: number | null;
  readonly character: string | null;
  /** Until its smoke goes off, or on; null when finished. */
  readonly smokeChangesInSeconds: number | null;
  /** Where it is now; before its first smoke, where that will begin. */
  readonly look: SeenPoint;
}

/** What should be in the sky at an instant, by the plan. */
export interface SkyNow {
  /** Where the text's middle is now. */
  readonly text: SeenPoint;
  readonly letters: readonly LetterNow[];
  readonly ships: readonly ShipNow[];
  /** The letter that is begun next; null when none is left. */
  readonly next: { readonly character: string; readonly letterIndex: number; readonly inSeconds: number } | null;
}

/** Where a point of the air is seen at an instant since the datum. */
export function lookToAir(point: AirPoint, atSeconds: number, { eye, wind, layerAboveSiteMetres }: LookConditions): SeenPoint {
  return seenFrom(layerPoint(siteFromAir(point, wind, atSeconds), layerAboveSiteMetres), eye);
}

/** Where the first smoke of a plan appears, at the datum; null for a plan without strokes. */
export function firstSmokeLook(plan: Plan, conditions: LookConditions): SeenPoint | null {
  const [first] = smokeLegs(plan).toSorted((one, other) => one.startSeconds - other.startSeconds);
  return first === undefined ? null : lookToAir(first.path.start, first.startSeconds, conditions);
}

/**
 * What should be in the sky now by the plan, and where to look for it.
 *
 * @param window of the same plan's trails
 * @param atSeconds since the datum; negative before the first smoke
 */
export function skyNow(plan: Plan, window: ReadingWindow, atSeconds: number, conditions: LookConditions): SkyNow {
  const smoke = smokeLegs(plan);
  const letters = window.letters.map((of): LetterNow => {
    const own = smoke.filter(({ letterIndex }) => letterIndex === of.letterIndex);
    const begunSeconds = own.reduce((least, leg) => Math.min(least, leg.startSeconds), Infinity);
    const completedSeconds = own.reduce((most, leg) => Math.max(most, leg.endSeconds), -Infinity);
    return {
      letterIndex: of.letterIndex,
      character: of.character,
      stage: stageOf(of, begunSeconds, completedSeconds, atSeconds),
      begunSeconds,
      completedSeconds,
      until: of.until,
      endedBy: of.endedBy,
      look: lookToAir(middleOf(own), atSeconds, conditions),
    };
  });
  const next = letters
    .filter(({ begunSeconds }) => begunSeconds > atSeconds)
    .reduce<LetterNow | null>((soonest, letter) => (soonest === null || letter.begunSeconds < soonest.begunSeconds ? letter : soonest), null);
  return {
    text: lookToAir(plan.frame.middle, atSeconds, conditions),
    letters,
    ships: plan.ships.flatMap((ship) => shipNow(ship, atSeconds, conditions)),
    next: next === null ? null : { character: next.character, letterIndex: next.letterIndex, inSeconds: next.begunSeconds - atSeconds },
  };
}

function smokeLegs(plan: Plan): SmokeLeg[] {
  return plan.ships.flatMap((ship) => ship.legs.filter((leg): leg is SmokeLeg => leg.kind === 'smoke'));
}

function stageOf({ until, gone }: LetterWindow, begunSeconds: number, completedSeconds: number, atSeconds: number): LetterStage {
  if (atSeconds < begunSeconds) return 'to come';
  if (atSeconds < completedSeconds) return 'being written';
  if (atSeconds < until.lowSeconds) return 'stands';
  return atSeconds < gone.highSeconds ? 'fading' : 'gone';
}

function shipNow(ship: ShipPlan, atSeconds: number, conditions: LookConditions): ShipNow[] {
  const { shipIndex, legs } = ship;
  const leg = legs.find(({ endSeconds }) => atSeconds < endSeconds) ?? legs.at(-1);
  if (leg === undefined) return [];
  const lastsSeconds = leg.endSeconds - leg.startSeconds;
  const share = lastsSeconds > 0 ? Math.min(1, Math.max(0, (atSeconds - leg.startSeconds) / lastsSeconds)) : 1;
  const place = airPoseAt(leg.path, share * airPathLengthMetres(leg.path));
  // What waits to begin is looked for where the air will have brought its beginning by then.
  const look = lookToAir(place, Math.max(atSeconds, leg.startSeconds), {
    ...conditions,
    layerAboveSiteMetres: conditions.layerAboveSiteMetres + ship.heightStepMetres,
  });
  const coming = legs.find((each): each is SmokeLeg => each.kind === 'smoke' && atSeconds < each.endSeconds);
  if (coming === undefined) {
    return [{ shipIndex, doing: 'finished', letterIndex: null, character: null, smokeChangesInSeconds: null, look }];
  }
  const smoking = coming.startSeconds <= atSeconds;
  const begun = (legs[0]?.startSeconds ?? Infinity) <= atSeconds;
  return [
    {
      shipIndex,
      doing: smoking ? 'smoke' : begun ? 'between' : 'waiting',
      letterIndex: coming.letterIndex,
      character: coming.character,
      smokeChangesInSeconds: (smoking ? coming.endSeconds : coming.startSeconds) - atSeconds,
      look,
    },
  ];
}

/** Middle of the strokes' extent, walked in pieces short enough that what an arc bulges beyond them is not seen. */
const STEP_METRES = 50;

function middleOf(legs: readonly SmokeLeg[]): AirPoint {
  let [west, east, south, north] = [Infinity, -Infinity, Infinity, -Infinity];
  for (const { path } of legs) {
    const lengthMetres = airPathLengthMetres(path);
    const count = Math.max(1, Math.ceil(lengthMetres / STEP_METRES));
    for (let index = 0; index <= count; index += 1) {
      const { airEastMetres, airNorthMetres } = airPoseAt(path, (lengthMetres * index) / count);
      west = Math.min(west, airEastMetres);
      east = Math.max(east, airEastMetres);
      south = Math.min(south, airNorthMetres);
      north = Math.max(north, airNorthMetres);
    }
  }
  return { airEastMetres: (west + east) / 2, airNorthMetres: (south + north) / 2 };
}
