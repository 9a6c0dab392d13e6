import { expect, it } from 'vitest';
import { DEMO_JOB } from '../../../src/core/job/demo-job.ts';
import { unitText } from '../../../src/core/text/unit-text.ts';
import { OWN_UNITS } from '../../../src/core/units/unit-kinds.ts';
import { airAgainstStandard, altimeterWords } from '../../../src/ui/words/altimeter-words.ts';

const job = {
  ...DEMO_JOB,
  // 15 - 10.5 x 1.98 = -5.8 degrees are the standard at 10,500 ft (ICAO Doc 7488): this air is 10 colder.
  layer: { altitudeFeet: 10_500, temperatureCelsius: -15.8 },
  site: { ...DEMO_JOB.site, elevationFeet: 1640 },
  conditions: { ...DEMO_JOB.conditions, altimeterHectopascals: 1013.25 },
};

it('tells what to read on each setting, and nothing while nobody has said the QNH', () => {
  expect(altimeterWords({ ...job, conditions: { ...job.conditions, altimeterHectopascals: null } }, unitText())).toBeNull();
  // Cold air: the altimeter shows too much (see the worked value of core/earth/altimeter).
  expect(altimeterWords(job, unitText())).toBe('QNH 1013 hPa shows 10,833 ft; 1013 hPa shows flight level 108; QFE 955 hPa shows 9,193 ft');
  expect(altimeterWords(job, unitText({ ...OWN_UNITS, height: 'm', pressure: 'inHg' }))).toBe(
    'QNH 29.92 inHg shows 3,302 m; 29.92 inHg shows flight level 108; QFE 28.19 inHg shows 2,802 m',
  );
});

it('says how the air differs from the standard, in the chosen degrees', () => {
  expect(airAgainstStandard(job, unitText())).toBe('10 \u00b0C colder than standard air');
  expect(airAgainstStandard(job, unitText({ ...OWN_UNITS, temperature: '\u00b0F' }))).toBe('18 \u00b0F colder than standard air');
  expect(airAgainstStandard({ ...job, winds: [], layer: { ...job.layer, temperatureCelsius: null } }, unitText())).toMatch(/no temperature is known/);
});
