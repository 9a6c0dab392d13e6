import { scryptSync } from 'node:crypto';
import { describe, expect, it } from 'vitest';
import { hashFromPassword, newPassword, passwordFits } from '../../src/hub/password-hash.ts';

const CHEAP = { N: 16, r: 1, p: 1 };

describe('passwords', () => {
  it('fit their own hash and no other', async () => {
    const hash = await hashFromPassword('Ondine \u00e9', CHEAP);
    expect(await passwordFits('Ondine e\u0301', hash)).toBe(true);
    expect(await passwordFits('Ondine e', hash)).toBe(false);
    expect(await passwordFits('', hash)).toBe(false);
    expect(hash).not.toContain('Ondine');
  });

  it('are salted', async () => {
    expect(await hashFromPassword('same', CHEAP)).not.toBe(await hashFromPassword('same', CHEAP));
  });

  it('are hashed as RFC 7914, section 12, has it (first vectors, cut to 32 bytes: the key is a PBKDF2 stream)', async () => {
    // P "pleaseletmein", S "SodiumChloride", N 16384, r 8, p 1: 7023bdcb3afd7348 461c06cd81fd38eb fda8fbba904f8e3e a9b543f6545da1f2 ...
    const hash = await hashFromPassword('pleaseletmein', { N: 16_384, r: 8, p: 1 }, Buffer.from('SodiumChloride'));
    expect(Buffer.from(hash.split('$').at(-1)!, 'base64').toString('hex')).toBe('7023bdcb3afd7348461c06cd81fd38ebfda8fbba904f8e3ea9b543f6545da1f2');
    expect(scryptSync('', '', 32, { N: 16, r: 1, p: 1 }).toString('hex')).toBe('77d6576238657b203b19ca42c18a0497f16b4844e3074ae8dfdffa3fede21442');
  });

  it.each(['', 'plain', 'scrypt$16$1$1$AA==$AA==', 'scrypt$1e9$8$1$AAAA$' + Buffer.alloc(32).toString('base64'), 'bcrypt$16$1$1$AAAA$AAAA'])(
    'fit no hash of another form: %j',
    async (hash) => {
      expect(await passwordFits('plain', hash)).toBe(false);
    },
  );

  it('made anew can be read out', () => {
    const made = Array.from({ length: 200 }, newPassword);
    expect(new Set(made).size).toBe(200);
    for (const password of made) expect(password).toMatch(/^([a-hjkmnp-z2-9]{4}-){3}[a-hjkmnp-z2-9]{4}$/);
  });
});
