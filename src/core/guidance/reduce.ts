import { advanceAirPose } from '../paths/air-path.ts';
import { emptyTracker } from '../tracking/tracker.ts';
import type { TurnCommand } from '../tracking/turn-command.ts';
import { directionFromBearing, radiansFromDegrees, signedRadians } from '../units/angle.ts';
import { calmAdvice } from './calm-advice.ts';
import { clockMoved, clockSettled } from './clock.ts';
import type { FlightEvent } from './flight-event.ts';
import type { FlightSetup } from './flight-setup.ts';
import { asBriefed } from './hanging/hang-text.ts';
import { hangingHeard } from './hanging/hang-as-given.ts';
import { hungAsBriefed } from './hanging/hang-as-briefed.ts';
import { REASONS } from './cues.ts';
import { flyOut } from './formation/fly-formation.ts';
import { flyReposition } from './strokes/fly-reposition.ts';
import { handsAtFirst } from './learn-hands.ts';
import { JOINING } from './formation/formation-progress.ts';
import { flyStroke } from './strokes/fly-stroke.ts';
import type { Flight, FlyingState, GuidanceState } from './guidance-state.ts';
import { offTimetable } from './formation/left-timetable.ts';
import { afterStroke, nextStrokeIndex, towardsNext } from './strokes/next-stroke.ts';
import { airPoseOf, isTrusted, predictedAt } from './present.ts';
import { receiveFix } from './receive-fix.ts';
import { strokeStart } from './strokes/stroke-start.ts';
import { watchedAsNow } from './watched-as-now.ts';

/**
 * The guidance machine. Total and pure: every state takes every event, an event that means nothing in a state
 * returns that very state, and the same events give the same states bit for bit.
 */
export function reduce(state: GuidanceState, event: FlightEvent): GuidanceState {
  if (event.kind === 'flightStarted') return started(event.setup, event);
  if (state.phase === 'idle') return state;
  const moved = afterDarkness(state, {
    ...state,
    flight: clockMoved(state.flight, event.atSeconds, event.wallMilliseconds, state.phase === 'onStroke'),
  });
  switch (event.kind) {
    case 'clockAdvanced':
    case 'flightResumed':
      return flown(moved);
    case 'fixReceived':
      return flown(receiveFix(moved, event.fix));
    case 'fixesLost':
      return flown({ ...moved, flight: { ...moved.flight, fixesLost: event.reason } });
    case 'smokeSwitched':
      return { ...moved, flight: switched(moved, event.smoke) };
    case 'clockAnswered':
      return moved.flight.clockQuestion === null ? state : flown({ ...moved, flight: clockSettled(moved.flight, event.slept ? 'slept' : 'set') });
    case 'earsChosen':
      return moved.flight.byEar === event.byEar ? state : flown({ ...moved, flight: { ...moved.flight, byEar: event.byEar } });
    case 'orderSaid':
      return moved.flight.byEar ? { ...moved, flight: toldBy(moved.flight, event) } : state;
    case 'datumTimed':
      return flown({
        ...moved,
        flight: {
          ...moved.flight,
          datumAtSeconds: datumAt(event.datumWallMilliseconds, event),
          datumOnStamps: true,
          formation: calledAgain(moved.flight.formation),
        },
      });
    case 'leadTimed':
      return flown(leadTimed(moved, event));
    case 'hangingGiven': {
      const hung = hangingHeard(moved, event);
      return hung === null ? state : flown(hung);
    }
    case 'restOrdered': {
      const ordered = restReordered(moved, event.rest);
      if (ordered === null) return state;
      return flown(event.chosen === true ? { ...ordered, flight: { ...ordered.flight, undo: withoutUndo(state), undoTouch: event.kind } } : ordered);
    }
    case 'strokeRedone':
    case 'strokeSkipped':
    case 'held':
    case 'holdReleased':
    case 'datumMovedHere':
    case 'hangingRefused':
    case 'knockedOff': {
      const touched = touchedBy(moved, event.kind);
      if (touched === null) return state;
      const kept = answersOnly(moved, event.kind) ? touched : offTimetable(touched, REASONS.touched);
      return flown({ ...kept, flight: { ...kept.flight, undo: withoutUndo(state), undoTouch: event.kind } });
    }
    case 'lastTouchUndone':
      return moved.flight.undo === null || moved.flight.undo.phase === 'idle' ? state : flown(offTimetable(undone(moved, moved.flight.undo), REASONS.touched));
  }
}

