import { computed, type ReadonlySignal, signal } from '@preact/signals';
import { crowdEyes, eyeFromMiddle, placeName } from '../../core/job/crowd-place.ts';
import type { Job } from '../../core/job/job.ts';
import { type GeodeticPoint, type Site, siteFromGeodetic, type SitePointUp } from '../../core/earth/site-frame.ts';
import type { Database } from '../../store/database.ts';
import { readSetting, saveSetting } from '../../store/settings.ts';

/** Where the observer stands: with the crowd's middle, at one of the job's viewing places (the site is the first), or where the device was. */
export type StandsAt = { readonly kind: 'crowd' } | { readonly kind: 'place'; readonly index: number } | ({ readonly kind: 'here' } & GeodeticPoint);

export interface ObserverPlace {
  /** Names of the site and the other viewing places, in their order. */
  readonly places: readonly string[];
  readonly standsAt: ReadonlySignal<StandsAt>;
  /** The observer's eye from the crowd's middle. */
  readonly eye: ReadonlySignal<SitePointUp>;
  /** Where that is; null with the crowd. */
  readonly position: ReadonlySignal<GeodeticPoint | null>;
  /** Kept on this device for the job. A reason where the place is of no use, and nothing changes. */
  stand(at: StandsAt): string | null;
}

const WITH_THE_CROWD: StandsAt = { kind: 'crowd' };
const MIDDLE: SitePointUp = { eastMetres: 0, northMetres: 0, upMetres: 0 };
/** From farther no letter of any size is read. */
const FARTHEST_METRES = 100_000;

/** @param middle the crowd's, which the text is hung for */
export function createObserverPlace(database: Database, job: Job, middle: Site): ObserverPlace {
  const setting = `observer-place/${job.id}`;
  const eyes = crowdEyes(job);
  const standsAt = signal<StandsAt>(WITH_THE_CROWD);
  const eyeOf = (at: StandsAt): SitePointUp | null => {
    if (at.kind === 'crowd') return MIDDLE;
    if (at.kind === 'here') {
      // How high it stands nobody has said: as high as the crowd.
      const { eastMetres, northMetres } = siteFromGeodetic(at, middle.elevationMetres, middle);
      return Math.hypot(eastMetres, northMetres) > FARTHEST_METRES ? null : { eastMetres, northMetres, upMetres: 0 };
    }
    const chosen = eyes[at.index];
    return chosen === undefined ? null : eyeFromMiddle(chosen, middle);
  };
  // What cannot be read is as if nobody had chosen.
  readSetting(database, setting).then(
    (stored) => {
      const at = standsAtFrom(stored);
      if (at !== null && eyeOf(at) !== null && standsAt.peek() === WITH_THE_CROWD) standsAt.value = at;
    },
    () => {},
  );
  return {
    places: eyes.map(({ name }, index) => placeName(name, index)),
    standsAt,
    eye: computed(() => eyeOf(standsAt.value) ?? MIDDLE),
    position: computed(() => {
      const at = standsAt.value;
      if (at.kind === 'crowd') return null;
      const { latitudeDegrees, longitudeDegrees } = at.kind === 'here' ? at : (eyes[at.index]?.site ?? middle);
      return { latitudeDegrees, longitudeDegrees };
    }),
    stand(at) {
      if (eyeOf(at) === null) return 'This device is over 100 km from the crowd: nothing of the word is seen from there. Choose where you will stand.';
      standsAt.value = at;
      saveSetting(database, setting, at).catch(() => {});
      return null;
    },
  };
}

function standsAtFrom(stored: unknown): StandsAt | null {
  if (typeof stored !== 'object' || stored === null) return null;
  const { kind, index, latitudeDegrees, longitudeDegrees } = stored as Readonly<Record<string, unknown>>;
  if (kind === 'crowd') return WITH_THE_CROWD;
  if (kind === 'place' && typeof index === 'number') return { kind, index };
  const isPosition = typeof latitudeDegrees === 'number' && typeof longitudeDegrees === 'number' && Math.abs(latitudeDegrees) <= 90;
  return kind === 'here' && isPosition && Math.abs(longitudeDegrees) <= 180 ? { kind, latitudeDegrees, longitudeDegrees } : null;
}
