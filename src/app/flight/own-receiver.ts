import { type ReadonlySignal, signal } from '@preact/signals';
import { createDeviceClock } from '../../sensors/flight-clock.ts';
import type { FlightWorld } from '../../sensors/flight-world.ts';
import { type SerialReceiver, serialPosition } from '../../sensors/serial-position.ts';
import { bluetoothPort, type BluetoothReceiver, TEXT_SERVICE_IDS } from '../../sensors/bluetooth-receiver.ts';
import { deviceWorld } from '../../sensors/device-world.ts';
import type { ReceiverChoice } from './flight-choices.ts';

/** Web Serial (WICG), as much of it as is used; receivers with the classic Bluetooth's serial profile are ports too. */
interface SerialPorts {
  getPorts(): Promise<readonly SerialReceiver[]>;
  requestPort(): Promise<SerialReceiver>;
}

/** What receivers speak at when nobody set them otherwise (NMEA 0183: 4800; most of today: 9600 and more). */
export const BAUD_RATES = [9600, 4800, 38_400, 115_200] as const;

const serialOf = (): SerialPorts | null => (navigator as { readonly serial?: SerialPorts }).serial ?? null;

/** Whether this browser lets a page read a serial port. */
export const hasSerialPorts = (): boolean => serialOf() !== null;

/** After a touch: asks which port the receiver is on; false when none was chosen. */
export async function chooseSerialPort(): Promise<boolean> {
  try {
    return (await serialOf()?.requestPort()) !== undefined;
  } catch {
    return false;
  }
}

/** Web Bluetooth, as much of it as is used; `getDevices` is missing in most browsers. */
interface BluetoothRadios {
  requestDevice(options: { readonly acceptAllDevices: true; readonly optionalServices: readonly string[] }): Promise<BluetoothReceiver>;
  getDevices?(): Promise<readonly BluetoothReceiver[]>;
}

const bluetoothOf = (): BluetoothRadios | null => (navigator as { readonly bluetooth?: BluetoothRadios }).bluetooth ?? null;

/** Whether this browser lets a page hear a Bluetooth radio. */
export const hasBluetooth = (): boolean => bluetoothOf() !== null;

/** After a touch: asks which radio the receiver is; null when none was chosen. */
export async function chooseBluetooth(): Promise<BluetoothReceiver | null> {
  try {
    return (await bluetoothOf()?.requestDevice({ acceptAllDevices: true, optionalServices: TEXT_SERVICE_IDS })) ?? null;
  } catch {
    return null;
  }
}

/** A receiver that was allowed, looked up anew each time it is opened: a plug that was pulled comes back as another object. */
function foundAnew(find: () => Promise<SerialReceiver | null>): SerialReceiver {
  let port: SerialReceiver | null = null;
  return {
    get readable() {
      return port?.readable ?? null;
    },
    async open(options) {
      port = await find();
      if (port === null) throw new Error('no receiver was chosen');
      await port.open(options);
    },
    async close() {
      await port?.close();
    },
  };
}

const chosenPort = async (): Promise<SerialReceiver | null> => (await serialOf()?.getPorts())?.[0] ?? null;

/** A radio of an earlier page, where the browser remembers those it was allowed. */
async function rememberedRadio(): Promise<SerialReceiver | null> {
  const [device] = (await bluetoothOf()?.getDevices?.()) ?? [];
  return device === undefined ? null : bluetoothPort(device);
}

function portOf(receiver: ReceiverChoice): readonly [SerialReceiver, number] {
  if (receiver.kind === 'port') return [foundAnew(chosenPort), receiver.baudRate];
  return [receiver.device === null ? foundAnew(rememberedRadio) : bluetoothPort(receiver.device), 0];
}

/**
 * The device's clocks with a receiver of the pilot's own. After a kill a Bluetooth one is only there again where the browser
 * remembers it; elsewhere the flight goes on by the device's own.
 */
export function receiverWorld(startSeconds: number, receiver: ReceiverChoice): FlightWorld {
  if (receiver.kind === 'bluetooth' && receiver.device === null && bluetoothOf()?.getDevices === undefined) return deviceWorld(startSeconds);
  return { clock: createDeviceClock(startSeconds), position: serialPosition(...portOf(receiver)), followSmoke: () => () => {}, speed: null };
}

/** What a receiver is heard to say before a flight. */
export interface ReceiverHeard {
  /** The talker: GP, GN; empty before the first fix. */
  readonly talker: string;
  readonly ratePerSecond: number | null;
  /** From the fix's own time to this device's clock; null before the first. */
  readonly lateSeconds: number | null;
  readonly accuracyMetres: number | null;
  readonly garbage: number;
  readonly lost: boolean;
}

const NOTHING: ReceiverHeard = { talker: '', ratePerSecond: null, lateSeconds: null, accuracyMetres: null, garbage: 0, lost: false };

/** Listens to the chosen receiver until it is ended, as before a flight: which receiver, how often, how late. */
export function tryReceiver(receiver: ReceiverChoice): { readonly heard: ReadonlySignal<ReceiverHeard>; end(): void } {
  const heard = signal(NOTHING);
  const source = serialPosition(...portOf(receiver), ({ talker, ratePerSecond, garbage }) => {
    heard.value = { ...heard.peek(), talker, ratePerSecond, garbage };
  });
  const end = source.start({
    fixReceived({ accuracyMetres, stampMilliseconds }) {
      const lateSeconds = stampMilliseconds === null ? null : (Date.now() - stampMilliseconds) / 1000;
      heard.value = { ...heard.peek(), accuracyMetres, lateSeconds, lost: false };
    },
    fixesLost() {
      heard.value = { ...heard.peek(), lost: true };
    },
  });
  return { heard, end };
}
