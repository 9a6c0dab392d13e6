import { batch, type ReadonlySignal, signal } from '@preact/signals';
import type { Cues } from '../../core/guidance/cues.ts';
import { cuesFrom } from '../../core/guidance/cues-from.ts';
import type { FlightEvent, FlightFact } from '../../core/guidance/flight-event.ts';
import type { FlightView } from '../../core/guidance/flight-view.ts';
import { type Foretell, viewFrom } from '../../core/guidance/flight-view-from.ts';
import type { GuidanceState } from '../../core/guidance/guidance-state.ts';
import { reduce } from '../../core/guidance/reduce.ts';
import { type ClockReport, createClockWatch } from '../../sensors/clock-watch.ts';
import type { FlightClock } from '../../sensors/flight-clock.ts';
import type { PositionSource } from '../../sensors/position-source.ts';
import type { FlightLog } from '../../store/flight-log.ts';
import type { Speaker, Spoken } from './voice/speaker-types.ts';
import type { Touch } from './touch.ts';

/** What a flight is flown with. */
export interface FlightParts {
  readonly clock: FlightClock;
  readonly position: PositionSource;
  /** Takes each event at once and never waits for the storage. */
  readonly log: { append(entry: Parameters<FlightLog['append']>[0]): unknown };
  /** Made with the cues before the flight's first event. */
  readonly speakerFrom: (before: Cues) => Speaker;
}

/** A flight being flown: what the screen shows of it, and what the pilot may do. */
export interface Flying {
  readonly cues: ReadonlySignal<Cues>;
  readonly view: ReadonlySignal<FlightView | null>;
  /** The fact, made by a touch, that can still be undone; null when none can. */
  readonly undoableTouch: ReadonlySignal<FlightFact['kind'] | null>;
  /** The true smoke switch as last marked; null when it never was. */
  readonly smokeMarked: ReadonlySignal<'on' | 'off' | null>;
  /** Whether any smoke was cued yet: until then the datum may be moved. */
  readonly begun: ReadonlySignal<boolean>;
  /** The last announcement as it begins to sound. */
  readonly spoken: ReadonlySignal<Spoken>;
  readonly clockApart: ReadonlySignal<boolean>;
  /** Seconds until a timed datum; null when there is none ahead. */
  readonly datumInSeconds: ReadonlySignal<number | null>;
  /** How long the cued and the marked smoke have differed; null while they agree or the switch was never marked. */
  readonly smokeDiffersSeconds: ReadonlySignal<number | null>;
  touch(touch: Touch): void;
  smokeSwitched(smoke: 'on' | 'off'): void;
  datumTimed(datumWallMilliseconds: number): void;
  /** A new time hack, called on the radio: first smoke so long after now. */
  newHack(afterSeconds: number): void;
  /** Whether the pilot flies by ear alone. */
  readonly byEar: ReadonlySignal<boolean>;
  chooseEars(byEar: boolean): void;
  /** The pilot's word on a jumped clock: the screen was off, or else the clock was set. */
  answerClock(slept: boolean): void;
  /** Any other fact, as what was thought out off the page. */
  receive(fact: FlightFact): void;
  /** From then on the view says how the word will stand. */
  foretellBy(foretell: Foretell): void;
  /** Says that another ship is close. */
  sayClose(): void;
  /** The guidance's state, after the last event. */
  state(): GuidanceState;
  /** Ends the ticks and the fixes; the log is the caller's to close. */
  end(): void;
}

/**
 * Flies: each fact goes through the reducer, its cues to the screen, and then to the log and the sound, neither of
 * which is waited for. A fact that breaks the reducer is logged all the same and blanks the cue.
 *
 * @param before the state that the flight's events so far lead to; the initial state for a new flight
 * @param first the fact that begins this page's part of the flight
 */
