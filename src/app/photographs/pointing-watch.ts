import { type ReadonlySignal, signal } from '@preact/signals';
import type { GeodeticPoint } from '../../core/earth/site-frame.ts';
import type { Pointed } from '../../core/photograph/pose-prior.ts';
import { degreesFromRadians } from '../../core/units/angle.ts';
import { type CompassPointing, compassPointing } from '../compass-pointing.ts';

/** Remembers where the device points, so that a photograph taken with it can be placed by it. */
export interface PointingWatch {
  /** Null until it was asked for. */
  readonly pointing: ReadonlySignal<CompassPointing | null>;
  /** From a touch: some platforms ask the person then, and only then. */
  start(): void;
  /** Where it pointed at a moment; null where nothing was heard within some seconds of it. */
  at(atMilliseconds: number): Pointed | null;
  end(): void;
}

/** While the camera lies over the page nothing is heard: what was heard just before or after stands for it. */
const NEAR_MILLISECONDS = 8000;
const REMEMBERED = 1200;

/** @param follow follows the device's compass until the returned function is called */
export function createPointingWatch(place: GeodeticPoint, nowMilliseconds: () => number, follow: typeof compassPointing = compassPointing): PointingWatch {
  const pointing = signal<CompassPointing | null>(null);
  const heard: (Pointed & { readonly atMilliseconds: number })[] = [];
  let end: (() => void) | null = null;
  return {
    pointing,
    start() {
      end ??= follow(place, nowMilliseconds(), (next) => {
        pointing.value = next;
        if (next.kind !== 'pointing') return;
        const { azimuthRadians, elevationRadians } = next.direction;
        heard.push({
          atMilliseconds: nowMilliseconds(),
          bearingDegreesTrue: degreesFromRadians(azimuthRadians),
          tiltDegrees: degreesFromRadians(elevationRadians),
        });
        if (heard.length > REMEMBERED) heard.splice(0, REMEMBERED / 2);
      });
    },
    at(atMilliseconds) {
      const apart = (each: { readonly atMilliseconds: number }): number => Math.abs(each.atMilliseconds - atMilliseconds);
      const nearest = heard.reduce<(typeof heard)[number] | null>((best, each) => (best === null || apart(each) < apart(best) ? each : best), null);
      return nearest === null || apart(nearest) > NEAR_MILLISECONDS
        ? null
        : { bearingDegreesTrue: nearest.bearingDegreesTrue, tiltDegrees: nearest.tiltDegrees };
    },
    end() {
      end?.();
      end = null;
    },
  };
}
