import { describe, expect, test } from 'vitest';
import type { SunDay } from '../../../src/core/earth/sun.ts';
import type { ShipBudget } from '../../../src/core/plan/budget.ts';
import type { Check } from '../../../src/core/checks/check.ts';
import type { GoFacts } from '../../../src/core/checks/go-facts.ts';
import { goNoGo } from '../../../src/core/checks/go-no-go.ts';
import type { ReadingWindow } from '../../../src/core/sky/reading-window.ts';
import { STANDING_CAUTIONS } from '../../../src/core/checks/standing-cautions.ts';
import { radiansFromDegrees } from '../../../src/core/units/angle.ts';
import { metresFromFeet, metresFromStatuteMiles, metresPerSecondFromKnots } from '../../../src/core/units/quantity.ts';

const FIRST = Date.UTC(2027, 5, 19, 17, 20);
const READ = Date.UTC(2027, 5, 19, 17, 30);
const DAY: SunDay = {
  noonMilliseconds: Date.UTC(2027, 5, 19, 17),
  riseMilliseconds: Date.UTC(2027, 5, 19, 9, 20),
  setMilliseconds: Date.UTC(2027, 5, 20, 0, 40),
  dawnMilliseconds: null,
  duskMilliseconds: null,
  kind: 'day and night',
};
const BUDGET: ShipBudget = {
  shipIndex: 0,
  oilNeededKilograms: 100,
  oilLeftKilograms: 80,
  oilGoneSeconds: null,
  fuelNeededLitres: 50,
  fuelLeftLitres: 90,
  fuelReserveLitres: 40,
  oilSuffices: true,
  fuelSuffices: true,
  wholeFlightCounted: true,
  toggles: 12,
};
const WINDOW: ReadingWindow = {
  letters: [],
  fromSeconds: 500,
  until: { lowSeconds: 700, likelySeconds: 1_100, highSeconds: 2_000 },
  stands: { fromSeconds: 500, untilSeconds: 900, endedBy: 'leaning' },
  first: { letterIndex: 0, character: 'S', endedBy: 'spread' },
};
const FACTS: GoFacts = {
  siteElevationMetres: 500,
  layerHeightMetres: metresFromFeet(9_900),
  firstSmokeMilliseconds: FIRST,
  readMilliseconds: READ,
  secondsAtHeight: 3_000,
  wind: { ok: true, wind: { eastMetresPerSecond: -6, northMetresPerSecond: 0 }, standardDeviationMetresPerSecond: 0, directionKnown: true, heldMetres: 0 },
  shear: { eastPerSecond: 0.002, northPerSecond: 0 },
  windsUse: { fromMilliseconds: READ - 3_600_000, toMilliseconds: READ + 3_600_000 },
  clouds: [],
  visibilityMetres: 30_000,
  sunDay: DAY,
  sunMarginRadians: radiansFromDegrees(60),
  glareShare: 0,
  budgets: [BUDGET],
  separation: null,
  steepestBankRadians: radiansFromDegrees(45),
  window: WINDOW,
  areas: [],
  variation: { ok: true, variationDegrees: -13, compass: 'good' },
  loadings: [],
  permissions: [],
  callMilliseconds: null,
};

const check = (id: string, changes: Partial<GoFacts>): Check => {
  const found = goNoGo({ ...FACTS, ...changes }).checks.find((each) => each.id === id);
  if (found === undefined) throw new Error(`no check ${id}`);
  return found;
};

