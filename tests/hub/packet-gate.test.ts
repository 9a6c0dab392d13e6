import { describe, expect, it } from 'vitest';
import { createPacketGate } from '../../src/hub/packet-gate.ts';

const LIMITS = { packetBytes: 8448, firstBytes: 1024 };
/** Remaining length as MQTT 3.1.1 writes it, table 2.4: 127 is 7F, 128 is 80 01, 16,383 is FF 7F, 16,384 is 80 80 01. */
const LENGTHS: readonly (readonly [number, readonly number[]])[] = [
  [0, [0x00]],
  [127, [0x7f]],
  [128, [0x80, 0x01]],
  [8445, [0xfd, 0x41]],
  [16_383, [0xff, 0x7f]],
  [16_384, [0x80, 0x80, 0x01]],
];
const connectOf = (bytes: number): Buffer => Buffer.concat([Buffer.from([0x10, (bytes & 127) | 128, bytes >> 7]), Buffer.alloc(bytes)]);

describe('the gate before the broker', () => {
  it.each(LENGTHS)('reads a length of %i', (length, bytes) => {
    const gate = createPacketGate(LIMITS);
    expect(gate.take(connectOf(200))).toEqual({ fault: null, firstEndsAt: 203 });
    const verdict = gate.take(Buffer.from([0x30, ...bytes]));
    expect(verdict.fault).toBe(length > 8445 ? 'a packet that is too long' : null);
    if (verdict.fault !== null) return;
    // The very next byte begins another packet.
    expect(gate.take(Buffer.concat([Buffer.alloc(length), Buffer.from([0x30, 0xff, 0xff, 0xff, 0x7f])])).fault).toBe('a packet that is too long');
  });

  it('takes packets in any pieces alike', () => {
    const all = Buffer.concat([connectOf(300), Buffer.from([0x30, 0x03, 1, 2, 3]), Buffer.from([0xc0, 0x00])]);
    for (let size = 1; size < 9; size += 1) {
      const gate = createPacketGate(LIMITS);
      let at = 0;
      let endsAt = -1;
      for (; at < all.length; at += size) {
        const verdict = gate.take(all.subarray(at, at + size));
        expect(verdict.fault).toBeNull();
        if (verdict.fault === null && verdict.firstEndsAt !== null) endsAt = at + verdict.firstEndsAt;
      }
      expect(endsAt).toBe(303);
    }
  });

  it('takes a CONNECT of 1,024 bytes, and none of one more', () => {
    expect(createPacketGate(LIMITS).take(connectOf(1021)).fault).toBeNull();
    expect(createPacketGate(LIMITS).take(connectOf(1022).subarray(0, 3)).fault).toBe('a packet that is too long');
  });

  it('takes nothing before CONNECT, and no length of five bytes', () => {
    expect(createPacketGate(LIMITS).take(Buffer.from([0x30])).fault).toContain('no CONNECT');
    expect(createPacketGate(LIMITS).take(Buffer.from([0x10, 0x80, 0x80, 0x80, 0x80])).fault).toContain('length');
  });
});
