import { watchedAsNow } from '../watched-as-now.ts';
import { asked, type TurnCommand } from '../../tracking/turn-command.ts';
import { signedRadians } from '../../units/angle.ts';
import type { Advice, FlyingState } from '../guidance-state.ts';
import { flownCommands } from '../present.ts';
import type { Way } from './solve-way.ts';
import type { AirPath } from '../../paths/air-path.ts';
import { rollOutDirection, type TurnAhead, turnAhead } from './turn-ahead.ts';

/** A turn of less than this is flown as a change of heading; a turn already cued goes on until less is left. */
export const SMALL_TURN_RADIANS = (15 * Math.PI) / 180;
export const TURN_LEFT_RADIANS = (3 * Math.PI) / 180;

/** What to fly and why, away from all smoke and lines. */
export function plainAdvice(command: TurnCommand, because: string): Advice {
  return { command, smokeInSeconds: null, crossTrackMetres: null, because, next: null };
}

/** What to do now on a way that was just solved, from its start, and what comes after that. */
export function wayAdvice(
  state: Pick<Extract<FlyingState, { phase: 'repositioning' }>, 'flight' | 'strokeIndex' | 'goAround'>,
  way: Way,
  speed: number,
  aheadSeconds: number,
): Advice {
  const { flight } = state;
  const because = state.goAround === null ? `to stroke ${state.strokeIndex + 1}` : state.goAround;
  const calm = watchedAsNow(flight.setup);
  const shown = flownCommands(flight).at(-1) ?? null;
  const first = commandOnWay(way, 0, flight.atSeconds, shown, calm);
  const next = first.untilMetres < Infinity ? commandOnWay(way, first.untilMetres + 1, flight.atSeconds, null, calm) : null;
  return {
    ...plainAdvice(first.command, because),
    smokeInSeconds: Math.max(0, way.seconds + aheadSeconds - flight.setup.valveOnSeconds),
    next: next === null ? null : { command: next.command, inSeconds: first.untilMetres / speed },
  };
}

/** Wings level for less than this between two turns the same way is not worth rolling out for: it is cued as one turn. */
const JOINED_METRES = 160;
/** Shown as one turn it stays one up to the longer line, and shown as two it stays two down to the shorter: else the heading jumps between the two ends. */
const KEPT_JOINED_METRES = 330;
const KEPT_APART_METRES = 60;

/** The turn at a place, and with it a second one the same way after a short line; null where there is no such second turn. */
function joinedTurn(path: AirPath, alongMetres: number, directionRadians: number, shown: TurnCommand | null): TurnAhead | null {
  const first = turnAhead(path, alongMetres, directionRadians);
  if (first === null) return null;
  const fromShown = (turn: TurnAhead): number => {
    if (shown === null || shown.sense !== turn.sense) return 0;
    // What is shown of a long turn is half a circle before its end.
    const off = Math.abs(signedRadians(turn.endDirectionRadians - shown.directionRadians));
    return Math.min(off, Math.PI - off);
  };
  const lineAt = alongMetres + first.toGoMetres;
  let passedMetres = 0;
  for (const segment of path.segments) {
    const startMetres = passedMetres;
    passedMetres += segment.lengthMetres;
    if (passedMetres <= lineAt + 1e-6) continue;
    const lineMetres = passedMetres - Math.max(startMetres, lineAt);
    if (segment.curvaturePerMetre !== 0 || lineMetres > KEPT_JOINED_METRES) return null;
    const second = turnAhead(path, passedMetres + 1e-6, first.endDirectionRadians);
    if (second === null || second.sense !== first.sense) return null;
    const joined = {
      ...first,
      toGoRadians: first.toGoRadians + second.toGoRadians,
      endDirectionRadians: second.endDirectionRadians,
      toGoMetres: passedMetres - alongMetres + second.toGoMetres,
    };
    const nearer = fromShown(first) - fromShown(joined);
    const longest = nearer > 0 ? KEPT_JOINED_METRES : nearer < 0 ? KEPT_APART_METRES : JOINED_METRES;
    return lineMetres <= longest ? joined : null;
  }
  return null;
}

/** What to fly at a place on the way: a turn with its roll-out, or a heading, small turns being headings too. */
function commandOnWay(
  way: Way,
  alongMetres: number,
  fromSeconds: number,
  shown: TurnCommand | null,
  calm: boolean,
): { command: TurnCommand; untilMetres: number } {
  const segments = way.path.segments;
  const going = shown === null || shown.sense === 'either' ? null : shown.sense;
  let passedMetres = 0;
  let direction = way.path.start.directionRadians;
  for (const segment of segments) {
    const endMetres = passedMetres + segment.lengthMetres;
    const turned = segment.lengthMetres * segment.curvaturePerMetre;
    const least = going !== null && turned > 0 === (going === 'left') ? TURN_LEFT_RADIANS : SMALL_TURN_RADIANS;
    if (endMetres > alongMetres && Math.abs(turned) > least) {
      const turn =
        (calm ? joinedTurn(way.path, Math.max(passedMetres, alongMetres), direction, shown) : null) ??
        turnAhead(way.path, Math.max(passedMetres, alongMetres), direction)!;
      return {
        command: asked(fromSeconds, turn.sense, rollOutDirection(turn), way.bankRadians),
        untilMetres: Math.max(passedMetres, alongMetres) + turn.toGoMetres,
      };
    }
    direction = signedRadians(direction + turned);
    if (endMetres > alongMetres && segment.curvaturePerMetre === 0) {
      if (segment === segments.at(-1)) break;
      return { command: asked(fromSeconds, 'either', direction), untilMetres: endMetres };
    }
    passedMetres = endMetres;
  }
  return { command: asked(fromSeconds, 'either', direction), untilMetres: Infinity };
}
