import { expect, it } from 'vitest';
import { isKnownHost, mayOrigin } from '../../src/hub/origin.ts';

const known = { secure: false, allowedOrigins: ['https://field.example:8443'], isCertified: (name: string) => name === 'field.local' };

it.each([
  ['localhost:8080', true],
  ['LOCALHOST', true],
  ['127.0.0.1:8080', true],
  ['192.168.4.1:8443', true],
  ['[fe80::1]:8443', true],
  ['field.local:8443', true],
  ['field.example', true],
  ['rebound.example:8080', false],
  ['localhost.rebound.example', false],
  ['127.0.0.1.rebound.example', false],
  ['', false],
  [undefined, false],
])('the host %s', (host, expected) => {
  expect(isKnownHost(host, known)).toBe(expected);
});

it('a page of a name that was pointed here is no page of the hub', () => {
  expect(mayOrigin('http://rebound.example:8080', 'rebound.example:8080', known)).toBe(false);
  expect(mayOrigin(undefined, 'rebound.example:8080', known)).toBe(false);
  expect(mayOrigin('http://localhost:8080', 'localhost:8080', known)).toBe(true);
  expect(mayOrigin('https://localhost:8080', 'localhost:8080', known)).toBe(false);
  expect(mayOrigin('https://field.example:8443', 'localhost:8080', known)).toBe(true);
});