function started(setup: FlightSetup, { atSeconds, wallMilliseconds }: { atSeconds: number; wallMilliseconds: number }): GuidanceState {
  const formation = setup.formation === undefined || setup.datum.kind !== 'at-time' ? null : JOINING;
  const flight: Flight = {
    setup,
    atSeconds,
    wallMilliseconds,
    tracker: emptyTracker,
    stampTrust: { lastAgeSeconds: null, steady: false },
    lastVerdict: null,
    lastUsedAtSeconds: -Infinity,
    fixesLost: null,
    commands: [],
    datumAtSeconds: setup.datum.kind === 'at-time' ? datumAt(setup.datum.wallMilliseconds, { atSeconds, wallMilliseconds }) : null,
    datumOnStamps: false,
    expectedDatumAtSeconds: null,
    // A formation's ships find the wind on their circles.
    windCircleDecided: formation !== null,
    movedEastMetres: 0,
    movedNorthMetres: 0,
    hanging: null,
    windAverage: null,
    clockInDoubt: false,
    clockQuestion: null,
    awaySeconds: 0,
    stampLessFlightSeconds: null,
    placeDoubt: null,
    altitudeMetres: null,
    progress: setup.strokes.map(() => ({ status: 'to-fly', smokedMetres: 0 })),
    sequence: setup.strokes.map((_, index) => index),
    smokedSeconds: 0,
    smokeMarked: null,
    smokeCuedAtSeconds: null,
    reactionSeconds: setup.reactionSeconds,
    hands: handsAtFirst(setup.reactionSeconds),
    byEar: false,
    told: [],
    turnCue: null,
    straightSinceSeconds: null,
    undo: null,
    undoTouch: null,
    advice: null,
    formation,
  };
  return towardsNext(flight, -Infinity);
}

function datumAt(datumWallMilliseconds: number, now: { atSeconds: number; wallMilliseconds: number }): number {
  return now.atSeconds + (datumWallMilliseconds - now.wallMilliseconds) / 1000;
}

/** The phase's own flying, then the cue it gives is remembered as what the pilot will do. */
function flown(state: FlyingState): FlyingState {
  const first =
    state.phase === 'repositioning'
      ? flyReposition(state)
      : state.phase === 'onStroke'
        ? flyStroke(state)
        : state.phase === 'finished'
          ? finishedOut(state)
          : state;
  // A stroke that ends goes on at once: without this the cue would be blank until the next tick.
  const next = calm(first.phase === 'repositioning' && state.phase === 'onStroke' ? flyReposition(first) : first);
  const { advice } = next.flight;
  // Without a cue an ear that was told so levels the wings, as an eye does.
  if (advice === null) return next.flight.told.length === 0 ? next : { ...next, flight: { ...next.flight, told: [] } };
  const last = next.flight.commands.at(-1);
  if (last !== undefined && !differs(last, advice.command)) return next;
  const command = { ...advice.command, startsManoeuvre: last === undefined || begins(last, advice.command) };
  // Who only listens turns by what is said.
  const turns = next.flight.byEar ? {} : turnsWith(next.flight, last, command);
  return { ...next, flight: { ...next.flight, ...turns, commands: [...next.flight.commands, command] } };
}

/** The last turn and the straight flight before it, with a command that is flown next. */
function turnsWith(
  { turnCue, straightSinceSeconds }: Flight,
  last: TurnCommand | undefined,
  { sense, fromSeconds, bankRadians }: TurnCommand,
): Pick<Flight, 'turnCue' | 'straightSinceSeconds'> {
  if (sense === 'either') return { turnCue, straightSinceSeconds: straightSinceSeconds ?? fromSeconds };
  const begun = { sense, fromSeconds, bankRadians, straightSeconds: fromSeconds - (straightSinceSeconds ?? fromSeconds) };
  return { turnCue: sense === last?.sense ? turnCue : begun, straightSinceSeconds: null };
}

