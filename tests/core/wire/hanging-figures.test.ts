import { describe, expect, it } from 'vitest';
import { windFromVector, windVectorFrom } from '../../../src/core/earth/wind-vector.ts';
import { checkFigure, figuresFromWind, windFromFigures } from '../../../src/core/wire/hanging-figures.ts';

const DEGREE = Math.PI / 180;
const KNOT = 1852 / 3600;

describe('a hanging as three figures on the radio', () => {
  it('says the wind to a degree and a tenth of a knot, and is read back', () => {
    const figures = figuresFromWind(windVectorFrom({ fromRadians: 98 * DEGREE, speedMetresPerSecond: 22.4 * KNOT }));
    expect(figures).toMatch(/^098 224 \d$/);
    const read = windFromFigures(figures.replaceAll(' ', '/'));
    if (!read.ok) throw new Error(read.reason);
    const { fromRadians, speedMetresPerSecond } = windFromVector(read.wind);
    expect(fromRadians / DEGREE).toBeCloseTo(98, 9);
    expect(speedMetresPerSecond / KNOT).toBeCloseTo(22.4, 9);
    // The example in the article on the algorithm: 572 gives 4 (Damm 2004; from memory).
    expect(checkFigure('572')).toBe('4');
  });

  it('notices every figure that was misheard, and every two neighbours that changed places', () => {
    let noticed = 0;
    let tried = 0;
    for (let direction = 0; direction < 360; direction += 7) {
      const digits = figuresFromWind(windVectorFrom({ fromRadians: direction * DEGREE, speedMetresPerSecond: (direction / 9) * KNOT })).replaceAll(' ', '');
      expect(windFromFigures(digits).ok).toBe(true);
      for (let place = 0; place < 7; place += 1) {
        for (let figure = 0; figure < 10; figure += 1) {
          if (digits[place] === String(figure)) continue;
          tried += 1;
          if (!windFromFigures(digits.slice(0, place) + figure + digits.slice(place + 1)).ok) noticed += 1;
        }
        if (place === 6 || digits[place] === digits[place + 1]) continue;
        tried += 1;
        if (!windFromFigures(digits.slice(0, place) + digits[place + 1] + digits[place] + digits.slice(place + 2)).ok) noticed += 1;
      }
    }
    expect(tried).toBeGreaterThan(3000);
    expect(noticed).toBe(tried);
  });

  it('says what is wrong with what was typed', () => {
    expect(windFromFigures('098 22')).toMatchObject({ ok: false, reason: expect.stringMatching(/Seven/) });
    expect(windFromFigures(`400100${checkFigure('400100')}`)).toMatchObject({ ok: false, reason: expect.stringMatching(/360/) });
  });
});
