import { useMemo } from 'preact/hooks';
import { jobAir } from '../../core/job/job-air.ts';
import { jobText } from '../../core/job/job-text.ts';
import { readingOfTrails } from '../../core/sky/reading-of.ts';
import type { ReadingWindow } from '../../core/sky/reading-window.ts';
import { calibratedSmoke } from '../../core/sky/smoke-calibration.ts';
import type { Trail } from '../../core/sky/trail.ts';
import type { DebriefDesk } from '../../app/debrief/desk-types.ts';
import { type FlownScene, flownScene, sceneTrails } from './flown-scene.ts';

/** The word that the open flight wrote: what is drawn of it, its smoke, and how long that read in the wind found. */
export interface FlownWord {
  /** Null without a ship. */
  readonly scene: FlownScene | null;
  readonly trails: readonly Trail[];
  /** Null without a job or smoke. */
  readonly window: ReadingWindow | null;
}

/** Follows the desk's ships. */
export function useFlownWord(desk: DebriefDesk): FlownWord {
  const ships = desk.ships.value;
  const job = desk.job.value;
  const scene = useMemo(() => flownScene(ships), [ships]);
  const trails = useMemo(() => (scene === null ? [] : sceneTrails(scene, oilPerMetre(ships))), [scene, ships]);
  const smoke = calibratedSmoke(desk.calibration.value);
  const window = useMemo((): ReadingWindow | null => {
    if (job === null || trails.length === 0) return null;
    const air = jobAir(job);
    const wind = ships[0]?.debrief?.flight.windFound ?? air.wind;
    const laid = trails.filter(({ letterIndex }) => letterIndex >= 0);
    return readingOfTrails(laid, jobText(job), { ...air, wind }, smoke);
  }, [job, trails, ships, smoke.likely.air.horizontalSquareMetresPerSecond]);
  return { scene, trails, window };
}

interface OilUser {
  readonly log: { readonly setup: { readonly oilKilogramsPerSecond: number; readonly trueAirspeedMetresPerSecond: number } };
}

/** Smoke oil a metre of writing takes, kg/m, by the first ship that says. */
function oilPerMetre(ships: readonly OilUser[]): number {
  const setup = ships.find(({ log }) => log.setup.oilKilogramsPerSecond > 0)?.log.setup;
  // A common burner at a common speed, for tracks that say nothing of oil: 45 lb a minute at 104 kt.
  return setup === undefined ? 0.0063 : setup.oilKilogramsPerSecond / setup.trueAirspeedMetresPerSecond;
}
