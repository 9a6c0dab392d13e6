import { placeName } from '../../core/job/crowd-place.ts';
import { siteDistanceMetres, siteFromGeodetic } from '../../core/earth/site-frame.ts';
import type { Job } from '../../core/job/job.ts';
import type { Fix } from '../../core/tracking/fix.ts';
import { metresFromFeet, nauticalMilesFromMetres } from '../../core/units/quantity.ts';
import type { BatteryState } from '../../sensors/battery.ts';
import type { LossReason } from '../../sensors/position-source.ts';
import type { SoundState } from '../../sound/sound.ts';
import type { WakeLockState } from '../../sensors/wake-lock.ts';
import type { StoredFiles } from './stored-files.ts';
import type { Persistence } from '../../store/persistence.ts';

/** `good`; `open` while it is being looked at; `caution`: fly only if you know why; `bad`: it will not work. */
export type CheckState = 'good' | 'open' | 'caution' | 'bad';

/** One thing looked at before a flight: how it stands, and what mends it. */
export interface Check {
  readonly name: string;
  readonly state: CheckState;
  readonly says: string;
  /** Empty when there is nothing to mend. */
  readonly remedy: string;
}

/** What is known of the device's position so far. */
export type PositionState = { readonly fix: Fix | null; readonly lost: LossReason | null; readonly waitedLong: boolean };
/** What came of writing a row and reading it back. */
export type LogState = { readonly kind: 'open' } | { readonly kind: 'good' } | { readonly kind: 'bad'; readonly reason: string };

/** What a satellite receiver reaches in the open. */
const PRECISE_METRES = 30;
/** The fix gate takes nothing worse. */
const USABLE_METRES = 100;
const FAR_METRES = 40_000;
const NEEDED_FREE_BYTES = 50_000_000;
const LOW_CHARGE = 0.5;

/** Where the device is: precise, at all, and near the job. */
export function positionCheck({ fix, lost, waitedLong }: PositionState, job: Job): Check {
  const name = 'Position';
  if (lost === 'permission') {
    return {
      name,
      state: 'bad',
      says: 'This page is not allowed to know the location.',
      remedy: 'Allow location for this page in the browser’s site settings, with precise location, then look again.',
    };
  }
  if (fix === null) {
    if (!waitedLong) return { name, state: 'open', says: 'Waiting for the first fix.', remedy: '' };
    return {
      name,
      state: 'bad',
      says: 'No fix came.',
      remedy:
        'Turn location on in the device’s settings and hold the device under open sky. Tablets without mobile data often have no satellite receiver: connect an external one.',
    };
  }
  if (fix.accuracyMetres > USABLE_METRES) {
    const accuracy = fix.accuracyMetres >= 1000 ? `${Math.round(fix.accuracyMetres / 1000)} km` : `${Math.round(fix.accuracyMetres)} m`;
    return {
      name,
      state: 'bad',
      says: `Only an approximate location, to ${accuracy}. Nothing can be cued from it.`,
      remedy: 'Turn on precise location for the browser in the device’s privacy settings, or connect a satellite receiver.',
    };
  }
  const point = siteFromGeodetic(fix, 0, {
    latitudeDegrees: job.site.latitudeDegrees,
    longitudeDegrees: job.site.longitudeDegrees,
    elevationMetres: metresFromFeet(job.site.elevationFeet),
  });
  const distanceMetres = siteDistanceMetres(point);
  if (distanceMetres > FAR_METRES) {
    return {
      name,
      state: 'caution',
      says: `Precise to ${Math.round(fix.accuracyMetres)} m, but ${Math.round(nauticalMilesFromMetres(distanceMetres))} NM (${Math.round(distanceMetres / 1000)} km) from ${placeName(job.site.name)}.`,
      remedy: 'Check the job’s site, unless you are still on the way.',
    };
  }
  if (fix.accuracyMetres > PRECISE_METRES) {
    return {
      name,
      state: 'caution',
      says: `Precise to ${Math.round(fix.accuracyMetres)} m only.`,
      remedy: 'Wait under open sky, or connect an external receiver.',
    };
  }
  return { name, state: 'good', says: `Precise to ${Math.round(fix.accuracyMetres)} m.`, remedy: '' };
}

/** Ages beyond this are a receiver that is late or a clock that is off: no smoke until a turn has shown which. */
const SURE_AGE_SECONDS = 1.5;
const UNSTEADY_SECONDS = 0.7;

/**
 * How this device's clock stands to the receiver's, by the last fixes.
 *
 * @param agesSeconds of the last fixes' stamps as they arrived, by this device's clock, oldest first; empty without stamps
 */
export function clockCheck(agesSeconds: readonly number[]): Check {
  const name = 'Clock';
  const age = agesSeconds.at(-1);
  if (age === undefined) return { name, state: 'open', says: 'Waiting for fixes with a time.', remedy: '' };
  const [least, most] = [Math.min(...agesSeconds), Math.max(...agesSeconds)];
  const remedy = 'Set the device’s clock by the network, and do not touch it in flight.';
  if (age < 0) return { name, state: 'caution', says: `This device’s clock is at least ${(-age).toFixed(1)} s behind the receiver’s.`, remedy };
  if (age > SURE_AGE_SECONDS) {
    return { name, state: 'caution', says: `This device’s clock is ${(age - 0.6).toFixed(1)} s ahead of the receiver’s, or positions come so late.`, remedy };
  }
  if (most - least > UNSTEADY_SECONDS)
    return { name, state: 'caution', says: `Fixes are between ${least.toFixed(1)} and ${most.toFixed(1)} s old as they arrive.`, remedy };
  return { name, state: 'good', says: `Within a second of the receiver’s, steady: fixes are ${age.toFixed(1)} s old as they arrive.`, remedy: '' };
}

