import { fc } from '../../property.ts';
import { describe, expect, it } from 'vitest';
import { altimeterReadings } from '../../../src/core/earth/altimeter.ts';
import { standardTemperatureKelvin } from '../../../src/core/earth/standard-atmosphere.ts';
import atmosphere from '../../reference/atmosphere.json' with { type: 'json' };

const feet = (value: number): number => value * 0.3048;

describe('what altimeters show', () => {
  it('is the true height, the flight level and the table\u2019s pressure in standard air', () => {
    // The rows of the standard atmosphere (USSA 1976, the same as ICAO Doc 7488): pressure at the elevation is the QFE.
    const rows = atmosphere.rows.filter(({ geopotential_m }) => geopotential_m <= 3048);
    expect(rows.length).toBeGreaterThan(3);
    for (const row of rows) {
      const read = altimeterReadings(feet(11_000), row.geopotential_m, 1013.25, standardTemperatureKelvin(feet(11_000)));
      expect(read.onQnhMetres).toBeCloseTo(feet(11_000), 6);
      expect(read.onStandardMetres).toBeCloseTo(feet(11_000), 2);
      expect(read.qfeHectopascals).toBeCloseTo(row.p_Pa / 100, 1);
      expect(read.onQfeMetres).toBeCloseTo(feet(11_000) - row.geopotential_m, 6);
    }
  });

  it('is too much in the cold by the published corrections', () => {
    // ICAO Doc 8168 volume I, cold temperature corrections in feet by aerodrome temperature and height above it, sea level;
    // from memory. The printed table is rounded up to 10 ft; from 2,000 ft on within a tenth.
    for (const [aerodromeCelsius, heightFeet, correctionFeet] of [
      [0, 1000, 60],
      [0, 5000, 280],
      [-10, 1000, 100],
      [-10, 5000, 490],
      [-20, 3000, 420],
      [-30, 5000, 950],
    ] as const) {
      const temperatureKelvin = standardTemperatureKelvin(feet(heightFeet)) + (aerodromeCelsius - 15);
      const { onQnhMetres } = altimeterReadings(feet(heightFeet), 0, 1013.25, temperatureKelvin);
      expect(Math.abs(onQnhMetres / 0.3048 - heightFeet - correctionFeet), `${aerodromeCelsius} ${heightFeet}`).toBeLessThan(
        Math.max(10, 0.1 * correctionFeet),
      );
    }
  });

  it('differs from the flight level by about 27 ft a hectopascal', () => {
    // Near sea level a hectopascal is 27.3 ft of standard air (8.32 m; USSA 1976: R T / g p).
    const [high, low] = [1023.25, 1003.25].map((qnh) => altimeterReadings(feet(9000), 0, qnh, standardTemperatureKelvin(feet(9000))).onStandardMetres);
    expect((low! - high!) / 20).toBeCloseTo(8.32, 1);
    expect(low).toBeGreaterThan(feet(9000));
  });

  it('is the worked value', () => {
    const read = altimeterReadings(feet(10_500), feet(1640), 1013.25, standardTemperatureKelvin(feet(10_500)) - 10);
    expect(read.onQnhMetres / 0.3048).toBeCloseTo(10_833, 0);
  });

  it('shows the elevation at the site and never stops the arithmetic', () => {
    fc.assert(
      fc.property(
        fc.double({ min: -400, max: 4000, noNaN: true }),
        fc.double({ min: 150, max: 10_000, noNaN: true }),
        fc.double({ min: 870, max: 1085, noNaN: true }),
        fc.double({ min: -40, max: 40, noNaN: true }),
        (elevation, above, qnh, warmer) => {
          const at = altimeterReadings(elevation, elevation, qnh, standardTemperatureKelvin(elevation) + warmer);
          expect(at.onQnhMetres).toBeCloseTo(elevation, 6);
          expect(at.onQfeMetres).toBeCloseTo(0, 6);
          const up = altimeterReadings(
            Math.min(10_900, elevation + above),
            elevation,
            qnh,
            standardTemperatureKelvin(Math.min(10_900, elevation + above)) + warmer,
          );
          expect(Object.values(up).every(Number.isFinite)).toBe(true);
          // Warm air is thick: the altimeter shows too little.
          if (Math.abs(warmer) > 0.1) expect(Math.sign(up.onQnhMetres - Math.min(10_900, elevation + above))).toBe(-Math.sign(warmer));
        },
      ),
    );
  });
});
