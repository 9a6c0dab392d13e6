import { afterEach, beforeEach, expect, it, vi } from 'vitest';
import type { Fix } from '../../src/core/tracking/fix.ts';
import { bluetoothPort, type BluetoothReceiver, type BluetoothValue, TEXT_SERVICE_IDS } from '../../src/sensors/bluetooth-receiver.ts';
import { serialPosition } from '../../src/sensors/serial-position.ts';

// The sentence of the NMEA 0183 handbooks, checksum and all, and the second after it.
const RMC = '$GPRMC,123519,A,4807.038,N,01131.000,E,022.4,084.4,230394,003.1,W*6A\r\n';
const NEXT = '$GPRMC,123520,A,4807.038,N,01131.000,E,022.4,084.4,230394,003.1,W*60\r\n';

/** A radio with some services, which can go out of reach; a browser writes each value over the one before. */
function fakeRadio(services: readonly string[]) {
  const buffer = new ArrayBuffer(24);
  const value = Object.assign(new EventTarget(), { value: null as DataView<ArrayBuffer> | null, startNotifications: async () => {} });
  const counts = { connects: 0 };
  const device: BluetoothReceiver = Object.assign(new EventTarget(), {
    gatt: {
      async connect() {
        counts.connects += 1;
        return {
          async getPrimaryService(service: string) {
            if (!services.includes(service)) throw new DOMException('no such service', 'NotFoundError');
            return { getCharacteristic: async (): Promise<BluetoothValue> => value };
          },
        };
      },
      disconnect: () => {},
    },
  });
  return {
    device,
    counts,
    /** A radio sends 20 bytes at a time (ATT's smallest packet of 23, less its head; Bluetooth Core 4.0, volume 3, part F). */
    send(text: string) {
      for (let at = 0; at < text.length; at += 20) {
        const bytes = new TextEncoder().encode(text.slice(at, at + 20));
        new Uint8Array(buffer).set(bytes, 3);
        value.value = new DataView(buffer, 3, bytes.length);
        value.dispatchEvent(new Event('characteristicvaluechanged'));
      }
    },
    leave: () => device.dispatchEvent(new Event('gattserverdisconnected')),
  };
}

beforeEach(() => void vi.useFakeTimers());
afterEach(() => void vi.useRealTimers());

it.each(TEXT_SERVICE_IDS)('reads sentences from a radio in pieces, loses it and finds it again by itself: %s', async (service) => {
  const radio = fakeRadio([service]);
  const fixes: Fix[] = [];
  const losses: string[] = [];
  const end = serialPosition(bluetoothPort(radio.device), 0).start({
    fixReceived: (fix) => void fixes.push(fix),
    fixesLost: (reason) => void losses.push(reason),
  });
  await vi.advanceTimersByTimeAsync(10);
  radio.send(RMC + NEXT);
  await vi.advanceTimersByTimeAsync(10);
  expect(fixes).toHaveLength(1);
  // 48 degrees 7.038 minutes.
  expect(fixes[0]?.latitudeDegrees).toBeCloseTo(48 + 7.038 / 60, 9);
  radio.leave();
  await vi.advanceTimersByTimeAsync(10);
  expect(losses).toEqual(['unavailable']);
  await vi.advanceTimersByTimeAsync(1500);
  expect(radio.counts.connects).toBe(2);
  radio.send(RMC.replace('123519', '123530').replace('*6A', '*61'));
  radio.send(RMC.replace('123519', '123531').replace('*6A', '*60'));
  await vi.advanceTimersByTimeAsync(10);
  expect(fixes.length).toBeGreaterThan(1);
  end();
  const heard = fixes.length;
  radio.send(RMC + NEXT);
  await vi.advanceTimersByTimeAsync(2000);
  expect(fixes).toHaveLength(heard);
});

it('tells a radio without text as a loss, not as silence for ever', async () => {
  const losses: string[] = [];
  const end = serialPosition(bluetoothPort(fakeRadio(['180d']).device), 0).start({ fixReceived: () => {}, fixesLost: (reason) => void losses.push(reason) });
  await vi.advanceTimersByTimeAsync(10);
  expect(losses).toEqual(['unavailable']);
  end();
});
