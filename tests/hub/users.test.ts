import { describe, expect, it } from 'vitest';
import { type HubUser, textFromUsers, usersFromText } from '../../src/hub/users.ts';

const USER: HubUser = { name: 'lead', role: 'ship', jobs: ['*'], password: 'scrypt$16384$8$1$AAAA$AAAA' };

describe('the users file', () => {
  it('survives the way there and back', () => {
    expect(usersFromText(textFromUsers([USER]))).toEqual({ ok: true, value: [USER] });
  });

  it.each([
    ['is not JSON', '{', /not JSON/],
    ['is another format', '{"format":"x"}', /format/],
    ['holds a plain password', textFromUsers([{ ...USER, password: 'secret' }]), /password: is no hash/],
    ['names a user twice', textFromUsers([USER, USER]), /twice/],
    ['gives a role that is none', textFromUsers([USER]).replace('"ship"', '"admin"'), /role/],
    ['names a user by a wildcard', textFromUsers([{ ...USER, name: '+' }]), /name/],
  ])('is refused when it %s', (_name, text, reason) => {
    expect(usersFromText(text)).toMatchObject({ ok: false, reason: expect.stringMatching(reason) });
  });
});
