import { type DevicePositionReport, fixFromPosition } from './fix-from-position.ts';
import type { LossReason, PositionSource } from './position-source.ts';

/** The parts of the platform that device positions need; the browser's objects fit. */
export interface PositionPlatform {
  /** Null where the browser has none. */
  readonly geolocation: {
    watchPosition(success: (position: DevicePositionReport) => void, failure: (error: { readonly code: number }) => void, options: PositionOptions): number;
    clearWatch(watchId: number): void;
  } | null;
  readonly page: Pick<EventTarget, 'addEventListener' | 'removeEventListener'> & { readonly visibilityState: string };
  /** Calls when the permission becomes granted; the returned function ends it. */
  readonly onPermissionGranted: (listener: () => void) => () => void;
}

const PERMISSION_DENIED = 1;
/** A watch raises no timeout once it has had a fix, so silence is measured here. */
const SILENT_MILLISECONDS = 3_000;
/** A watch that stays silent this long is begun anew: some receivers never recover by themselves. */
const RESTART_MILLISECONDS = 10_000;
const WATCH_MILLISECONDS = 1_000;
/** A stamp further than this from the device's clock says nothing about age. */
const TRUSTED_STAMP_MILLISECONDS = 86_400_000;

/** The browser's own platform. */
export function devicePlatform(): PositionPlatform {
  return {
    geolocation: 'geolocation' in navigator ? navigator.geolocation : null,
    page: document,
    onPermissionGranted(listener) {
      let ended = false;
      let status: PermissionStatus | null = null;
      const changed = (): void => {
        if (status?.state === 'granted') listener();
      };
      // Where the browser cannot tell, the pilot starts the flight again.
      navigator.permissions?.query({ name: 'geolocation' }).then(
        (found) => {
          if (ended) return;
          status = found;
          status.addEventListener('change', changed);
        },
        () => {},
      );
      return () => {
        ended = true;
        status?.removeEventListener('change', changed);
      };
    },
  };
}

/**
 * Positions of the device's receiver, at high accuracy. Silence, errors and a hidden page are told as losses;
 * after the page is shown again, fixes measured before that are dropped.
 */
export function devicePosition(platform: PositionPlatform): PositionSource {
  return {
    start(listener) {
      let watchId: number | null = null;
      let heardAtMilliseconds = performance.now();
      let begunAtMilliseconds = heardAtMilliseconds;
      let lost: LossReason | null = null;
      let refused = false;
      let shownAtWallMilliseconds = -Infinity;

      const lose = (reason: LossReason): void => {
        if (lost === reason) return;
        lost = reason;
        listener.fixesLost(reason);
      };
      const received = (position: DevicePositionReport): void => {
        if (platform.page.visibilityState === 'hidden') return;
        const fix = fixFromPosition(position);
        if (fix === null) return;
        const stamp = fix.stampMilliseconds;
        const trusted = stamp !== null && Math.abs(stamp - Date.now()) < TRUSTED_STAMP_MILLISECONDS;
        if (trusted && stamp < shownAtWallMilliseconds) return;
        heardAtMilliseconds = performance.now();
        lost = null;
        listener.fixReceived(fix);
      };
      const failed = ({ code }: { readonly code: number }): void => {
        refused = code === PERMISSION_DENIED;
        lose(refused ? 'permission' : 'unavailable');
      };
      const end = (): void => {
        if (watchId !== null) platform.geolocation?.clearWatch(watchId);
        watchId = null;
      };
      const begin = (): void => {
        end();
        refused = false;
        begunAtMilliseconds = performance.now();
        if (platform.geolocation === null) lose('unavailable');
        else watchId = platform.geolocation.watchPosition(received, failed, { enableHighAccuracy: true, maximumAge: 0, timeout: 20_000 });
      };
      const watch = (): void => {
        if (platform.page.visibilityState === 'hidden' || refused) return;
        const nowMilliseconds = performance.now();
        if (nowMilliseconds - heardAtMilliseconds >= SILENT_MILLISECONDS) lose('unavailable');
        if (nowMilliseconds - Math.max(heardAtMilliseconds, begunAtMilliseconds) >= RESTART_MILLISECONDS) begin();
      };
      const visibilityChanged = (): void => {
        if (platform.page.visibilityState === 'hidden') {
          lose('hidden');
          return;
        }
        shownAtWallMilliseconds = Date.now();
        // Asking anew for what was refused could put a question over the cue.
        if (refused) lose('permission');
        else begin();
      };

      platform.page.addEventListener('visibilitychange', visibilityChanged);
      const endPermission = platform.onPermissionGranted(begin);
      const timer = setInterval(watch, WATCH_MILLISECONDS);
      begin();
      return () => {
        end();
        clearInterval(timer);
        endPermission();
        platform.page.removeEventListener('visibilitychange', visibilityChanged);
      };
    },
  };
}
