import { randomBytes, scrypt, timingSafeEqual } from 'node:crypto';

/** Cost of a hash (RFC 7914): memory is 128 N r bytes, 16 MB as given here. */
export interface HashCost {
  readonly N: number;
  readonly r: number;
  readonly p: number;
}

export const HASH_COST: HashCost = { N: 16_384, r: 8, p: 1 };

const KEY_BYTES = 32;
const SALT_BYTES = 16;
/** A users file cannot make the hub spend more than this on one password. */
const MEMORY_BYTES = 128 * 1024 * 1024;

/** A password as the users file keeps it: `scrypt$N$r$p$SALT$KEY`, salt and key in base64. */
export async function hashFromPassword(password: string, cost: HashCost = HASH_COST, salt: Uint8Array = randomBytes(SALT_BYTES)): Promise<string> {
  const key = await derived(password, salt, cost);
  return ['scrypt', cost.N, cost.r, cost.p, Buffer.from(salt).toString('base64'), key.toString('base64')].join('$');
}

/** Whether a password is the one that was hashed; false for a hash of no known form. */
export async function passwordFits(password: string, hash: string): Promise<boolean> {
  const [scheme, N, r, p, salt = '', key = ''] = hash.split('$');
  if (scheme !== 'scrypt') return false;
  const expected = Buffer.from(key, 'base64');
  if (expected.length !== KEY_BYTES) return false;
  try {
    return timingSafeEqual(await derived(password, Buffer.from(salt, 'base64'), { N: Number(N), r: Number(r), p: Number(p) }), expected);
  } catch {
    return false;
  }
}

function derived(password: string, salt: Uint8Array, cost: HashCost): Promise<Buffer> {
  return new Promise((resolve, reject) => {
    scrypt(password.normalize('NFC'), salt, KEY_BYTES, { ...cost, maxmem: MEMORY_BYTES }, (error, key) => {
      if (error === null) resolve(key);
      else reject(error);
    });
  });
}

const ALPHABET = 'abcdefghjkmnpqrstuvwxyz23456789';

/** A password to be read out and typed once: four groups of four letters and digits that look like no other, 79 bits. */
export function newPassword(): string {
  const letters = [...randomBytes(64)].filter((byte) => byte < 8 * ALPHABET.length).map((byte) => ALPHABET[byte % ALPHABET.length]);
  if (letters.length < 16) return newPassword();
  return [0, 4, 8, 12].map((from) => letters.slice(from, from + 4).join('')).join('-');
}
