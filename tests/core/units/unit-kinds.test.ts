import { fc } from '../../property.ts';
import { describe, expect, it } from 'vitest';
import { nextUnit, othersOf, OWN_UNITS, roundStep, shownUnit, UNIT_KINDS, type UnitKind } from '../../../src/core/units/unit-kinds.ts';

describe('units by kind', () => {
  it('show the job file\u2019s units in the chosen ones, rates too', () => {
    const metric = { ...OWN_UNITS, height: 'm', speed: 'km/h', mass: 'kg', volume: 'l' };
    // A foot is 0.3048 m, a knot 1.852 km/h, a pound 0.45359237 kg: all exact by definition (1959).
    expect(shownUnit('ft', metric)).toEqual({ kind: 'height', unit: 'm', factor: expect.closeTo(0.3048, 12), zero: 0 });
    expect(shownUnit('kt', metric)).toEqual({ kind: 'speed', unit: 'km/h', factor: expect.closeTo(1.852, 12), zero: 0 });
    expect(shownUnit('lb/min', metric)).toEqual({ kind: 'mass', unit: 'kg/min', factor: expect.closeTo(0.453_592_37, 12), zero: 0 });
    expect(shownUnit('gal/h', metric)?.unit).toBe('l/h');
    // A US gallon is 231 cubic inches, 3.785411784 l: 7.1 lb of oil a gallon are 0.8508 kg a litre.
    expect(shownUnit('lb/gal', metric)).toEqual({ kind: 'mass', unit: 'kg/l', factor: expect.closeTo(0.453_592_37 / 3.785_411_784, 12), zero: 0 });
    expect(shownUnit('lb/gal', { ...OWN_UNITS, volume: 'l' })).toEqual({ kind: 'mass', unit: 'lb/l', factor: expect.closeTo(1 / 3.785_411_784, 12), zero: 0 });
    expect(shownUnit('lb/gal', OWN_UNITS)).toEqual({ kind: 'mass', unit: 'lb/gal', factor: 1, zero: 0 });
    expect(shownUnit('ft', OWN_UNITS)).toEqual({ kind: 'height', unit: 'ft', factor: 1, zero: 0 });
    for (const none of ['\u00b0', 's', '', '\u00d7']) expect(shownUnit(none, metric)).toBeNull();
  });

  it('come back to the first after the last', () => {
    for (const kind of Object.keys(UNIT_KINDS) as UnitKind[]) {
      const units = Object.keys(UNIT_KINDS[kind]);
      expect(units.reduce((unit) => nextUnit(kind, unit), units[0]!)).toBe(units[0]);
    }
  });

  it('convert there and back, temperatures with their zero', () => {
    for (const kind of Object.keys(UNIT_KINDS) as UnitKind[]) {
      for (const unit of Object.keys(UNIT_KINDS[kind])) {
        for (const [typed, to] of Object.entries(othersOf(unit))) {
          const written = Object.keys(UNIT_KINDS[kind]).find((each) => each.toLowerCase() === typed);
          if (written === undefined) continue;
          const back = othersOf(written)[unit.toLowerCase()];
          fc.assert(
            fc.property(fc.double({ min: -1000, max: 1000, noNaN: true }), (value) => {
              const there = value * to.factor + to.zero;
              expect(there * (back?.factor ?? Number.NaN) + (back?.zero ?? Number.NaN)).toBeCloseTo(value, 8);
            }),
            { numRuns: 20 },
          );
        }
      }
    }
    // By definition of the scale: water freezes at 32 and boils at 212 degrees Fahrenheit; -40 is both.
    const fahrenheit = othersOf('\u00b0C')['f'];
    expect([32, 212, -40].map((value) => value * fahrenheit!.factor + fahrenheit!.zero)).toEqual([0, 100, -40].map((value) => expect.closeTo(value, 9)));
  });

  it('tell a crowd in statute miles what pilots are told in nautical ones', () => {
    expect(shownUnit('statute mi', OWN_UNITS)).toEqual({ kind: 'distance', unit: 'statute mi', factor: 1, zero: 0 });
    expect(shownUnit('statute mi', { ...OWN_UNITS, distance: 'km' })).toEqual({ kind: 'distance', unit: 'km', factor: expect.closeTo(1.609_344, 12), zero: 0 });
    expect([nextUnit('distance', 'statute mi', true), nextUnit('distance', 'km', true)]).toEqual(['km', 'NM']);
  });

  it('step in round numbers of the shown unit', () => {
    expect([500 * 0.3048, 100 * 0.3048, 5 * 1.852, 10 * 0.4536, 0.5].map(roundStep)).toEqual([200, 20, 10, 5, 0.5]);
  });
});
