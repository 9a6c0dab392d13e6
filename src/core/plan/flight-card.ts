import { bearingFromDirection, signedRadians } from '../units/angle.ts';
import type { PathSegment } from '../units/arc.ts';
import type { Leg, ShipPlan } from './plan.ts';

/** A piece of a leg as a pilot speaks of it: hold a heading for some seconds, or turn through an angle onto one. */
export interface CardPiece {
  readonly kind: 'straight' | 'left' | 'right';
  /** Held, or rolled out on; clockwise from true north. */
  readonly headingRadians: number;
  /** Through which the turn goes; 0 when straight. */
  readonly turnRadians: number;
  readonly seconds: number;
}

/** A stroke and the way to it, for a card on the kneeboard. */
export interface CardStep {
  /** 1-based, in flying order. */
  readonly strokeNumber: number;
  readonly character: string;
  /** Smoke off, before the stroke; empty before the first stroke of a ship alone. */
  readonly way: readonly CardPiece[];
  readonly waySeconds: number;
  /** Heading at which the smoke comes on. */
  readonly smokeHeadingRadians: number;
  readonly smoke: readonly CardPiece[];
  readonly smokeSeconds: number;
  /** When the smoke comes on, since the datum. */
  readonly startSeconds: number;
  /** Circles flown before the stroke to keep the ships apart. */
  readonly holdSeconds: number;
}

/** A turn of less than this is a correction that nobody notes on a card. */
const NOTED_TURN_RADIANS = (4 * Math.PI) / 180;

/** What one ship flies, stroke by stroke. Headings are true; the compass's are the caller's. */
export function flightCard(ship: ShipPlan): CardStep[] {
  const steps: CardStep[] = [];
  let way: CardPiece[] = [];
  let waySeconds = 0;
  let holdSeconds = 0;
  const legs: readonly Leg[] = ship.joinUp === undefined ? ship.legs : [ship.joinUp.leg, ...ship.legs];
  for (const leg of legs) {
    const seconds = leg.endSeconds - leg.startSeconds;
    if (leg.kind === 'hold') {
      holdSeconds += seconds;
      continue;
    }
    if (leg.kind === 'reposition') {
      way = [...way, ...piecesOf(leg)];
      waySeconds += seconds;
      continue;
    }
    steps.push({
      strokeNumber: steps.length + 1,
      character: leg.character,
      way,
      waySeconds,
      smokeHeadingRadians: bearingFromDirection(leg.path.start.directionRadians),
      smoke: piecesOf(leg),
      smokeSeconds: seconds,
      startSeconds: leg.startSeconds,
      holdSeconds,
    });
    way = [];
    waySeconds = 0;
    holdSeconds = 0;
  }
  return steps;
}

/** A leg's pieces, its seconds shared out by length; neighbours of one kind are one piece. */
function piecesOf(leg: Leg): CardPiece[] {
  const lengthMetres = leg.path.segments.reduce((sum, segment) => sum + segment.lengthMetres, 0);
  const secondsPerMetre = lengthMetres > 0 ? (leg.endSeconds - leg.startSeconds) / lengthMetres : 0;
  const pieces: CardPiece[] = [];
  let direction = leg.path.start.directionRadians;
  for (const segment of leg.path.segments) {
    const turned = segment.lengthMetres * segment.curvaturePerMetre;
    direction = signedRadians(direction + turned);
    const piece: CardPiece = {
      kind: kindOf(segment, turned),
      headingRadians: bearingFromDirection(direction),
      turnRadians: Math.abs(turned),
      seconds: segment.lengthMetres * secondsPerMetre,
    };
    const last = pieces.at(-1);
    if (last !== undefined && last.kind === piece.kind) {
      pieces.splice(-1, 1, { ...piece, turnRadians: last.turnRadians + piece.turnRadians, seconds: last.seconds + piece.seconds });
    } else pieces.push(piece);
  }
  return pieces;
}

function kindOf({ curvaturePerMetre }: PathSegment, turnedRadians: number): CardPiece['kind'] {
  if (Math.abs(turnedRadians) < NOTED_TURN_RADIANS) return 'straight';
  return curvaturePerMetre > 0 ? 'left' : 'right';
}