/** Flights of older logs are cued as they were. */
function calm(state: FlyingState): FlyingState {
  const { flight } = state;
  if (flight.advice === null || !watchedAsNow(flight.setup)) return state;
  return { ...state, flight: { ...flight, advice: calmAdvice(state, flight.advice) } };
}

/** Orders older than this explain no fix that may still come. */
const TOLD_KEPT_SECONDS = 12;

function toldBy(flight: Flight, event: Extract<FlightEvent, { kind: 'orderSaid' }>): Flight {
  const { told, atSeconds, setup, hands } = flight;
  const sense = event.turn === 'straight' ? 'either' : event.turn;
  const command: TurnCommand = {
    fromSeconds: event.endsAtSeconds,
    sense,
    directionRadians: signedRadians(directionFromBearing(radiansFromDegrees(event.headingMagneticDegrees + setup.variationDegrees)) + hands.headingOffRadians),
    bankRadians: radiansFromDegrees(event.bankDegrees),
    startsManoeuvre: told.at(-1)?.sense !== sense,
  };
  const kept = told.filter((_, index) => (told[index + 1]?.fromSeconds ?? Infinity) > atSeconds - TOLD_KEPT_SECONDS);
  // A circle is told without a heading: the cues say better what is flown.
  const circles = flight.advice?.because === REASONS.circlingForWind && sense !== 'either';
  return { ...flight, ...turnsWith(flight, told.at(-1), command), told: circles ? [] : [...kept, command] };
}

/** A ship of a formation is led out of the others' ways even when it is done. */
function finishedOut(state: Extract<FlyingState, { phase: 'finished' }>): FlyingState {
  if (state.flight.formation === null) return state;
  return isTrusted(state.flight) ? flyOut(state) : { ...state, flight: { ...state.flight, advice: null } };
}

/** A page that stood still for so long showed nothing that held, and the pilot went by the card. */
const DARK_SECONDS = 3;

/** A ship of a formation whose page was dark, or whose clock was set, is off its timetable. */
function afterDarkness(before: FlyingState, state: FlyingState): FlyingState {
  const { formation } = state.flight;
  if (formation === null) return state;
  const clockSet = state.flight.clockInDoubt && !before.flight.clockInDoubt;
  if (!clockSet && state.flight.atSeconds - before.flight.atSeconds <= DARK_SECONDS) return state;
  const why = clockSet ? REASONS.clockBroken : REASONS.dark;
  const kept = { ...formation, clockBroken: formation.clockBroken || clockSet };
  return offTimetable({ ...state, flight: { ...state.flight, formation: kept } }, why);
}

function leadTimed(state: FlyingState, { laterSeconds, kept }: Extract<FlightEvent, { kind: 'leadTimed' }>): FlyingState {
  const { flight } = state;
  if (flight.formation === null) return state;
  const timed = laterSeconds === null ? null : { laterSeconds, kept: kept === true };
  return { ...state, flight: { ...flight, formation: { ...flight.formation, leadTimed: timed } } };
}

function calledAgain(formation: Flight['formation']): Flight['formation'] {
  return formation === null ? null : { ...formation, clockBroken: false, leadTimed: null };
}

const MANOEUVRE_RADIANS = (12 * Math.PI) / 180;

function begins(last: TurnCommand, command: TurnCommand): boolean {
  return (
    last.sense !== command.sense ||
    (command.sense === 'either' && Math.abs(signedRadians(last.directionRadians - command.directionRadians)) > MANOEUVRE_RADIANS)
  );
}

const NOTICED_RADIANS = (0.5 * Math.PI) / 180;

function differs(one: TurnCommand, other: TurnCommand): boolean {
  return (
    one.sense !== other.sense ||
    Math.abs(signedRadians(one.directionRadians - other.directionRadians)) > NOTICED_RADIANS ||
    Math.abs(one.bankRadians - other.bankRadians) > 2 * NOTICED_RADIANS
  );
}

/** A switch moved longer than this after its cue, or against it, says nothing of the pilot's reaction. */
const REACTION_AT_MOST_SECONDS = 1.5;
/** How much one switching counts against what was believed before. */
const REACTION_WEIGHT = 0.3;

