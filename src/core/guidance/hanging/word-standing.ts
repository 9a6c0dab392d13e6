import type { SitePoint } from '../../earth/site-frame.ts';
import type { WindVector } from '../../earth/wind-vector.ts';
import { behindPlanSeconds } from '../behind-plan.ts';
import { type SeenPoint, seenFromSite, shownTurnRadians } from '../../sky/perspective.ts';
import type { SecondsRange } from '../../sky/reading-window.ts';
import { type StandingSpan, standingSpan } from '../../sky/standing-span.ts';
import { windAhead } from './hang-again.ts';
import type { FlyingState } from '../guidance-state.ts';
import type { Hanging } from './hanging.ts';
import { driftOf, predictedAt } from '../present.ts';

/** Where the word will stand, by the wind that is known now. */
export interface WordStanding {
  readonly kind: Hanging['kind'];
  /** The best place is forbidden by what was agreed; absent where it is not. */
  readonly forbidden?: 'aside' | 'nowhere';
  /** Before the first smoke it may still be hung elsewhere. */
  readonly beforeSmoke: boolean;
  /** The wall clock at monotonic zero. */
  readonly wallAtZeroMilliseconds: number;
  /** How far from the briefed place the text was hung before the first smoke, in the air-mass frame. */
  readonly movedEastMetres: number;
  readonly movedNorthMetres: number;
  readonly wind: WindVector;
  /** The wind that the text was hung for. */
  readonly hungFor: WindVector;
  /** When the last smoke is expected, monotonic, and when it is read best. */
  readonly lastSmokeAtSeconds: number;
  readonly levelAtSeconds: number;
  /** Where the text's middle was promised to stand at the last smoke when it was hung, and so long after it to be level. */
  readonly promised: SitePoint;
  readonly levelAfterSeconds: number;
  /** Of the text's middle, at the last smoke and in the middle of the reading. */
  readonly atLastSmoke: SitePoint;
  readonly seen: SeenPoint;
  /** Of the reading line in the middle of the reading, positive rising to the right. */
  readonly leanRadians: number;
  /** From the place where the crowd was promised it, at that time. */
  readonly offMetres: number;
  /** Until when its smoke reads as planned, as every screen says it; monotonic. */
  readonly readsUntil: SecondsRange;
  /** While it stands level and high enough for the crowd, from the last smoke on, monotonic; null when it never does. */
  readonly stands: StandingSpan | null;
  /** Whether it reads for somebody in the crowd once it is written: in the middle of its reading it stands and its smoke is there. */
  readonly willRead: boolean;
}

/** So near the middle of its reading a word may end and still be read: there nobody counts the seconds. */
const NEAR_SECONDS = 15;

/**
 * How the word will stand to the crowd: where its middle drifts by the wind as it is believed now, how it leans there, until
 * when its smoke reads and how long it stands level. Null without a
 * hanging to compare with, before the wind is known, where nothing is trusted, and of a word that was left.
 */
export function wordStanding(state: FlyingState): WordStanding | null {
  const { flight } = state;
  const wish = flight.setup.hanging;
  const { hanging } = flight;
  const now = predictedAt(flight, flight.atSeconds);
  if (wish === undefined || hanging === null || now === null || (state.phase === 'finished' && state.how !== 'complete')) return null;
  const datum = flight.datumAtSeconds ?? flight.expectedDatumAtSeconds ?? flight.atSeconds;
  const wind = windAhead(flight, flight.tracker.estimate!);
  const drift = driftOf(now, flight);
  const middleAt = (atSeconds: number): SitePoint => {
    // Before the datum the air has drifted backwards: what was smoked at the datum lies over its place then.
    const ahead = atSeconds - Math.max(datum, flight.atSeconds);
    const since = flight.atSeconds >= datum ? drift : { eastMetres: 0, northMetres: 0 };
    return {
      eastMetres: wish.middle.airEastMetres + flight.movedEastMetres + since.eastMetres + wind.eastMetresPerSecond * ahead,
      northMetres: wish.middle.airNorthMetres + flight.movedNorthMetres + since.northMetres + wind.northMetresPerSecond * ahead,
    };
  };
  const asPlanned = datum + wish.writingSeconds + behindPlanSeconds(state);
  const lastSmokeAtSeconds = state.phase === 'finished' ? Math.min(asPlanned, flight.atSeconds) : Math.max(asPlanned, flight.atSeconds);
  const levelAtSeconds = lastSmokeAtSeconds + hanging.levelAfterSeconds;
  const atLastSmoke = middleAt(lastSmokeAtSeconds);
  const seen = seenFromSite(middleAt(levelAtSeconds), wish.layerAboveSiteMetres);
  const { lowSeconds, likelySeconds, highSeconds } = flight.setup.readsUntil ?? alike(wish.writingSeconds + wish.readingSeconds);
  const readsUntil = { lowSeconds: datum + lowSeconds, likelySeconds: datum + likelySeconds, highSeconds: datum + highSeconds };
  const stands = standingSpan(middleAt, wish, lastSmokeAtSeconds, Math.max(lastSmokeAtSeconds, readsUntil.highSeconds));
  return {
    kind: hanging.kind,
    ...(hanging.forbidden === undefined ? {} : { forbidden: hanging.forbidden }),
    beforeSmoke: flight.smokeCuedAtSeconds === null,
    wallAtZeroMilliseconds: flight.wallMilliseconds - 1000 * flight.atSeconds,
    movedEastMetres: hanging.movedEastMetres,
    movedNorthMetres: hanging.movedNorthMetres,
    wind,
    hungFor: hanging.wind,
    lastSmokeAtSeconds,
    levelAtSeconds,
    promised: hanging.atLastSmoke,
    levelAfterSeconds: hanging.levelAfterSeconds,
    atLastSmoke,
    seen,
    leanRadians: shownTurnRadians(seen.azimuthRadians, wish.facingRadians, seen.elevationRadians),
    offMetres: Math.hypot(atLastSmoke.eastMetres - hanging.atLastSmoke.eastMetres, atLastSmoke.northMetres - hanging.atLastSmoke.northMetres),
    readsUntil,
    stands,
    willRead: stands !== null && Math.min(stands.untilSeconds, readsUntil.likelySeconds) >= levelAtSeconds - NEAR_SECONDS,
  };
}

/** Of logs that keep no range. */
function alike(seconds: number): SecondsRange {
  return { lowSeconds: seconds, likelySeconds: seconds, highSeconds: seconds };
}
