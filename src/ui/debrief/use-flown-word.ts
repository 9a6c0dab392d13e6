import { useMemo } from 'preact/hooks';
import { jobAir } from '../../core/job/job-air.ts';
import { jobText } from '../../core/job/job-text.ts';
import { readingOfTrails } from '../../core/sky/reading-of.ts';
import type { ReadingWindow } from '../../core/sky/reading-window.ts';
import { calibratedSmoke } from '../../core/sky/smoke-calibration.ts';
import type { Trail } from '../../core/sky/trail.ts';
import type { DebriefDesk } from '../../app/debrief/desk-types.ts';
import { lettersWritten, type LettersWritten } from './letters-written.ts';
import { type FlownScene, flownScene, sceneTrails } from './flown-scene.ts';

/** The word that the open flight wrote: what is drawn of it, its smoke, and how long that read in the wind found. */
export interface FlownWord {
  /** Null without a ship. */
  readonly scene: FlownScene | null;
  readonly trails: readonly Trail[];
  readonly written: LettersWritten;
  /** Of the smoke that was laid, whatever letters it makes; null without a job or smoke. */
  readonly laid: ReadingWindow | null;
  /** Of the text: never where a letter of it is not whole, null where another ship's letters are not here. */
  readonly window: ReadingWindow | null;
}

/** Follows the desk's ships. */
export function useFlownWord(desk: DebriefDesk): FlownWord {
  const ships = desk.ships.value;
  const job = desk.job.value;
  const scene = useMemo(() => flownScene(ships), [ships]);
  const trails = useMemo(() => (scene === null ? [] : sceneTrails(scene, oilPerMetre(ships))), [scene, ships]);
  const smoke = calibratedSmoke(desk.calibration.value);
  const laid = useMemo((): ReadingWindow | null => {
    if (job === null || trails.length === 0) return null;
    const air = jobAir(job);
    const wind = ships[0]?.debrief?.flight.windFound ?? air.wind;
    const letters = trails.filter(({ letterIndex }) => letterIndex >= 0);
    return readingOfTrails(letters, jobText(job), { ...air, wind }, smoke);
  }, [job, trails, ships, smoke.likely.air.horizontalSquareMetresPerSecond]);
  const plan = desk.planned.value?.plan ?? null;
  const written = useMemo(
    () =>
      lettersWritten(
        ships.flatMap(({ debrief }) => debrief ?? []),
        plan,
      ),
    [ships, plan],
  );
  return { scene, trails, written, laid, window: laid === null ? null : textWindow(laid, written) };
}

/** How long a text reads of which that much was written. */
export function textWindow(laid: ReadingWindow, { planned, here, whole }: LettersWritten): ReadingWindow | null {
  if (here < planned) return null;
  if (whole.size === planned) return laid;
  const { fromSeconds } = laid;
  return { ...laid, until: { lowSeconds: fromSeconds, likelySeconds: fromSeconds, highSeconds: fromSeconds } };
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