/** The true switch, and what it tells of the reaction. */
function switched(state: FlyingState, smoke: 'on' | 'off'): Flight {
  const { flight } = state;
  const sinceCue = flight.smokeCuedAtSeconds === null ? Infinity : flight.atSeconds - flight.smokeCuedAtSeconds;
  const asCued = (smoke === 'on') === (state.phase === 'onStroke');
  const counts = asCued && sinceCue <= REACTION_AT_MOST_SECONDS;
  const reactionSeconds = counts ? flight.reactionSeconds + REACTION_WEIGHT * (sinceCue - flight.reactionSeconds) : flight.reactionSeconds;
  return { ...flight, smokeMarked: smoke, reactionSeconds };
}

/** The pilot has looked out and says that the place is right. */
const SURE = { placeDoubt: null, awaySeconds: 0 } as const;

type Touch = 'strokeRedone' | 'strokeSkipped' | 'held' | 'holdReleased' | 'datumMovedHere' | 'hangingRefused' | 'knockedOff';

/** Said by a ship that keeps its timetable: the place is right. That is an answer, and changes nothing of what it flies. */
function answersOnly({ flight: { formation } }: FlyingState, touch: Touch): boolean {
  return touch === 'holdReleased' && formation?.part === 'timetable' && !formation.held;
}

/** What a touch makes of the state, or null where it means nothing. */
function touchedBy(state: FlyingState, touch: Touch): FlyingState | null {
  const { flight } = state;
  if (state.phase === 'finished') {
    // Told from the ground that a stroke is missing, the pilot goes back for it; a knock-it-off takes nothing but undo.
    return touch === 'strokeRedone' && state.how === 'complete' ? lastFlownAgain(flight) : null;
  }
  switch (touch) {
    case 'strokeRedone':
      return redone(state);
    case 'strokeSkipped':
      return afterStroke(state, 'skipped');
    case 'held':
      if (flight.formation !== null) return heldOnCircle(state, flight.formation);
      return state.phase === 'holding' ? null : { phase: 'holding', strokeIndex: state.strokeIndex, flight: { ...brokenOffWhereItIs(state), advice: null } };
    case 'holdReleased':
      if (flight.formation?.held === true) return { ...state, flight: { ...flight, formation: { ...flight.formation, held: false } } };
      if (state.phase === 'holding') return towardsNext({ ...flight, ...SURE }, -Infinity);
      return flight.placeDoubt === null ? null : { ...state, flight: { ...flight, ...SURE } };
    case 'datumMovedHere':
      return datumMovedHere(state);
    case 'hangingRefused':
      return hungAsBriefed(state);
    case 'knockedOff':
      return { phase: 'finished', how: 'knocked-off', flight: { ...brokenOffWhereItIs(state), advice: null } };
  }
}

/** The stroke being flown, or else the last one flown, once more from its start. */
function redone(state: Exclude<FlyingState, { phase: 'finished' }>): FlyingState | null {
  const { flight } = state;
  const current = flight.progress[state.strokeIndex]!;
  const begun = state.phase === 'onStroke' || (current.status === 'to-fly' && current.smokedMetres > 0);
  return begun ? strokeAgain(flight, state.strokeIndex) : lastFlownAgain(flight);
}

function lastFlownAgain(flight: Flight): FlyingState | null {
  const index = flight.sequence.findLast((one) => flight.progress[one]?.status !== 'to-fly');
  return index === undefined ? null : strokeAgain(flight, index);
}

function strokeAgain(flight: Flight, index: number): FlyingState {
  const progress = flight.progress.map((one, at) => (at === index ? ({ status: 'to-fly', smokedMetres: 0 } as const) : one));
  return towardsNext({ ...flight, progress, ...SURE }, -Infinity);
}

function brokenOffWhereItIs(state: FlyingState): Flight {
  if (state.phase !== 'onStroke') return state.flight;
  const smokedMetres = Math.max(0, state.alongMetres);
  return {
    ...state.flight,
    progress: state.flight.progress.map((one, index) => (index === state.strokeIndex ? { status: 'to-fly' as const, smokedMetres } : one)),
  };
}

