import { fc } from '../../property.ts';
import { describe, expect, it } from 'vitest';
import type { Cues } from '../../../src/core/guidance/cues.ts';
import { CUE_NAMES, cueValue } from '../../../src/ui/write/cue-values.ts';
import { countdownFigures, glanceFrom, glanceSentence, headingFigures } from '../../../src/ui/write/glance.ts';
import { NUMERALS } from '../../../src/ui/write/numerals.ts';
import { someCues } from './some-cues.ts';
import { unitText } from '../../../src/core/text/unit-text.ts';
import { OWN_UNITS } from '../../../src/core/units/unit-kinds.ts';
import { heightFigures } from '../../../src/ui/write/formation-words.ts';

const noCue: Cues = {
  ...someCues,
  phase: 'no-cue',
  turn: null,
  headingTrueDegrees: null,
  headingMagneticDegrees: null,
  bankDegrees: null,
  smoke: null,
  smokeInSeconds: null,
  crossTrackMetres: null,
  fixAgeSeconds: null,
  windFromDegrees: null,
  windKnots: null,
  next: null,
  heightFeet: null,
  established: null,
  lateSeconds: null,
  because: 'no fix',
};

describe('cueValue', () => {
  it('carries the contract exactly', () => {
    expect(Object.fromEntries(CUE_NAMES.map((name) => [name, cueValue(someCues, name)]))).toEqual({
      phase: 'reposition',
      turn: 'left',
      heading: '215',
      'heading-true': '228',
      bank: '45',
      smoke: 'off',
      'smoke-in': '32.4',
      'cross-track': '-3.6',
      stroke: '5/14',
      letter: 'L',
      'fix-age': '0.8',
      wind: '250/18',
      oil: '92.4',
      ship: 'Lead',
      height: '9501',
      established: 'no',
      late: '12',
      held: '',
    });
  });

  it('is empty for what is not valid', () => {
    const kept = ['phase', 'stroke', 'letter', 'oil', 'ship'];
    for (const name of CUE_NAMES) if (!kept.includes(name)) expect(cueValue(noCue, name), name).toBe('');
  });

  it('says north as 0 to a machine and 360 to a person', () => {
    expect(cueValue({ ...someCues, headingMagneticDegrees: 359.6 }, 'heading')).toBe('0');
    expect(headingFigures(359.6)).toBe('360');
    expect(headingFigures(0.4)).toBe('360');
    expect(headingFigures(7)).toBe('007');
  });

  it('never writes a minus before zero, nor a time gone by', () => {
    expect(cueValue({ ...someCues, crossTrackMetres: -0.04 }, 'cross-track')).toBe('0.0');
    expect(cueValue({ ...someCues, smokeInSeconds: -0.3 }, 'smoke-in')).toBe('0.0');
  });
});

