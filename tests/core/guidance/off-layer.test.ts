import { expect, it } from 'vitest';
import { flightSetupFromJob } from '../../../src/core/guidance/flight-setup-from-job.ts';
import { initialState } from '../../../src/core/guidance/guidance-state.ts';
import { offLayer, offLayerWords } from '../../../src/core/guidance/off-layer.ts';
import { reduce } from '../../../src/core/guidance/reduce.ts';
import { planJob } from '../../../src/core/plan/plan-job.ts';
import { wordJob } from '../../../e2e/flight/fly-word.ts';

it.each([
  ['no height', null, null, false],
  ['250 ft high', 250, null, false],
  ['400 ft low', -400, -400, false],
  ['1,200 ft high', 1200, 1200, true],
])('%s off the layer', (_name, feet, offFeet, refused) => {
  const job = wordJob('HI');
  const planned = planJob(job);
  if (!planned.ok) throw new Error('no plan');
  const made = flightSetupFromJob(job, planned.value.plan, 0, { kind: 'first-smoke' }, Date.parse(job.readTime), null);
  if (!made.ok) throw new Error(made.reason);
  const state = reduce(initialState, { kind: 'flightStarted', setup: made.setup, atSeconds: 0, wallMilliseconds: 0 });
  if (state.phase === 'idle') throw new Error('idle');
  const altitudeMetres = feet === null ? null : made.setup.layerHeightMetres + feet * 0.3048;
  const off = offLayer({ ...state.flight, altitudeMetres });
  if (offFeet === null) expect(off).toBeNull();
  else {
    expect(off!.aboveMetres / 0.3048).toBeCloseTo(offFeet, 6);
    expect(off!.refused).toBe(refused);
  }
});

it('is said in feet and metres, below and above', () => {
  expect(offLayerWords({ aboveMetres: -121.92 })).toBe('400 ft (120 m) below the layer');
  expect(offLayerWords({ aboveMetres: 365.76 })).toBe('1200 ft (370 m) above the layer');
});
