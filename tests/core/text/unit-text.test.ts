import { fc } from '../../property.ts';
import { describe, expect, it } from 'vitest';
import { unitText } from '../../../src/core/text/unit-text.ts';
import { OWN_UNITS, UNIT_KINDS } from '../../../src/core/units/unit-kinds.ts';

const METRIC = { height: 'm', speed: 'km/h', distance: 'km', mass: 'kg', volume: 'l', temperature: '\u00b0C', pressure: 'hPa' };

describe('quantities in words', () => {
  it('are the job file\u2019s units where nothing else was chosen', () => {
    const { height, speed, distance, crowdDistance, mass, volume, temperature, pressure, shear } = unitText();
    expect(height.text(3200.4)).toBe('10,500 ft');
    expect(speed.text(53.5022)).toBe('104 kt');
    expect(distance.text(18_520, 1)).toBe('10.0 NM');
    expect(crowdDistance.text(16_093.44, 1)).toBe('10.0 statute mi');
    expect(mass.text(20.4117)).toBe('45 lb');
    expect(volume.text(151.4165, 1)).toBe('40.0 gal');
    expect(temperature.text(-5)).toBe('\u22125 \u00b0C');
    expect(pressure.text(1013.25)).toBe('1013 hPa');
    expect(shear(0.005)).toBe('3.0 kt per 1,000 ft');
  });

  it('are the chosen ones everywhere else', () => {
    const { height, speed, distance, crowdDistance, mass, volume, temperature, pressure, shear } = unitText({
      ...METRIC,
      temperature: '\u00b0F',
      pressure: 'inHg',
    });
    expect(height.own(10_500)).toBe('3,200 m');
    expect(speed.own(104)).toBe('193 km/h');
    expect([distance.text(18_520, 1), crowdDistance.text(18_520, 1)]).toEqual(['18.5 km', '18.5 km']);
    expect(mass.own(45)).toBe('20 kg');
    expect(volume.own(40, 1)).toBe('151.4 l');
    expect(temperature.text(100)).toBe('212 \u00b0F');
    // The standard atmosphere's sea level is 29.92 inches of mercury (ICAO Annex 5, and every altimeter).
    expect(pressure.text(1013.25)).toBe('29.92 inHg');
    expect(shear(0.005)).toBe('1.8 km/h per 100 m');
    expect(unitText({ ...METRIC, speed: 'm/s' }).speed.text(53.5)).toBe('53.5 m/s');
  });

  it('are rounded to the side that is asked for, in the unit that is shown', () => {
    for (const choice of [OWN_UNITS, METRIC]) {
      const { distance, height } = unitText(choice);
      fc.assert(
        fc.property(fc.double({ min: 1, max: 1e5, noNaN: true }), (metres) => {
          const up = distance.rounded(metres, 0.1, 'up');
          expect(up).toBeGreaterThanOrEqual(metres - 1e-4);
          expect(Number(distance.number(up, 1).replaceAll(',', ''))).toBeCloseTo(distance.of(up), 6);
          expect(height.rounded(metres, 1, 'down')).toBeLessThanOrEqual(metres + 1e-6);
        }),
      );
    }
  });

  it('name each chosen unit', () => {
    for (const kind of ['height', 'speed', 'distance', 'mass', 'volume', 'temperature', 'pressure'] as const) {
      for (const unit of Object.keys(UNIT_KINDS[kind])) expect(unitText({ ...OWN_UNITS, [kind]: unit })[kind].text(1)).toMatch(new RegExp(` ${unit}$`));
    }
  });
});