describe('go or no go', () => {
  test('a quiet job: all that can be checked is ok, the rest is said', () => {
    const found = goNoGo(FACTS);
    expect(found.worst).toBe('ok');
    expect(found.notChecked).toBe(STANDING_CAUTIONS.length);
    expect(found.checks.filter((each) => each.status !== 'not-checked').every((each) => each.status === 'ok')).toBe(true);
  });

  test('a permission stands as far as it has come, with its number and who said so', () => {
    const of = (state: GoFacts['permissions'][number]['state']): Check =>
      check('permission-0', { permissions: [{ name: 'Waiver', state, number: 'W 12', saidBy: 'the district office' }] });
    expect(['granted', 'asked', 'to-ask', 'refused'].map((state) => of(state as 'asked').status)).toEqual(['ok', 'caution', 'caution', 'stop']);
    expect(of('granted').value).toEqual({ kind: 'words', words: 'granted, W 12, the district office' });
    expect(goNoGo({ ...FACTS, permissions: [{ name: '', state: 'refused', number: '', saidBy: '' }] }).worst).toBe('stop');
  });

  test('a call after the first smoke is no call', () => {
    expect(check('call-hour', { callMilliseconds: FACTS.firstSmokeMilliseconds - 1 }).status).toBe('ok');
    expect(check('call-hour', { callMilliseconds: FACTS.firstSmokeMilliseconds }).status).toBe('caution');
  });

  test('every check has a title, a source and advice; ids are unique; nothing is called safe', () => {
    const { checks } = goNoGo({ ...FACTS, separation: { leastMetres: 400, wantedMetres: 300 } });
    expect(new Set(checks.map((each) => each.id)).size).toBe(checks.length);
    for (const each of checks) {
      expect(each.title.length * each.source.length * each.advice.length).toBeGreaterThan(0);
      expect(`${each.title} ${each.advice}`).not.toMatch(/\bsafe/i);
    }
  });

  test('what was not looked at is not checked, never ok', () => {
    const found = goNoGo({
      ...FACTS,
      wind: null,
      shear: null,
      windsUse: null,
      clouds: null,
      visibilityMetres: null,
      sunMarginRadians: null,
      glareShare: null,
      window: null,
      areas: null,
      variation: null,
    });
    for (const id of ['cloud', 'visibility', 'wind', 'shear', 'winds-period', 'sun-crowd', 'sun-pilot', 'reading', 'areas', 'variation']) {
      expect([id, found.checks.find((each) => each.id === id)?.status]).toEqual([id, 'not-checked']);
    }
    expect(found.notChecked).toBe(STANDING_CAUTIONS.length + 10);
  });

  test('the worst decides', () => {
    expect(goNoGo({ ...FACTS, glareShare: 0.1 }).worst).toBe('caution');
    expect(goNoGo({ ...FACTS, glareShare: 0.1, visibilityMetres: 3_000 }).worst).toBe('stop');
  });
});

