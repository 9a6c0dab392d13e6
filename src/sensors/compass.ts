import { type DeviceAngles, lookFromDevice } from '../core/sky/look-device.ts';
import type { SkyDirection } from '../core/earth/sun.ts';

/** What the device's compass says, or why it says nothing. */
export type CompassReading =
  /** Where the device's back points; the azimuth is from MAGNETIC north. */
  | { readonly kind: 'pointing'; readonly magnetic: SkyDirection; readonly errorDegrees: number | null }
  /** Held too flat or too steep to point anywhere. */
  | { readonly kind: 'nowhere' }
  /** It was asked and has not said anything yet. */
  | { readonly kind: 'silent' }
  | { readonly kind: 'refused' }
  | { readonly kind: 'unsupported' };

/** The parts of the platform that a compass needs; the browser's objects fit. */
export interface CompassPlatform {
  readonly target: Pick<EventTarget, 'addEventListener' | 'removeEventListener'>;
  /** Asks for permission, from a touch, where the platform wants that; null where it does not. */
  readonly requestPermission: (() => Promise<string>) | null;
  /** False where the device has no such events at all. */
  readonly supported: boolean;
}

interface OrientationEvent {
  readonly alpha?: number | null;
  readonly beta?: number | null;
  readonly gamma?: number | null;
  readonly absolute?: boolean;
  /** iOS: degrees clockwise from magnetic north, of the device's top. */
  readonly webkitCompassHeading?: number | null;
  /** iOS: plus or minus degrees; negative when the compass is not calibrated. */
  readonly webkitCompassAccuracy?: number | null;
}

/** A device that has no compass reports nothing at all. */
const SILENT_MILLISECONDS = 3000;

/** The browser's own platform. */
export function compassPlatform(): CompassPlatform {
  const kind = (globalThis as { readonly DeviceOrientationEvent?: { readonly requestPermission?: () => Promise<string> } }).DeviceOrientationEvent;
  return {
    target: globalThis as unknown as EventTarget,
    requestPermission: kind?.requestPermission === undefined ? null : () => kind.requestPermission?.() ?? Promise.resolve('denied'),
    supported: kind !== undefined,
  };
}

/**
 * Follows the compass until the returned function is called. Begin it from a touch: some platforms ask the person
 * then, and only then.
 */
export function followCompass(platform: CompassPlatform, onReading: (reading: CompassReading) => void): () => void {
  let ended = false;
  let heard = false;
  const listener = (event: unknown): void => {
    const reading = readingFrom(event as OrientationEvent);
    if (reading === null || ended) return;
    heard = true;
    onReading(reading);
  };
  if (!platform.supported) {
    onReading({ kind: 'unsupported' });
    return () => {};
  }
  const timer = setTimeout(() => {
    if (!heard && !ended) onReading({ kind: 'unsupported' });
  }, SILENT_MILLISECONDS);
  const listen = (): void => {
    if (ended) return;
    platform.target.addEventListener('deviceorientationabsolute', listener as EventListener);
    platform.target.addEventListener('deviceorientation', listener as EventListener);
  };
  onReading({ kind: 'silent' });
  if (platform.requestPermission === null) listen();
  else {
    platform.requestPermission().then(
      (answer) => {
        if (answer === 'granted') listen();
        else if (!ended) onReading({ kind: 'refused' });
        if (answer !== 'granted') clearTimeout(timer);
      },
      () => {
        clearTimeout(timer);
        if (!ended) onReading({ kind: 'refused' });
      },
    );
  }
  return () => {
    ended = true;
    clearTimeout(timer);
    platform.target.removeEventListener('deviceorientationabsolute', listener as EventListener);
    platform.target.removeEventListener('deviceorientation', listener as EventListener);
  };
}

/** Angles that are not from north (relative ones) are none. */
function readingFrom({ alpha, beta, gamma, absolute, webkitCompassHeading, webkitCompassAccuracy }: OrientationEvent): CompassReading | null {
  if (!isNumber(beta) || !isNumber(gamma)) return null;
  const heading = isNumber(webkitCompassHeading) ? webkitCompassHeading : null;
  if (heading === null && (absolute !== true || !isNumber(alpha))) return null;
  const angles: DeviceAngles = { alphaDegrees: heading === null ? (alpha ?? 0) : 360 - heading, betaDegrees: beta, gammaDegrees: gamma };
  const magnetic = lookFromDevice(angles);
  if (magnetic === null) return { kind: 'nowhere' };
  return { kind: 'pointing', magnetic, errorDegrees: isNumber(webkitCompassAccuracy) && webkitCompassAccuracy > 0 ? webkitCompassAccuracy : null };
}

function isNumber(value: unknown): value is number {
  return typeof value === 'number' && Number.isFinite(value);
}
