import { expect, it } from 'vitest';
import { unitText } from '../../../src/core/text/unit-text.ts';
import { OWN_UNITS } from '../../../src/core/units/unit-kinds.ts';
import { circleWords } from '../../../src/ui/words/circle-words.ts';

it('rounds the radius of a circle that others keep out of up, in the units chosen', () => {
  const centre = { latitudeDegrees: 43.5, longitudeDegrees: -79.25 };
  const at = '43°\u00a030.00′\u00a0N 079°\u00a015.00′\u00a0W';
  // 7.02 NM, 13.001 km.
  expect(circleWords(13_001, centre, unitText().distance)).toBe(`7.1 NM of ${at}`);
  expect(circleWords(13_001, centre, unitText({ ...OWN_UNITS, distance: 'km' }).distance)).toBe(`13.1 km of ${at}`);
  // What is a tenth already stays.
  expect(circleWords(7 * 1852, centre, unitText().distance)).toBe(`7.0 NM of ${at}`);
});
