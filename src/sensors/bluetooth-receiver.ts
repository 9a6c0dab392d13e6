import type { SerialReceiver } from './serial-position.ts';

/** Web Bluetooth (Web Bluetooth Community Group), as much of it as is used. */
export interface BluetoothReceiver extends EventTarget {
  readonly name?: string;
  readonly gatt?: {
    connect(): Promise<{ getPrimaryService(service: string): Promise<{ getCharacteristic(characteristic: string): Promise<BluetoothValue> }> }>;
    disconnect(): void;
  };
}

/** A value of the receiver's that tells when it changes. */
export interface BluetoothValue extends EventTarget {
  readonly value?: DataView<ArrayBuffer> | null;
  startNotifications(): Promise<unknown>;
}

/**
 * Services under which small radios carry a line of text, each with the value that notifies: the one that Nordic
 * Semiconductor publishes for its chips (UART over GATT), and the one of the common CC254x modules (from memory).
 */
const TEXT_SERVICES = [
  ['6e400001-b5a3-f393-e0a9-e50e24dcca9e', '6e400003-b5a3-f393-e0a9-e50e24dcca9e'],
  ['0000ffe0-0000-1000-8000-00805f9b34fb', '0000ffe1-0000-1000-8000-00805f9b34fb'],
] as const;

/** What a browser must be asked for, to be let at the text. */
export const TEXT_SERVICE_IDS: readonly string[] = TEXT_SERVICES.map(([service]) => service);

/**
 * A receiver over Bluetooth as a port: its text comes as the bytes of a stream, so that everything behind it is the same as
 * for a cable. Opening fails where the radio is out of reach or carries no text; out of reach later ends the stream with a
 * fault. Speeds are the radio's own: `baudRate` means nothing here.
 */
export function bluetoothPort(device: BluetoothReceiver): SerialReceiver {
  let readable: SerialReceiver['readable'] = null;
  let end: () => void = () => {};
  return {
    get readable() {
      return readable;
    },
    async open() {
      const server = await device.gatt?.connect();
      if (server === undefined) throw new Error('this device carries no values');
      const value = await textValue(server);
      readable = new ReadableStream<Uint8Array<ArrayBuffer>>({
        start(controller) {
          const changed = (): void => {
            const told = value.value;
            // Copied: the browser writes the next value over it.
            if (told != null) controller.enqueue(new Uint8Array(told.buffer.slice(told.byteOffset, told.byteOffset + told.byteLength)));
          };
          const gone = (): void => {
            end();
            controller.error(new DOMException('out of reach', 'NetworkError'));
          };
          end = () => {
            value.removeEventListener('characteristicvaluechanged', changed);
            device.removeEventListener('gattserverdisconnected', gone);
          };
          value.addEventListener('characteristicvaluechanged', changed);
          device.addEventListener('gattserverdisconnected', gone);
        },
        cancel: () => end(),
      });
      await value.startNotifications();
    },
    async close() {
      end();
      readable = null;
      device.gatt?.disconnect();
    },
  };
}

async function textValue(server: Awaited<ReturnType<NonNullable<BluetoothReceiver['gatt']>['connect']>>): Promise<BluetoothValue> {
  for (const [service, value] of TEXT_SERVICES) {
    try {
      return await (await server.getPrimaryService(service)).getCharacteristic(value);
    } catch {
      // The next kind of radio.
    }
  }
  throw new Error('this receiver sends no text over Bluetooth');
}
