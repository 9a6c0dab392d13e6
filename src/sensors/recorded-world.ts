import type { TimedFix } from '../core/tracks/track-fixes.ts';
import type { FlightWorld } from './flight-world.ts';
import { createPlayedClock } from './played-clock.ts';

/** A recorder's fix is given out this late, as a receiver would, so that its stamp is believed. */
const LATE_SECONDS = 0.3;
/** After the last fix this much silence is the end of the recording. */
const END_SECONDS = 3;

/** A recorded flight flown again: its fixes at their own spacing, its own wall clock. */
export function recordedWorld(fixes: readonly TimedFix[], speed: number, together: (work: () => void) => void): FlightWorld {
  const startWallMilliseconds = fixes[0]?.fix.stampMilliseconds ?? 0;
  const played = createPlayedClock({ startSeconds: 0, startWallMilliseconds }, speed, together);
  return {
    clock: played.clock,
    speed: played.speed,
    position: {
      start(listener) {
        let given = 0;
        let ended = false;
        const lastSeconds = fixes.at(-1)?.atSeconds ?? 0;
        return played.onStep((atSeconds) => {
          for (let next = fixes[given]; next !== undefined && next.atSeconds + LATE_SECONDS <= atSeconds + 1e-9; next = fixes[given]) {
            given += 1;
            listener.fixReceived(next.fix);
          }
          if (ended || atSeconds < lastSeconds + END_SECONDS) return;
          ended = true;
          listener.fixesLost('unavailable');
        });
      },
    },
    followSmoke: () => () => {},
  };
}
