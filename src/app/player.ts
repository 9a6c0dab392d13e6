import { type ReadonlySignal, signal } from '@preact/signals';

/** How fast something is played, in its own seconds a second. */
export type PlayRate = number;

export const PLAN_RATES = [1, 5, 20, 60] as const;
export const FLIGHT_RATES = [0.25, 0.5, 1, 2, 5, 20, 60] as const;

/** The stretch of time that can be played. */
export interface PlaySpan {
  readonly fromSeconds: number;
  readonly toSeconds: number;
}

/** The instant that the pictures show. */
export interface Player {
  /** Null before anything was sought or played: the pictures then show the whole. */
  readonly atSeconds: ReadonlySignal<number | null>;
  readonly playing: ReadonlySignal<boolean>;
  readonly rate: ReadonlySignal<PlayRate>;
  readonly rates: readonly PlayRate[];
  setRate(rate: PlayRate): void;
  /** Kept inside the span; null shows the whole again. */
  seek(atSeconds: number | null): void;
  play(): void;
  pause(): void;
  /** Stops drawing for good. */
  dispose(): void;
}

export interface PlayerOptions {
  /** Null while there is nothing to play. */
  readonly span: () => PlaySpan | null;
  readonly rates: readonly PlayRate[];
  readonly rate: PlayRate;
  readonly reducedMotion: () => boolean;
  /**
   * Instants worth stopping at, ascending, used when motion is to be reduced; without them stills are as far apart as
   * the rate would have come meanwhile.
   */
  readonly stopsSeconds?: () => readonly number[];
}

const STILL_MILLISECONDS = 900;
const LONGEST_FRAME_SECONDS = 0.25;

/** A player that asks for frames only while it plays and the page is seen. With reduced motion it shows stills instead. */
export function createPlayer({ span, rates, rate: firstRate, reducedMotion, stopsSeconds }: PlayerOptions): Player {
  const atSeconds = signal<number | null>(null);
  const playing = signal(false);
  const rate = signal(firstRate);
  let frame = 0;
  let timer: ReturnType<typeof setTimeout> | undefined;
  let lastMilliseconds: number | null = null;

  const stop = (): void => {
    cancelAnimationFrame(frame);
    clearTimeout(timer);
    lastMilliseconds = null;
    playing.value = false;
  };
  const inside = (seconds: number): number | null => {
    const limits = span();
    return limits === null ? null : Math.min(limits.toSeconds, Math.max(limits.fromSeconds, seconds));
  };
  /** True when the end is reached. */
  const arriveAt = (seconds: number): boolean => {
    const limits = span();
    atSeconds.value = inside(seconds);
    const arrived = limits === null || seconds >= limits.toSeconds;
    if (arrived) stop();
    return arrived;
  };
  const now = (): number => atSeconds.peek() ?? span()?.fromSeconds ?? 0;
  const onFrame = (milliseconds: number): void => {
    // A frame after a long gap, as when the page was hidden, does not leap.
    const passed = lastMilliseconds === null ? 0 : Math.min(LONGEST_FRAME_SECONDS, (milliseconds - lastMilliseconds) / 1000);
    lastMilliseconds = milliseconds;
    if (!arriveAt(now() + passed * rate.peek())) frame = requestAnimationFrame(onFrame);
  };
  const nextStill = (): void => {
    const nextStop = stopsSeconds?.().find((seconds) => seconds > now() + 1e-6);
    const further = now() + (STILL_MILLISECONDS / 1000) * rate.peek();
    if (!arriveAt(nextStop ?? (stopsSeconds === undefined ? further : Infinity))) timer = setTimeout(nextStill, STILL_MILLISECONDS);
  };
  return {
    atSeconds,
    playing,
    rate,
    rates,
    setRate(next) {
      if (rates.includes(next)) rate.value = next;
    },
    seek(seconds) {
      if (seconds === null) stop();
      atSeconds.value = seconds === null ? null : inside(seconds);
    },
    play() {
      const limits = span();
      if (playing.peek() || limits === null || !(limits.toSeconds > limits.fromSeconds)) return;
      playing.value = true;
      const at = atSeconds.peek();
      if (at === null || !(at < limits.toSeconds)) atSeconds.value = limits.fromSeconds;
      if (reducedMotion()) timer = setTimeout(nextStill, STILL_MILLISECONDS);
      else frame = requestAnimationFrame(onFrame);
    },
    pause: stop,
    dispose: stop,
  };
}
