import { type ReadonlySignal, signal } from '@preact/signals';

/** How fast the plan may be played, in plan seconds a second. */
export const PLAY_RATES = [1, 5, 20, 60] as const;

type PlayRate = (typeof PLAY_RATES)[number];

/** The instant of the plan that the pictures show. */
export interface PlanPlayer {
  /** Null shows the finished text. */
  readonly atSeconds: ReadonlySignal<number | null>;
  readonly playing: ReadonlySignal<boolean>;
  readonly rate: ReadonlySignal<PlayRate>;
  setRate(rate: PlayRate): void;
  seek(atSeconds: number | null): void;
  play(): void;
  pause(): void;
  /** Stops drawing for good. */
  dispose(): void;
}

export interface PlanPlayerOptions {
  readonly durationSeconds: () => number;
  /** Instants worth stopping at, ascending: where legs end. Used when motion is to be reduced. */
  readonly stopsSeconds: () => readonly number[];
  readonly reducedMotion: () => boolean;
}

const STILL_MILLISECONDS = 900;
const LONGEST_FRAME_SECONDS = 0.25;

/**
 * A player that asks for frames only while it plays and the page is seen. With reduced motion it shows one still
 * after another instead, each at the end of a leg.
 */
export function createPlanPlayer({ durationSeconds, stopsSeconds, reducedMotion }: PlanPlayerOptions): PlanPlayer {
  const atSeconds = signal<number | null>(null);
  const playing = signal(false);
  const rate = signal<PlayRate>(20);
  let frame = 0;
  let timer: ReturnType<typeof setTimeout> | undefined;
  let lastMilliseconds: number | null = null;

  const stop = (): void => {
    cancelAnimationFrame(frame);
    clearTimeout(timer);
    lastMilliseconds = null;
    playing.value = false;
  };
  const arriveAt = (seconds: number): boolean => {
    const arrived = seconds >= durationSeconds();
    atSeconds.value = Math.min(seconds, durationSeconds());
    if (arrived) stop();
    return arrived;
  };
  const onFrame = (milliseconds: number): void => {
    // A frame after a long gap, as when the page was hidden, does not leap.
    const passed = lastMilliseconds === null ? 0 : Math.min(LONGEST_FRAME_SECONDS, (milliseconds - lastMilliseconds) / 1000);
    lastMilliseconds = milliseconds;
    if (!arriveAt((atSeconds.value ?? 0) + passed * rate.value)) frame = requestAnimationFrame(onFrame);
  };
  const nextStill = (): void => {
    const now = atSeconds.value ?? 0;
    const next = stopsSeconds().find((seconds) => seconds > now + 1e-6) ?? durationSeconds();
    if (!arriveAt(next)) timer = setTimeout(nextStill, STILL_MILLISECONDS);
  };
  return {
    atSeconds,
    playing,
    rate,
    setRate(next) {
      rate.value = next;
    },
    seek(seconds) {
      if (seconds === null) stop();
      atSeconds.value = seconds === null ? null : Math.min(durationSeconds(), Math.max(0, seconds));
    },
    play() {
      if (playing.value || !(durationSeconds() > 0)) return;
      playing.value = true;
      if (atSeconds.value === null || atSeconds.value >= durationSeconds()) atSeconds.value = 0;
      if (reducedMotion()) timer = setTimeout(nextStill, STILL_MILLISECONDS);
      else frame = requestAnimationFrame(onFrame);
    },
    pause: stop,
    dispose: stop,
  };
}