describe('each limit, on both sides', () => {
  const area = { name: 'Airfield', noGo: true, floorFeet: null, ceilingFeet: null, heightsSaid: '', polygons: [] };
  const wind = (knots: number, directionKnown = true): Partial<GoFacts> => ({
    wind: {
      ok: true,
      wind: { eastMetresPerSecond: metresPerSecondFromKnots(knots), northMetresPerSecond: 0 },
      standardDeviationMetresPerSecond: 0,
      directionKnown,
      heldMetres: 0,
    },
  });
  const feet = (layer: number, seconds = 3_000): Partial<GoFacts> => ({ layerHeightMetres: metresFromFeet(layer), secondsAtHeight: seconds });

  test.each<[string, Partial<GoFacts>, Check['status']]>([
    ['visibility', { visibilityMetres: metresFromStatuteMiles(3) }, 'ok'],
    ['visibility', { visibilityMetres: metresFromStatuteMiles(2.9) }, 'stop'],
    ['visibility', { visibilityMetres: metresFromStatuteMiles(4.9), ...feet(10_000) }, 'stop'],
    ['cloud', { clouds: [{ baseMetres: metresFromFeet(10_300), topMetres: null, oktas: 3 }] }, 'stop'],
    ['cloud', { clouds: [{ baseMetres: metresFromFeet(10_500), topMetres: null, oktas: 3 }] }, 'ok'],
    ['cloud', { clouds: [{ baseMetres: metresFromFeet(3_000), topMetres: null, oktas: 3 }] }, 'caution'],
    ['wind', wind(25), 'ok'],
    ['wind', wind(26), 'caution'],
    ['wind', wind(51), 'stop'],
    ['wind', wind(0, false), 'caution'],
    ['wind', { wind: { ok: false, reason: 'the highest wind given is 6,000 ft' } }, 'caution'],
    ['shear', { shear: { eastPerSecond: 0, northPerSecond: 0.011 } }, 'caution'],
    ['winds-period', { windsUse: { fromMilliseconds: READ + 1, toMilliseconds: READ + 2 } }, 'caution'],
    ['winds-period', { windsUse: { fromMilliseconds: READ - 2, toMilliseconds: READ - 1 } }, 'caution'],
    ['daylight', { sunDay: { ...DAY, setMilliseconds: READ - 1 } }, 'stop'],
    ['daylight', { sunDay: { ...DAY, riseMilliseconds: FIRST + 1 } }, 'stop'],
    ['daylight', { sunDay: { ...DAY, riseMilliseconds: null, setMilliseconds: null, kind: 'polar day' } }, 'ok'],
    ['daylight', { sunDay: { ...DAY, riseMilliseconds: null, setMilliseconds: null, kind: 'polar night' } }, 'stop'],
    ['sun-crowd', { sunMarginRadians: radiansFromDegrees(25) }, 'ok'],
    ['sun-crowd', { sunMarginRadians: radiansFromDegrees(24.9) }, 'caution'],
    ['sun-pilot', { glareShare: 0.01 }, 'caution'],
    ['height', { siteElevationMetres: metresFromFeet(9_000) }, 'stop'],
    ['height', { siteElevationMetres: metresFromFeet(8_800) }, 'caution'],
    ['oxygen', feet(10_000), 'ok'],
    ['oxygen', feet(10_500), 'caution'],
    ['oxygen', feet(15_000), 'caution'],
    ['oil-0', { budgets: [{ ...BUDGET, oilLeftKilograms: 17 }] }, 'ok'],
    ['oil-0', { budgets: [{ ...BUDGET, oilLeftKilograms: 5 }] }, 'caution'],
    ['oil-0', { budgets: [{ ...BUDGET, oilLeftKilograms: -1, oilSuffices: false }] }, 'stop'],
    ['fuel-0', { budgets: [{ ...BUDGET, fuelLeftLitres: 41 }] }, 'caution'],
    ['fuel-0', { budgets: [{ ...BUDGET, fuelLeftLitres: 39, fuelSuffices: false }] }, 'stop'],
    // Enough for the writing alone says nothing of the flight; too little for it says enough.
    ['fuel-0', { budgets: [{ ...BUDGET, wholeFlightCounted: false }] }, 'not-checked'],
    ['fuel-0', { budgets: [{ ...BUDGET, fuelLeftLitres: 39, fuelSuffices: false, wholeFlightCounted: false }] }, 'stop'],
    ['separation', { separation: { leastMetres: 300, wantedMetres: 300 } }, 'ok'],
    ['separation', { separation: { leastMetres: 299, wantedMetres: 300 } }, 'stop'],
    ['bank', { steepestBankRadians: radiansFromDegrees(61) }, 'caution'],
    ['reading', { window: { ...WINDOW, fromSeconds: 601 } }, 'stop'],
    ['reading', { window: { ...WINDOW, fromSeconds: 600.000_001 } }, 'ok'],
    ['reading', { window: { ...WINDOW, until: { lowSeconds: 599, likelySeconds: 900, highSeconds: 1_000 } } }, 'caution'],
    ['reading', { window: { ...WINDOW, until: { lowSeconds: 100, likelySeconds: 200, highSeconds: 599 } } }, 'stop'],
    ['areas', { areas: [{ area, inside: true, distanceMetres: 0 }] }, 'stop'],
    ['areas', { areas: [{ area, inside: false, distanceMetres: 1_800 }] }, 'caution'],
    ['areas', { areas: [{ area, inside: false, distanceMetres: 1_900 }] }, 'ok'],
    ['variation', { variation: { ok: false, reason: 'after 2029' } }, 'caution'],
    ['variation', { variation: { ok: true, variationDegrees: 60, compass: 'unreliable' } }, 'caution'],
  ])('%s, case %#: %o', (id, changes, status) => {
    expect(check(id, changes).status).toBe(status);
  });

  test('the value and the limit stand beside it', () => {
    expect(check('oxygen', feet(13_000)).limit).toEqual({ kind: 'height', metres: metresFromFeet(12_500) });
    expect(check('oxygen', feet(13_000, 60)).limit).toEqual({ kind: 'height', metres: metresFromFeet(10_000) });
    expect(check('areas', { areas: [{ area, inside: false, distanceMetres: 900 }] })).toMatchObject({
      value: { kind: 'distance', metres: 900 },
      advice: expect.stringMatching(/Airfield/),
    });
    expect(check('reading', {}).advice).toMatch(/S goes first: spread/);
  });
});
