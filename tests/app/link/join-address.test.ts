import { describe, expect, it } from 'vitest';
import { joinAddress, joinFromAddress, joinFromHash } from '../../../src/app/link/join-address.ts';
import { routeFromHash } from '../../../src/app/route.ts';

const PAGE = { origin: 'https://field.example:8443', pathname: '/' };
const CODE = { jobId: 'lake-ondine', digest: '0123456789abcdef01234567', linkAddress: 'wss://field.example:8443/link' };

describe('a join code', () => {
  it('survives the way through an address', () => {
    expect(joinFromAddress(joinAddress(CODE, PAGE))).toEqual(CODE);
    const bare = { jobId: 'j', digest: null, linkAddress: null };
    expect(joinFromAddress(joinAddress(bare, PAGE))).toEqual(bare);
  });

  it('opens the job\u2019s Ground screen in any browser that follows it', () => {
    expect(routeFromHash(new URL(joinAddress(CODE, PAGE)).hash)).toEqual({ screen: 'ground', jobId: 'lake-ondine' });
  });

  it.each([
    ['a password in the link\u2019s address', '#/ground/j/join?link=wss%3A%2F%2Fa%3Ab%40evil.example%2Flink'],
    ['another scheme', '#/ground/j/join?link=javascript%3Aalert(1)'],
    ['a digest that is none', '#/ground/j/join?digest=xyz'],
  ])('drops %s', (_name, hash) => {
    expect(joinFromHash(hash)).toEqual({ jobId: 'j', digest: null, linkAddress: null });
  });

  it.each(['', '#/ground/j', '#/write/j/join?', '#/ground/a b/join?x', '#/ground/../join?'])('is no other fragment: %j', (hash) => {
    expect(joinFromHash(hash)).toBeNull();
  });
});