/** Off smoke, what is left in another order; null where that is not what is left, or smoke is near. */
function restReordered(state: FlyingState, rest: Extract<FlightEvent, { kind: 'restOrdered' }>['rest']): FlyingState | null {
  const { flight } = state;
  const { setup, progress, sequence } = flight;
  const order = rest.map(({ strokeIndex }) => strokeIndex);
  const done = sequence.filter((index) => !order.includes(index));
  const same = order.every((index) => progress[index]?.status === 'to-fly') && done.every((index) => progress[index]?.status !== 'to-fly');
  const offSmoke = state.phase === 'holding' || (state.phase === 'repositioning' && !state.onRunIn);
  if (!offSmoke || flight.formation !== null || order[0] === undefined || !same) return null;
  const strokes = setup.strokes.map((stroke, index) => {
    const one = rest[order.indexOf(index)];
    return one === undefined ? stroke : { ...stroke, path: one.path, plannedStartSeconds: (setup.hanging?.writingSeconds ?? 0) - one.restSeconds };
  });
  const reordered = { strokeIndex: order[0], flight: { ...flight, setup: { ...setup, strokes }, sequence: [...done, ...order] } };
  return state.phase === 'holding' ? { ...state, ...reordered } : { ...state, ...reordered, way: null };
}

/** Before the first smoke: the text goes where its first run-in would begin here and now. */
function datumMovedHere(state: FlyingState): FlyingState | null {
  const { flight } = state;
  // The ships of a formation hang their text alike or not at all.
  if (flight.formation !== null) return null;
  if (state.phase !== 'repositioning' || !isTrusted(flight)) return null;
  // After the first smoke only where the place was lost anyway.
  const lost = flight.placeDoubt !== null;
  if (!lost && flight.smokedSeconds > 0) return null;
  if (!lost && flight.progress.some((one) => one.status === 'flown' || (one.status === 'to-fly' && one.smokedMetres > 0))) return null;
  const { setup } = flight;
  const here = airPoseOf(predictedAt(flight, flight.atSeconds)!, flight);
  const wanted = advanceAirPose(strokeStart(flight, state.strokeIndex), -2 * setup.runInSeconds * setup.trueAirspeedMetresPerSecond, 0);
  return {
    ...state,
    way: null,
    onRunIn: false,
    flight: {
      ...flight,
      ...SURE,
      // Moved by hand it stays there, also when the wind is found only later.
      hanging: setup.hanging === undefined ? null : { ...(flight.hanging ?? asBriefed(setup.hanging, setup.forecastWind)), kind: 'by-hand' },
      expectedDatumAtSeconds: flight.atSeconds + 2 * setup.runInSeconds,
      movedEastMetres: flight.movedEastMetres + here.airEastMetres - wanted.airEastMetres,
      movedNorthMetres: flight.movedNorthMetres + here.airNorthMetres - wanted.airNorthMetres,
    },
  };
}

/** A ship of a formation holds on its own circle. */
function heldOnCircle(state: Exclude<FlyingState, { phase: 'finished' }>, formation: NonNullable<Flight['formation']>): FlyingState | null {
  if (formation.held) return null;
  const flight = { ...state.flight, formation: { ...formation, held: true } };
  if (state.phase === 'repositioning') return { ...state, flight };
  return towardsNext(flight, -Infinity);
}

function withoutUndo(state: FlyingState): GuidanceState {
  return { ...state, flight: { ...state.flight, undo: null } };
}

/** The choices of before, with what has been learned since. */
function undone(now: FlyingState, before: FlyingState): FlyingState {
  const { setup, sequence, progress } = before.flight;
  // No touch moves a formation's word, and whatever was told meanwhile stands.
  const { movedEastMetres, movedNorthMetres, hanging } = now.flight.formation === null ? before.flight : now.flight;
  const flight: Flight = { ...now.flight, setup, sequence, progress, movedEastMetres, movedNorthMetres, hanging, undo: null, advice: null };
  if (before.phase === 'holding' || before.phase === 'finished') return { ...before, flight };
  // A stroke that was on when the touch came has been broken off meanwhile: it is taken up again.
  const broken = before.phase === 'onStroke' ? brokenOffWhereItIs(before).progress : progress;
  return nextStrokeIndex({ progress: broken, sequence }) === null ? { ...before, flight } : towardsNext({ ...flight, progress: broken }, -Infinity);
}
