import type { TimedFix } from '../../core/tracks/track-fixes.ts';
import type { BluetoothReceiver } from '../../sensors/bluetooth-receiver.ts';
import type { RehearsalSkill } from '../../core/guidance/rehearsal-aircraft.ts';

/** A rehearsal's own wind, which the forecast need not know, and who flies. */
export interface RehearsalChoice {
  readonly kind: 'rehearsal';
  /** Where it truly blows from, true. */
  readonly windFromDegrees: number;
  readonly windKnots: number;
  readonly skill: RehearsalSkill;
  readonly flownBy: 'machine' | 'hands';
  /** 1 to 20. */
  readonly speed: number;
  readonly seed: number;
}

/** A recording to be flown again. */
export interface RecordedChoice {
  readonly kind: 'recorded';
  readonly name: string;
  readonly fixes: readonly TimedFix[];
  readonly speed: number;
}

/** Where a receiver of the pilot's own is heard: on a serial port, or over Bluetooth; there null after a kill. */
export type ReceiverChoice = { readonly kind: 'port'; readonly baudRate: number } | { readonly kind: 'bluetooth'; readonly device: BluetoothReceiver | null };

/** The device's own receiver, or the pilot's. */
export interface DeviceChoice {
  readonly kind: 'device';
  /** Missing for the device's own. */
  readonly receiver?: ReceiverChoice;
}

/** The word walked on a field by the device's own position. */
export interface WalkingChoice {
  readonly kind: 'walking';
  /** A metre walked is so many metres flown. */
  readonly scale: number;
}

export type SourceChoice = DeviceChoice | WalkingChoice | RehearsalChoice | RecordedChoice;
