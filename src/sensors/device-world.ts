import { devicePlatform, devicePosition } from './device-position.ts';
import { createDeviceClock } from './flight-clock.ts';
import type { FlightWorld } from './flight-world.ts';

/** The real one: the device's clocks, going on from `startSeconds`, and its receiver. */
export function deviceWorld(startSeconds: number): FlightWorld {
  return { clock: createDeviceClock(startSeconds), position: devicePosition(devicePlatform()), followSmoke: () => () => {}, speed: null };
}