describe('glanceFrom', () => {
  it('leaves nothing of the last cue when there is none', () => {
    // The contract may still know the wind; beside NO CUE it would look like something to go by.
    expect(glanceFrom({ ...noCue, windFromDegrees: 250, windKnots: 18 }).windText).toBe('');
    const glance = glanceFrom(noCue);
    expect(glance).toMatchObject({
      title: 'NO CUE',
      tone: 'warning',
      turn: null,
      headingText: '',
      bankText: '',
      countdownText: '',
      lineText: '',
      lineSide: null,
      windText: '',
      nextText: '',
    });
    expect(glanceSentence(glance)).toBe('no cue, no fix, the smoke is yours.');
  });

  it('shows where the line is, not where the aircraft is', () => {
    expect(glanceFrom({ ...someCues, crossTrackMetres: -12 })).toMatchObject({ lineSide: 'right', lineText: 'line 40 ft to your right', lineShare: 0.2 });
    expect(glanceFrom({ ...someCues, crossTrackMetres: 12 })).toMatchObject({ lineSide: 'left', lineText: 'line 40 ft to your left', lineShare: -0.2 });
    expect(glanceFrom({ ...someCues, crossTrackMetres: 400 }).lineShare).toBe(-1);
    // In the units chosen on this tablet: the pound is 0.45359237 kg (international, 1959).
    const chosen = unitText({ ...OWN_UNITS, height: 'm', mass: 'kg' });
    const inFeet = glanceFrom({ ...someCues, crossTrackMetres: -12, oilKilograms: 181.436948 });
    const inMetres = glanceFrom({ ...someCues, crossTrackMetres: -12.9, oilKilograms: 181.436948 }, chosen);
    expect([inFeet.lineText, inFeet.oilText]).toEqual(['line 40 ft to your right', '400 lb']);
    expect([inMetres.lineText, inMetres.oilText]).toEqual(['line 12 m to your right', '181 kg']);
    expect(glanceFrom({ ...someCues, crossTrackMetres: 1 }).lineSide).toBe('here');
  });

  it('writes wind and heights in the units chosen, in the job file’s own until they are known', () => {
    // A nautical mile is 1852 m, a foot 0.3048 m: 18 kt are 33.3 km/h, 9.26 m/s; 10,000 ft are 3,048 m.
    const cues = { ...someCues, windFromDegrees: 250, windKnots: 18 };
    const winds = [null, unitText(), unitText({ ...OWN_UNITS, speed: 'km/h' }), unitText({ ...OWN_UNITS, speed: 'm/s' })].map(
      (units) => glanceFrom(cues, units).windText,
    );
    expect(winds).toEqual(['250°T 18 kt', '250°T 18 kt', '250°T 33 km/h', '250°T 9.3 m/s']);
    expect([heightFigures(10_000, null), heightFigures(10_000, unitText()), heightFigures(10_000, unitText({ ...OWN_UNITS, height: 'm' }))]).toEqual([
      '10000 ft',
      '10,000 ft',
      '3,048 m',
    ]);
    expect(heightFigures(null, unitText())).toBe('');
  });

  it('counts so that 1 lasts until the change', () => {
    expect([5.01, 5, 1, 0.2, 0, -1, 59.2, 84].map(countdownFigures)).toEqual(['6', '5', '1', '1', '0', '0', '1:00', '1:24']);
    expect(glanceFrom({ ...someCues, smokeInSeconds: 5.2 }).lastSeconds).toBe(0);
    expect(glanceFrom({ ...someCues, smokeInSeconds: 4.2 }).lastSeconds).toBe(5);
    expect(glanceFrom({ ...someCues, smokeInSeconds: 0.2 }).lastSeconds).toBe(1);
  });

  it('keeps amber and red for cautions and warnings', () => {
    expect(glanceFrom({ ...someCues, phase: 'go-around' }).tone).toBe('caution');
    for (const phase of ['standby', 'run-in', 'stroke', 'reposition', 'hold', 'finished'] as const)
      expect(glanceFrom({ ...someCues, phase }).tone).toBe('plain');
  });

  it('writes every number in figures there is a drawing for', () => {
    fc.assert(
      fc.property(fc.double({ min: 0, max: 360, noNaN: true }), fc.double({ min: -10, max: 5000, noNaN: true }), (degrees, seconds) => {
        for (const figure of headingFigures(degrees) + countdownFigures(seconds)) expect(NUMERALS).toHaveProperty([figure]);
        expect(headingFigures(degrees)).toMatch(/^(?!000)[0-3]\d\d$/);
      }),
    );
  });

  it('says what comes next in seconds rounded up as the smoke is, and marks the last five', () => {
    const next = { turn: 'right', headingMagneticDegrees: 263, bankDegrees: 45, inSeconds: 5.1 } as const;
    expect(glanceFrom({ ...someCues, next })).toMatchObject({ nextText: 'right 263 · 6 s', nextSoon: false });
    expect(glanceFrom({ ...someCues, next: { ...next, inSeconds: 4.9 } })).toMatchObject({ nextText: 'right 263 · 5 s', nextSoon: true });
    expect(glanceFrom({ ...someCues, next: { ...next, inSeconds: 75 } })).toMatchObject({ nextText: 'right 263 · 1:15', nextSoon: false });
  });

  it('says of a circle for the wind that it is one, since its heading is never rolled out on', () => {
    expect(glanceFrom({ ...someCues, because: 'circle to find the wind' }).headingUse).toBe('passing');
    expect(glanceFrom(someCues).headingUse).toBe('roll out on');
  });

  it('does not call a flight that was knocked off finished', () => {
    expect(glanceFrom({ ...someCues, phase: 'finished', because: 'knocked off' }).title).toBe('KNOCKED OFF');
    expect(glanceFrom({ ...someCues, phase: 'finished', because: 'all strokes flown' }).title).toBe('FINISHED');
  });
});
