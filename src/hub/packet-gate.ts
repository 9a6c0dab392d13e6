/** What a gate says of some bytes: their fault, or where the first packet of all ended among them (null when not here). */
export type GateVerdict = { readonly fault: string } | { readonly fault: null; readonly firstEndsAt: number | null };

export interface PacketLimits {
  readonly packetBytes: number;
  /** Of the first packet, before anybody has said who it is. */
  readonly firstBytes: number;
}

/** Follows the packets of one client without keeping any of their bytes. */
export interface PacketGate {
  take(bytes: Uint8Array): GateVerdict;
}

const CONNECT = 1;
const LENGTH_BYTES = 4;

/**
 * Reads the fixed header of each packet (MQTT 3.1.1, OASIS 2014, sections 2.2 and 2.2.3: a type, then a length of one to
 * four bytes of seven bits) and refuses a packet as soon as it says that it will be too long, so that nothing behind has
 * to gather it first. The first one must be CONNECT (section 3.1).
 */
export function createPacketGate({ packetBytes, firstBytes }: PacketLimits): PacketGate {
  let first = true;
  /** What is left of the packet's body. */
  let left = 0;
  /** Of a header that has begun: its bytes so far and the length they give. */
  let headerBytes = 0;
  let length = 0;

  return {
    take(bytes) {
      let firstEndsAt: number | null = null;
      for (let at = 0; at < bytes.length;) {
        if (headerBytes === 0 && left === 0) {
          if (first && (bytes[at] ?? 0) >> 4 !== CONNECT) return { fault: 'a first packet that is no CONNECT' };
          headerBytes = 1;
          length = 0;
          at += 1;
          continue;
        }
        if (headerBytes > 0) {
          const byte = bytes[at] ?? 0;
          length += (byte & 127) * 128 ** (headerBytes - 1);
          headerBytes += 1;
          at += 1;
          if (byte >= 128 && headerBytes <= LENGTH_BYTES) continue;
          if (byte >= 128) return { fault: 'a length that is none' };
          if (headerBytes + length > (first ? firstBytes : packetBytes)) return { fault: 'a packet that is too long' };
          headerBytes = 0;
          left = length;
        } else {
          const here = Math.min(left, bytes.length - at);
          left -= here;
          at += here;
        }
        if (left === 0 && first) {
          first = false;
          firstEndsAt = at;
        }
      }
      return { fault: null, firstEndsAt };
    },
  };
}
