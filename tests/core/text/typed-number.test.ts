import { fc } from '../../property.ts';
import { describe, expect, it } from 'vitest';
import { typedNumber } from '../../../src/core/text/typed-number.ts';

const WIDE = [-100_000, 10_000_000] as const;

describe('a typed number', () => {
  it.each([
    ['4000', 4000],
    [' 12 500 ', 12_500],
    ['12\u202f500', 12_500],
    ["12'500", 12_500],
    ['1\u2019234\u2019567', 1_234_567],
    ['0,3', 0.3],
    ['0,034', 0.034],
    ['0.034', 0.034],
    ['-0,127', -0.127],
    ['.5', 0.5],
    [',125', 0.125],
    ['\u22125', -5],
    ['45.', 45],
    ['1.234,5', 1234.5],
    ['1,234.5', 1234.5],
    ['1.234.567', 1_234_567],
    ['1,234,567', 1_234_567],
    ['12 345,25', 12_345.25],
    ['1234.567', 1234.567],
    ['0012', 12],
    ['43,87', 43.87],
    ['43,8721', 43.8721],
  ])('%j is %d', (text, value) => expect(typedNumber(text, WIDE)).toEqual({ ok: true, value }));

  it.each([
    ['3.500', [3500, 3.5]],
    ['3,500', [3500, 3.5]],
    ['1.640', [1640, 1.64]],
    ['-12,500', [-12_500, -12.5]],
  ])('%j is asked, not guessed', (text, readings) => expect(typedNumber(text, WIDE)).toMatchObject({ ok: false, readings }));

  it('is taken where only one reading can be meant: a latitude, a frequency', () => {
    expect(typedNumber('47.500', [-85, 85])).toEqual({ ok: true, value: 47.5 });
    expect(typedNumber('122,750', [0.1, 3000])).toEqual({ ok: true, value: 122.75 });
    expect(typedNumber('9,500', [500, 45_000])).toEqual({ ok: true, value: 9500 });
  });

  // Definitions: foot 0.3048 m, nautical mile 1,852 m, statute mile 1,609.344 m, pound 0.45359237 kg (international yard
  // and pound agreement, 1959), US gallon 3.785411784 L, imperial gallon 4.54609 L (NIST SP 811, appendix B.8).
  it.each([
    ['3000 m', 'ft', 9842.519_685_04],
    ['180 km/h', 'kt', 97.192_224_622],
    ['120 mph', 'kt', 104.277_148_596],
    ['50 m/s', 'kt', 97.192_224_622],
    ['180 kg', 'lb', 396.832_071_933],
    ['151 l', 'gal', 39.889_980_075_4],
    ['33 imp gal', 'gal', 39.631_347_541_7],
    ['104,3kt', 'kt', 104.3],
  ])('%j in a field in %s', (text, unit, value) => {
    const read = typedNumber(text, WIDE, unit);
    expect(read.ok ? read.value : read.reason).toBeCloseTo(value, 5);
  });

  it.each([
    ['', /No number/],
    ['4o', /not a number|no unit/],
    ['1e5', /no unit/],
    ['Infinity', /not a number/],
    ['1.23.4', /not a number/],
    ['1,2,3', /not a number/],
    ['12 50', /not a number/],
    ['90', /between 5 and 80/],
    ['20 furlongs', /furlongs.* is no unit/],
  ])('says what is wrong with %j', (text, reason) => {
    const read = typedNumber(text, [5, 80]);
    expect(read.ok ? '' : read.reason).toMatch(reason);
  });

  it('that the device itself writes, in five locales, is read right or asked, never wrong', () => {
    fc.assert(
      fc.property(
        fc.constantFrom('en-US', 'de-DE', 'fr-FR', 'pt-BR', 'de-CH'),
        fc.oneof(fc.integer({ min: -99_999, max: 999_999 }), fc.double({ min: -999, max: 99_999, noNaN: true })),
        fc.integer({ min: 0, max: 3 }),
        (locale, number, decimals) => {
          const text = new Intl.NumberFormat(locale, { minimumFractionDigits: decimals, maximumFractionDigits: decimals }).format(number);
          const meant = Number(number.toFixed(decimals));
          const read = typedNumber(text, WIDE);
          const found = read.ok ? [read.value] : read.readings;
          // A half may be rounded either way by the two formatters.
          expect(
            found.some((value) => Math.abs(value - meant) <= 1.01 * 10 ** -decimals),
            `${locale} ${text} gave ${JSON.stringify(read)}`,
          ).toBe(true);
        },
      ),
      { numRuns: 2000 },
    );
  });
});
