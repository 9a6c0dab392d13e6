import type { ReadingWindow } from '../sky/reading-window.ts';
import type { WindVector } from '../earth/wind-vector.ts';
import type { Plan } from '../plan/plan.ts';
import { type DriftCorridor, driftCorridor } from './drift-corridor.ts';

/** Smoke is told to the controller for at least this long after the last stroke, and at most; common practice, no source. */
const SMOKE_HANGS_SECONDS = [20 * 60, 60 * 60] as const;
/** The widest spreading published near the tropopause (Schumann et al. 1995), m2/s. */
const DIFFUSIVITY = 20;

/** What a controller is told of a plan, and until when it holds. */
export interface ToldCorridor {
  /** Seconds since the first smoke: as long as it may be read, and some time after the last stroke at least. */
  readonly untilSeconds: number;
  readonly corridor: DriftCorridor;
}

/** The one corridor that others are kept out of, for every screen that tells its circle. */
export function toldCorridor(
  plan: Plan,
  { wind, layerAboveSiteMetres }: { readonly wind: WindVector; readonly layerAboveSiteMetres: number },
  window: Pick<ReadingWindow, 'until'>,
): ToldCorridor {
  const [least, most] = SMOKE_HANGS_SECONDS;
  const untilSeconds = plan.durationSeconds + Math.min(most, Math.max(least, window.until.highSeconds - plan.durationSeconds));
  return { untilSeconds, corridor: driftCorridor(plan, wind, layerAboveSiteMetres, untilSeconds, Math.sqrt(2 * DIFFUSIVITY * untilSeconds)) };
}
