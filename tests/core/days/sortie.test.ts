import { fc } from '../../property.ts';
import { describe, expect, it } from 'vitest';
import { flySortie, sortieChanges, type SortieShip, type SortieStop } from '../../../src/core/days/sortie.ts';
import { unitText } from '../../../src/core/text/unit-text.ts';
import { OWN_UNITS } from '../../../src/core/units/unit-kinds.ts';

const AT = Date.UTC(2027, 5, 19, 15);
const SHIP: SortieShip = {
  oilPounds: 400,
  fuelGallons: 40,
  fuelGallonsPerHour: 12,
  leastFuelGallons: 9,
  climbFeetPerMinute: 1000,
  fieldElevationFeet: 500,
  turnRoundSeconds: 1800,
};
const stop = (name: string, part: Partial<SortieStop> = {}): SortieStop => ({
  name,
  firstSmokeMilliseconds: AT,
  writingSeconds: 600,
  oilPoundsByLetter: [50, 50, 50],
  layerFeet: 10_500,
  transitSeconds: 600,
  fromFieldSeconds: 300,
  refillBefore: false,
  ...part,
});

describe('a sortie', () => {
  it('counts climb, transit, writing and the way home: 10,000 ft at 1,000 ft/min are ten minutes', () => {
    const { steps, fits, fuelAtEndGallons, takeOffMilliseconds } = flySortie([stop('SAIL')], SHIP);
    expect(fits).toBe(true);
    expect(takeOffMilliseconds).toBe(AT - 1200 * 1000);
    expect(steps[0]).toEqual({ name: 'SAIL', oilAfterPounds: 250, fuelAfterGallons: expect.closeTo(34, 9), lateSeconds: 0, climbSeconds: 600 });
    // 600 climb, 600 transit, 600 writing, 300 home at 12 gal an hour.
    expect(fuelAtEndGallons).toBeCloseTo(40 - (2100 / 3600) * 12, 9);
  });

  it('waits where it is early and says how late it is', () => {
    const two = (minutes: number): SortieStop[] => [stop('ONE'), stop('TWO', { firstSmokeMilliseconds: AT + minutes * 60_000, transitSeconds: 300 })];
    expect(flySortie(two(30), SHIP).steps[1]?.lateSeconds).toBe(-900);
    const late = flySortie(two(12), SHIP);
    expect(late.steps[1]?.lateSeconds).toBe(180);
    expect(late.faults).toEqual(['TWO: first smoke 3 min late']);
  });

  it('says what is short, and with which least change it fits', () => {
    const stops = [stop('ONE'), stop('TWO', { firstSmokeMilliseconds: AT + 90 * 60_000, oilPoundsByLetter: [100, 100, 100] })];
    const flown = flySortie(stops, SHIP);
    expect(flown.faults).toEqual(['TWO: 50 lb of smoke oil short']);
    // What is short is never rounded to nothing.
    expect(flySortie(stops, { ...SHIP, oilPounds: SHIP.oilPounds + 49.8 }).faults).toEqual(['TWO: 1 lb of smoke oil short']);
    expect(flySortie(stops, SHIP, unitText({ ...OWN_UNITS, mass: 'kg' })).faults).toEqual(['TWO: 23 kg of smoke oil short']);
    const changes = sortieChanges(stops, SHIP);
    expect(changes.map(({ kind }) => kind)).toEqual(['refill', 'smaller', 'fewer', 'ship']);
    expect(changes[1]?.words).toBe('letters 12 % smaller in every word');
    expect(changes[2]?.words).toBe('1 letter fewer in TWO');
    for (const { stops: changed } of changes) if (changed !== null) expect(flySortie(changed, SHIP).fits).toBe(true);
  });

  it('orders by time where the given order cannot be flown', () => {
    const stops = [stop('LATER', { firstSmokeMilliseconds: AT + 40 * 60_000 }), stop('SOONER')];
    expect(flySortie(stops, SHIP).fits).toBe(false);
    expect(sortieChanges(stops, SHIP)[0]).toMatchObject({ kind: 'order', words: 'another order: SOONER, LATER' });
  });

  it('names a climb that nobody has said, and never proposes what does not fit', () => {
    expect(flySortie([stop('A')], { ...SHIP, climbFeetPerMinute: null }).faults).toEqual(['climb rate not entered: climbs are counted as nothing']);
    const any = fc.record({
      name: fc.constant('X'),
      firstSmokeMilliseconds: fc.integer({ min: 0, max: 6 * 3_600_000 }).map((more) => AT + more),
      writingSeconds: fc.integer({ min: 60, max: 2000 }),
      oilPoundsByLetter: fc.array(fc.integer({ min: 5, max: 120 }), { minLength: 1, maxLength: 8 }),
      layerFeet: fc.integer({ min: 5000, max: 17_000 }),
      transitSeconds: fc.integer({ min: 0, max: 3000 }),
      fromFieldSeconds: fc.integer({ min: 0, max: 3000 }),
      refillBefore: fc.boolean(),
    });
    fc.assert(
      fc.property(fc.array(any, { maxLength: 5 }), (stops) => {
        for (const { stops: changed } of sortieChanges(stops, SHIP)) if (changed !== null) expect(flySortie(changed, SHIP).fits).toBe(true);
      }),
    );
  });
});