/** Whether the flight log is kept. */
export function logCheck(log: LogState): Check {
  const name = 'Flight log';
  if (log.kind === 'open') return { name, state: 'open', says: 'Writing a row and reading it back.', remedy: '' };
  if (log.kind === 'good') return { name, state: 'good', says: 'A row was written and read back.', remedy: '' };
  return {
    name,
    state: 'bad',
    says: `Nothing is kept: ${log.reason}`,
    remedy: 'Free some room, close other Quillwind tabs, leave private browsing, then look again. The cues work without the log.',
  };
}

/** Whether the browser keeps what is stored, and has room. */
export function storageCheck(persistence: Persistence | null): Check {
  const name = 'Storage';
  if (persistence === null) return { name, state: 'open', says: 'Asking the browser.', remedy: '' };
  const { state, freeBytes } = persistence;
  if (freeBytes !== null && freeBytes < NEEDED_FREE_BYTES) {
    return {
      name,
      state: 'caution',
      says: `Only ${Math.round(freeBytes / 1e6)} MB are free for this page.`,
      remedy: 'Delete old flights, or other things on the device.',
    };
  }
  if (state === 'persistent') return { name, state: 'good', says: 'The browser keeps it for good.', remedy: '' };
  return {
    name,
    state: 'caution',
    says: state === 'best-effort' ? 'The browser may clear it when it wants the room.' : 'The browser does not say whether it keeps it.',
    remedy: 'Install Quillwind on the home screen, and export the log after the flight.',
  };
}

/** Whether the app opens offline; `files` is what became of looking at each stored file, null while that is not known. */
export function shellCheck(shell: 'storing' | 'complete' | 'unsupported' | 'failed', files: StoredFiles | null): Check {
  const name = 'Offline';
  switch (shell) {
    case 'complete':
      if (files === null) return { name, state: 'open', says: 'Looking at every stored file of the app.', remedy: '' };
      if (files.broken.length > 0) {
        const count = files.broken.length === 1 ? 'One file of the app on this device is' : `${files.broken.length} files of the app on this device are`;
        return {
          name,
          state: 'bad',
          says: `${count} missing or altered: it may not open again offline.`,
          remedy: 'Connect to a network, then look again: what is broken is fetched anew.',
        };
      }
      return {
        name,
        state: 'good',
        says: files.repaired > 0 ? `The whole app is on this device; ${files.repaired} damaged files were fetched again.` : 'The whole app is on this device.',
        remedy: '',
      };
    case 'storing':
      return { name, state: 'open', says: 'Storing the app on this device.', remedy: 'Stay connected until it is done.' };
    case 'unsupported':
      return {
        name,
        state: 'caution',
        says: 'This browser does not keep the app: it will not open again offline.',
        remedy: 'Open it over https in another browser, not in a private window.',
      };
    case 'failed':
      return {
        name,
        state: 'caution',
        says: 'The app could not be stored on this device.',
        remedy: 'Connect, load the page again, and wait until it is stored.',
      };
  }
}

/** Whether a signal would be heard. */
export function soundCheck(sound: SoundState): Check {
  const name = 'Sound';
  if (sound === 'on') return { name, state: 'good', says: 'It plays. Check that the headset hears it.', remedy: '' };
  if (sound === 'untouched') return { name, state: 'caution', says: 'Not tried yet.', remedy: 'Play the test signal.' };
  return {
    name,
    state: 'caution',
    says: 'It does not play.',
    remedy: 'End calls and other sound, turn mute off, then play the test signal again. The screen shows everything that is heard.',
  };
}

/** Whether the screen stays lit. */
export function wakeLockCheck(wakeLock: WakeLockState): Check {
  const name = 'Screen';
  switch (wakeLock) {
    case 'held':
      return { name, state: 'good', says: 'The device keeps it lit now.', remedy: '' };
    case 'asking':
    case 'hidden':
      return { name, state: 'open', says: 'Asking the device to keep it lit.', remedy: '' };
    case 'refused':
      return { name, state: 'caution', says: 'The device refuses to keep it lit.', remedy: 'Turn battery saving off, or set the screen to never sleep.' };
    case 'unsupported':
      return { name, state: 'caution', says: 'This browser cannot keep it lit.', remedy: 'Set the screen to never sleep in the device’s settings.' };
  }
}

/** Under half and not on a cable is worth a word: screens at full brightness drain a tablet in two to three hours. */
export function batteryCheck({ charge, charging }: BatteryState): Check {
  const percent = `${Math.round(charge * 100)} %`;
  if (charging || charge >= LOW_CHARGE) return { name: 'Battery', state: 'good', says: charging ? `${percent}, charging.` : `${percent}.`, remedy: '' };
  return { name: 'Battery', state: 'caution', says: `${percent}, not charging.`, remedy: 'Connect a cable.' };
}
