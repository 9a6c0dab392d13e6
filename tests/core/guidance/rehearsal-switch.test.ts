import { expect, it } from 'vitest';
import { cuesFrom } from '../../../src/core/guidance/cues-from.ts';
import { initialState } from '../../../src/core/guidance/guidance-state.ts';
import { startRehearsal, stepRehearsal } from '../../../src/core/guidance/rehearsal-aircraft.ts';
import { WORD_FORECAST, wordSetup } from '../../flight/word-setup.ts';

it('tells the switch when the hand moves it, 0.4 s after the cue, and the smoke follows by the valve\u2019s own time', () => {
  const { setup } = wordSetup('I');
  const settings = { seed: 5, skill: 'ordinary', wind: WORD_FORECAST, startEastMetres: 0, startNorthMetres: 0, startHeadingDegrees: 40 } as const;
  const receiver = { fixIntervalSeconds: 1, fixNoiseMetres: 3, fixLatencySeconds: 0.7 };
  let aircraft = startRehearsal({ ...setup, valveOnSeconds: 1.1, valveOffSeconds: 2 }, { ...settings, ...receiver });
  let [switchedAt, smokeAt, offAt, goneAt] = [NaN, NaN, NaN, NaN];
  for (let tick = 1; tick <= 200; tick += 1) {
    const smoke = tick > 20 && tick <= 100 ? 'on' : 'off';
    const step = stepRehearsal(aircraft, { kind: 'cues', cues: { ...cuesFrom(initialState), phase: 'stroke', smoke } }, 0.1);
    if (step.switched === 'on') switchedAt = tick / 10;
    if (step.switched === 'off') offAt = tick / 10;
    if (step.aircraft.smokeOn && !aircraft.smokeOn) smokeAt = tick / 10;
    if (!step.aircraft.smokeOn && aircraft.smokeOn) goneAt = tick / 10;
    aircraft = step.aircraft;
  }
  // The cue changes as the 21st and the 101st tick begin, at 2 and 10 s.
  expect(Math.abs(switchedAt - 2.4)).toBeLessThanOrEqual(0.15);
  expect(Math.abs(smokeAt - switchedAt - 1.1)).toBeLessThanOrEqual(0.15);
  expect(Math.abs(offAt - 10.4)).toBeLessThanOrEqual(0.15);
  expect(Math.abs(goneAt - offAt - 2)).toBeLessThanOrEqual(0.15);
});
