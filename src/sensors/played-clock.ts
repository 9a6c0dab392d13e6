import { type FlightClock, type Instant, TICK_MILLISECONDS } from './flight-clock.ts';
import { FASTEST } from './flight-world.ts';

/** A clock that is played, at one to twenty times the room's, in steps of a tenth of a second of flight. */
export interface PlayedClock {
  readonly clock: FlightClock;
  readonly speed: { read(): number; write(speed: number): void };
  /** Called before each step's ticks, with the time since the clock was started. */
  onStep(listener: (sinceStartSeconds: number) => void): () => void;
}

export interface PlayedClockStart {
  /** As for the device's clock: where a resumed flight goes on. */
  readonly startSeconds: number;
  readonly startWallMilliseconds: number;
}

/**
 * A played clock that starts at a wall time. It runs while anybody wants its ticks; a room that is late is not caught up
 * with.
 *
 * @param together runs the work of one room's tick, which may be twenty steps, as one
 */
export function createPlayedClock({ startSeconds, startWallMilliseconds }: PlayedClockStart, speed: number, together: (work: () => void) => void): PlayedClock {
  let steps = 0;
  let current = limited(speed);
  const stepListeners = new Set<(sinceStartSeconds: number) => void>();
  const tickListeners = new Set<(instant: Instant) => void>();
  let timer: ReturnType<typeof setInterval> | null = null;

  const now = (): Instant => ({
    // Counted in whole steps, so that an hour's worth of tenths adds up.
    atSeconds: startSeconds + (steps * TICK_MILLISECONDS) / 1000,
    wallMilliseconds: startWallMilliseconds + steps * TICK_MILLISECONDS,
  });
  const step = (): void => {
    steps += 1;
    for (const listener of stepListeners) listener((steps * TICK_MILLISECONDS) / 1000);
    for (const listener of tickListeners) listener(now());
  };
  const advance = (): void => {
    together(() => {
      for (let count = current; count > 0; count -= 1) step();
    });
  };
  return {
    clock: {
      now,
      everyTick(listener) {
        tickListeners.add(listener);
        timer ??= setInterval(advance, TICK_MILLISECONDS);
        return () => {
          tickListeners.delete(listener);
          if (tickListeners.size > 0 || timer === null) return;
          clearInterval(timer);
          timer = null;
        };
      },
    },
    speed: {
      read: () => current,
      write(next) {
        current = limited(next);
      },
    },
    onStep(listener) {
      stepListeners.add(listener);
      return () => stepListeners.delete(listener);
    },
  };
}

function limited(speed: number): number {
  return Math.min(FASTEST, Math.max(1, Math.round(speed)));
}
