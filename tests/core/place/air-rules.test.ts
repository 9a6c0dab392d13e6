import { describe, expect, test } from 'vitest';
import type { CloudLayer } from '../../../src/core/job/conditions-si.ts';
import { cloudMinima, cloudStanding, oxygenNeed } from '../../../src/core/place/air-rules.ts';
import { metresFromFeet } from '../../../src/core/units/quantity.ts';

const feet = metresFromFeet;
const cloud = (baseFeet: number, topFeet: number | null, oktas = 7): CloudLayer => ({
  baseMetres: feet(baseFeet),
  topMetres: topFeet === null ? null : feet(topFeet),
  oktas,
});

describe('visual minima (14 CFR 91.155, class E)', () => {
  test('change exactly at 10,000 ft', () => {
    expect(cloudMinima(feet(9_999))).toMatchObject({
      visibilityMetres: 3 * 1_609.344,
      belowCloudMetres: feet(500),
      aboveCloudMetres: feet(1_000),
      asideMetres: feet(2_000),
    });
    expect(cloudMinima(feet(10_000))).toMatchObject({
      visibilityMetres: 5 * 1_609.344,
      belowCloudMetres: feet(1_000),
      aboveCloudMetres: feet(1_000),
      asideMetres: 1_609.344,
    });
  });
});

describe('clouds', () => {
  test.each([
    [10_500, null, 'not checked'],
    [10_500, [], 'clear'],
    [10_500, [cloud(12_000, 14_000)], 'clear'],
    [11_500, [cloud(12_000, 14_000)], 'too near'],
    [9_600, [cloud(10_000, 12_000)], 'too near'],
    [9_400, [cloud(10_000, 12_000)], 'clear'],
    [12_500, [cloud(12_000, 14_000)], 'in cloud'],
    [14_500, [cloud(12_000, 14_000)], 'too near'],
    [15_500, [cloud(12_000, 14_000)], 'hidden from below'],
    [15_500, [cloud(12_000, 14_000, 4)], 'partly hidden'],
    [15_500, [cloud(12_000, 14_000, 2)], 'clear'],
    [15_500, [cloud(12_000, null)], 'unknown top'],
    [10_000, [cloud(3_000, 4_000, 3), cloud(10_500, 12_000)], 'too near'],
  ] as const)('%d ft, case %#', (height, clouds, expected) => {
    expect(cloudStanding(feet(height), clouds)).toBe(expected);
  });
});

describe('oxygen (14 CFR 91.211(a), AIM 8-1-2)', () => {
  test.each([
    [10_000, 7_200, 'none'],
    [10_001, 60, 'advised'],
    [12_500, 7_200, 'advised'],
    [12_501, 1_800, 'advised'],
    [12_501, 1_801, 'required'],
    [14_000, 1_801, 'required'],
    [14_001, 1, 'required throughout'],
  ] as const)('%d ft for %d s: %s', (height, seconds, expected) => {
    expect(oxygenNeed(feet(height), seconds)).toBe(expected);
  });
});
