import { type RehearsalControl, type RehearsalSettings, startRehearsal, stepRehearsal } from '../core/guidance/rehearsal-aircraft.ts';
import type { FlightSetup } from '../core/guidance/flight-setup.ts';
import { TICK_MILLISECONDS } from './flight-clock.ts';
import type { FlightWorld } from './flight-world.ts';
import { createPlayedClock, type PlayedClockStart } from './played-clock.ts';

export interface RehearsalOptions {
  readonly setup: FlightSetup;
  readonly settings: RehearsalSettings;
  /** What is in the pilot's hands now: the cues on the screen, or a person's keys. */
  readonly control: () => RehearsalControl;
  readonly start: PlayedClockStart;
  readonly speed: number;
  readonly together: (work: () => void) => void;
}

/** A flight at the desk: an aircraft that obeys the cues, or a person's hands, in a wind the forecast need not know. */
export function rehearsalWorld(options: RehearsalOptions): FlightWorld {
  const { setup, settings, control, start, speed, together } = options;
  const played = createPlayedClock(start, speed, together);
  const smokeListeners = new Set<(smoke: 'on' | 'off') => void>();
  return {
    clock: played.clock,
    speed: played.speed,
    position: {
      start(listener) {
        let aircraft = startRehearsal(setup, settings);
        return played.onStep(() => {
          const step = stepRehearsal(aircraft, control(), TICK_MILLISECONDS / 1000);
          aircraft = step.aircraft;
          for (const { fix } of step.fixes) listener.fixReceived(fix);
          if (step.switched !== null) for (const smokeListener of smokeListeners) smokeListener(step.switched);
        });
      },
    },
    followSmoke(listener) {
      smokeListeners.add(listener);
      return () => smokeListeners.delete(listener);
    },
  };
}
