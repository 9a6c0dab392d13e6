import { generateKeyPairSync, randomBytes, sign } from 'node:crypto';

/** DER (ITU-T X.690): a tag, the length of what follows, and that. */
function der(tag: number, ...parts: readonly Uint8Array[]): Buffer {
  const body = Buffer.concat(parts);
  const size = body.length < 128 ? [body.length] : body.length < 256 ? [0x81, body.length] : [0x82, body.length >> 8, body.length & 255];
  return Buffer.concat([Buffer.from([tag, ...size]), body]);
}

const sequence = (...parts: readonly Uint8Array[]): Buffer => der(0x30, ...parts);
const objectId = (...bytes: readonly number[]): Buffer => der(0x06, Buffer.from(bytes));
const utcTime = (time: Date): Buffer => der(0x17, Buffer.from(`${time.toISOString().slice(2, 19).replace(/[-T:]/g, '')}Z`));

const COMMON_NAME = objectId(0x55, 0x04, 0x03);
const ALTERNATIVE_NAMES = objectId(0x55, 0x1d, 0x11);
const ECDSA_WITH_SHA256 = sequence(objectId(0x2a, 0x86, 0x48, 0xce, 0x3d, 0x04, 0x03, 0x02));

/** A certificate for `localhost` that nobody has signed but itself (RFC 5280, section 4.1), good for two days, with its key. */
export function selfSigned(): { readonly cert: string; readonly key: string } {
  const { publicKey, privateKey } = generateKeyPairSync('ec', { namedCurve: 'P-256' });
  const name = sequence(der(0x31, sequence(COMMON_NAME, der(0x0c, Buffer.from('localhost')))));
  const now = Date.now();
  const validity = sequence(utcTime(new Date(now - 86_400_000)), utcTime(new Date(now + 2 * 86_400_000)));
  const names = sequence(der(0x82, Buffer.from('localhost')));
  const extensions = der(0xa3, sequence(sequence(ALTERNATIVE_NAMES, der(0x04, names))));
  const serial = der(0x02, Buffer.concat([Buffer.from([1]), randomBytes(8)]));
  const toBeSigned = sequence(
    der(0xa0, der(0x02, Buffer.from([2]))),
    serial,
    ECDSA_WITH_SHA256,
    name,
    validity,
    name,
    publicKey.export({ type: 'spki', format: 'der' }),
    extensions,
  );
  const signature = der(0x03, Buffer.from([0]), sign('sha256', toBeSigned, privateKey));
  const lines =
    sequence(toBeSigned, ECDSA_WITH_SHA256, signature)
      .toString('base64')
      .match(/.{1,64}/g) ?? [];
  return {
    cert: `-----BEGIN CERTIFICATE-----\n${lines.join('\n')}\n-----END CERTIFICATE-----\n`,
    key: privateKey.export({ type: 'pkcs8', format: 'pem' }).toString(),
  };
}
