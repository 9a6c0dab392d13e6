import { type ReadonlySignal, signal } from '@preact/signals';

/** How fast a flight may be played. */
export const FLIGHT_RATES = [0.25, 0.5, 1, 2, 5, 20, 60] as const;

export type FlightRate = (typeof FLIGHT_RATES)[number];

/** The stretch of time a flight can be played over, UTC. */
export interface FlightSpan {
  readonly fromMilliseconds: number;
  readonly toMilliseconds: number;
}

/** The moment of the flight that all pictures show. */
export interface FlightPlayer {
  /** UTC; NaN while there is nothing to show. */
  readonly atMilliseconds: ReadonlySignal<number>;
  readonly playing: ReadonlySignal<boolean>;
  readonly rate: ReadonlySignal<FlightRate>;
  setRate(rate: FlightRate): void;
  seek(atMilliseconds: number): void;
  play(): void;
  pause(): void;
  dispose(): void;
}

export interface FlightPlayerOptions {
  /** Null while nothing is open. */
  readonly span: () => FlightSpan | null;
  readonly reducedMotion: () => boolean;
}

const LONGEST_FRAME_SECONDS = 0.25;
const STILL_MILLISECONDS = 900;

/**
 * A player that asks for frames only while it plays. With reduced motion it shows stills instead, as far apart as the
 * rate would have come in the time between.
 */
export function createFlightPlayer({ span, reducedMotion }: FlightPlayerOptions): FlightPlayer {
  const atMilliseconds = signal(Number.NaN);
  const playing = signal(false);
  const rate = signal<FlightRate>(5);
  let frame = 0;
  let timer: ReturnType<typeof setTimeout> | undefined;
  let lastMilliseconds: number | null = null;

  const stop = (): void => {
    cancelAnimationFrame(frame);
    clearTimeout(timer);
    lastMilliseconds = null;
    playing.value = false;
  };
  const clamped = (milliseconds: number): number => {
    const limits = span();
    return limits === null ? Number.NaN : Math.min(limits.toMilliseconds, Math.max(limits.fromMilliseconds, milliseconds));
  };
  /** Goes on by so much; true when the end is reached. */
  const advance = (seconds: number): boolean => {
    const limits = span();
    if (limits === null) return true;
    atMilliseconds.value = clamped(atMilliseconds.peek() + seconds * 1000);
    return atMilliseconds.peek() >= limits.toMilliseconds;
  };
  const onFrame = (milliseconds: number): void => {
    // A frame after a long gap, as when the page was hidden, does not leap.
    const passed = lastMilliseconds === null ? 0 : Math.min(LONGEST_FRAME_SECONDS, (milliseconds - lastMilliseconds) / 1000);
    lastMilliseconds = milliseconds;
    if (advance(passed * rate.peek())) stop();
    else frame = requestAnimationFrame(onFrame);
  };
  const onStill = (): void => {
    if (advance((STILL_MILLISECONDS / 1000) * rate.peek())) stop();
    else timer = setTimeout(onStill, STILL_MILLISECONDS);
  };
  return {
    atMilliseconds,
    playing,
    rate,
    setRate(next) {
      rate.value = next;
    },
    seek(milliseconds) {
      atMilliseconds.value = clamped(milliseconds);
    },
    play() {
      const limits = span();
      if (playing.peek() || limits === null) return;
      if (!(atMilliseconds.peek() < limits.toMilliseconds)) atMilliseconds.value = limits.fromMilliseconds;
      playing.value = true;
      if (reducedMotion()) timer = setTimeout(onStill, STILL_MILLISECONDS);
      else frame = requestAnimationFrame(onFrame);
    },
    pause: stop,
    dispose: stop,
  };
}