export function flyFlight(parts: FlightParts, before: GuidanceState, first: FlightFact): Flying {
  let state = before;
  const cues = signal(cuesFrom(state));
  const view = signal(viewFrom(state));
  const undoableTouch = signal<FlightFact['kind'] | null>(null);
  const smokeMarked = signal<'on' | 'off' | null>(null);
  const begun = signal(false);
  const clockApart = signal(false);
  const smokeDiffersSeconds = signal<number | null>(null);
  const datumInSeconds = signal<number | null>(null);
  let differsSinceSeconds: number | null = null;
  let foretell: Foretell | undefined;
  const speaker = parts.speakerFrom(cues.value);
  const byEar = signal(false);
  /** Told, and still to be taken down: a fact may not be received inside another. */
  const orders: FlightFact[] = [];
  const spoken = signal<Spoken>({ text: '', seconds: 0 });

  const speak = (next: Cues, atSeconds: number): void => {
    const announced = speaker.follow(next, atSeconds);
    if (announced === null) return;
    spoken.value = announced.spoken;
    if (byEar.peek() && announced.order !== null) orders.push(announced.order);
  };
  const show = (): void => {
    const next = cuesFrom(state);
    const flight = state.phase === 'idle' ? null : state.flight;
    const differs = flight !== null && flight.smokeMarked !== null && next.phase !== 'no-cue' && next.smoke !== null && flight.smokeMarked !== next.smoke;
    if (!differs) differsSinceSeconds = null;
    else differsSinceSeconds ??= flight.atSeconds;
    batch(() => {
      smokeDiffersSeconds.value = differsSinceSeconds === null || flight === null ? null : flight.atSeconds - differsSinceSeconds;
      cues.value = next;
      view.value = viewFrom(state, foretell);
      datumInSeconds.value =
        flight?.datumAtSeconds == null || flight.datumAtSeconds <= flight.atSeconds ? null : Math.ceil(flight.datumAtSeconds - flight.atSeconds);
      undoableTouch.value = flight?.undo == null ? null : flight.undoTouch;
      smokeMarked.value = flight?.smokeMarked ?? null;
      byEar.value = flight?.byEar ?? false;
      begun.value = flight !== null && (state.phase === 'onStroke' || flight.smokedSeconds > 0);
    });
    speak(next, flight?.atSeconds ?? 0);
  };
  const receive = (fact: FlightFact): void => {
    const event: FlightEvent = { ...parts.clock.now(), ...fact };
    try {
      state = reduce(state, event);
      show();
    } catch (error) {
      cues.value = brokenCues(cues.value, error);
      speak(cues.value, event.atSeconds);
    }
    parts.log.append({ monotonicSeconds: event.atSeconds, wallMilliseconds: event.wallMilliseconds, event });
    for (let order = orders.shift(); order !== undefined; order = orders.shift()) receive(order);
  };

  const watchClock = createClockWatch();
  const watched = (report: ClockReport | null): void => {
    if (report !== null) clockApart.value = report.kind === 'apart';
  };
  receive(first);
  const endTicks = parts.clock.everyTick((instant) => {
    watched(watchClock(instant));
    receive({ kind: 'clockAdvanced' });
  });
  const endFixes = parts.position.start({
    fixReceived: (fix) => receive({ kind: 'fixReceived', fix }),
    fixesLost: (reason) => receive({ kind: 'fixesLost', reason }),
  });
  return {
    cues,
    view,
    undoableTouch,
    smokeMarked,
    begun,
    spoken,
    clockApart,
    datumInSeconds,
    smokeDiffersSeconds,
    touch: (touch) => receive({ kind: touch }),
    smokeSwitched: (smoke) => receive({ kind: 'smokeSwitched', smoke }),
    datumTimed: (datumWallMilliseconds) => receive({ kind: 'datumTimed', datumWallMilliseconds }),
    newHack: (afterSeconds) => receive({ kind: 'datumTimed', datumWallMilliseconds: parts.clock.now().wallMilliseconds + afterSeconds * 1000 }),
    byEar,
    chooseEars: (chosen) => receive({ kind: 'earsChosen', byEar: chosen }),
    answerClock: (slept) => receive({ kind: 'clockAnswered', slept }),
    receive,
    foretellBy: (by) => (foretell = by),
    sayClose: speaker.sayClose,
    state: () => state,
    end() {
      endTicks();
      endFixes();
    },
  };
}

/** When the guidance itself fails, nothing it said before is to be trusted. */
function brokenCues(last: Cues, error: unknown): Cues {
  return {
    ...last,
    phase: 'no-cue',
    turn: null,
    headingTrueDegrees: null,
    headingMagneticDegrees: null,
    bankDegrees: null,
    smoke: null,
    smokeInSeconds: null,
    crossTrackMetres: null,
    fixAgeSeconds: null,
    established: null,
    lateSeconds: null,
    fixHealth: 'lost',
    held: false,
    next: null,
    because: `the guidance failed: ${error instanceof Error ? error.message : String(error)}`,
  };
}
