import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { nextUnit, othersOf, OWN_UNITS, roundStep, shownUnit, UNIT_KINDS, type UnitKind } from '../../../src/core/units/unit-kinds.ts';

describe('units by kind', () => {
  it('show the job file\u2019s units in the chosen ones, rates too', () => {
    const metric = { ...OWN_UNITS, height: 'm', speed: 'km/h', mass: 'kg', volume: 'l' };
    // A foot is 0.3048 m, a knot 1.852 km/h, a pound 0.45359237 kg: all exact by definition (1959).
    expect(shownUnit('ft', metric)).toEqual({ kind: 'height', unit: 'm', factor: expect.closeTo(0.3048, 12) });
    expect(shownUnit('kt', metric)).toEqual({ kind: 'speed', unit: 'km/h', factor: expect.closeTo(1.852, 12) });
    expect(shownUnit('lb/min', metric)).toEqual({ kind: 'mass', unit: 'kg/min', factor: expect.closeTo(0.453_592_37, 12) });
    expect(shownUnit('gal/h', metric)?.unit).toBe('l/h');
    expect(shownUnit('ft', OWN_UNITS)).toEqual({ kind: 'height', unit: 'ft', factor: 1 });
    for (const none of ['\u00b0', 's', '', '\u00d7']) expect(shownUnit(none, metric)).toBeNull();
  });

  it('come back to the first after the last', () => {
    for (const kind of Object.keys(UNIT_KINDS) as UnitKind[]) {
      const units = Object.keys(UNIT_KINDS[kind]);
      expect(units.reduce((unit) => nextUnit(kind, unit), units[0]!)).toBe(units[0]);
    }
  });

  it('convert there and back', () => {
    for (const unit of ['ft', 'kt', 'lb', 'gal']) {
      fc.assert(
        fc.property(fc.constantFrom(...Object.entries(othersOf(unit)).filter(([other]) => other !== 'kmh')), ([other, factor]) => {
          expect(factor * (othersOf(other)[unit] ?? Number.NaN)).toBeCloseTo(1, 12);
        }),
      );
    }
  });

  it('step in round numbers of the shown unit', () => {
    expect([500 * 0.3048, 100 * 0.3048, 5 * 1.852, 10 * 0.4536, 0.5].map(roundStep)).toEqual([200, 20, 10, 5, 0.5]);
  });
});
