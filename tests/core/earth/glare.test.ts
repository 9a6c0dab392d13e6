import { expect, test } from 'vitest';
import { isGlare } from '../../../src/core/earth/glare.ts';
import { radiansFromDegrees as rad } from '../../../src/core/units/angle.ts';

test('glare is a low sun near the nose', () => {
  const sun = { azimuthRadians: rad(90), elevationRadians: rad(10) };
  expect(isGlare(rad(90), sun)).toBe(true);
  expect(isGlare(rad(114), sun)).toBe(true);
  expect(isGlare(rad(116), sun)).toBe(false);
  expect(isGlare(rad(66), sun)).toBe(true);
  expect(isGlare(rad(64), sun)).toBe(false);
  expect(isGlare(rad(355), { ...sun, azimuthRadians: rad(10) })).toBe(true);
  expect(isGlare(rad(90), { ...sun, elevationRadians: rad(39) })).toBe(true);
  expect(isGlare(rad(90), { ...sun, elevationRadians: rad(41) })).toBe(false);
  expect(isGlare(rad(90), { ...sun, elevationRadians: rad(-1) })).toBe(false);
  expect(isGlare(rad(270), sun)).toBe(false);
});
