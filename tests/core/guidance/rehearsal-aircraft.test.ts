import { expect, it } from 'vitest';
import { geodeticFromSite } from '../../../src/core/earth/geodetic-from-site.ts';
import { siteFromGeodetic } from '../../../src/core/earth/site-frame.ts';
import { cuesFrom } from '../../../src/core/guidance/cues-from.ts';
import type { FlightEvent } from '../../../src/core/guidance/flight-event.ts';
import { type GuidanceState, initialState } from '../../../src/core/guidance/guidance-state.ts';
import { reduce } from '../../../src/core/guidance/reduce.ts';
import { startRehearsal, stepRehearsal } from '../../../src/core/guidance/rehearsal-aircraft.ts';
import { WORD_FORECAST, wordSetup } from '../../flight/word-setup.ts';

const START_MILLISECONDS = Date.UTC(2027, 6, 17, 15);

it('flies by a compass of its own: a place where that points 12 degrees west of north is no hindrance to a first stroke', () => {
  const { setup } = wordSetup('I');
  const start = setup.strokes[0]!.path.start;
  let aircraft = startRehearsal(setup, {
    seed: 5,
    skill: 'steady',
    wind: WORD_FORECAST,
    startEastMetres: start.airEastMetres - 2500,
    startNorthMetres: start.airNorthMetres - 1500,
    startHeadingDegrees: 40,
    fixIntervalSeconds: 1,
    fixNoiseMetres: 3,
    fixLatencySeconds: 0.7,
  });
  let state: GuidanceState = reduce(initialState, { kind: 'flightStarted', setup, atSeconds: 0, wallMilliseconds: START_MILLISECONDS });
  let goArounds = 0;
  for (let tick = 1; tick < 4000; tick += 1) {
    const before = cuesFrom(state);
    if (before.phase === 'finished') break;
    const step = stepRehearsal(aircraft, { kind: 'cues', cues: before }, 0.1);
    aircraft = step.aircraft;
    const now: Pick<FlightEvent, 'atSeconds' | 'wallMilliseconds'> = { atSeconds: tick / 10, wallMilliseconds: START_MILLISECONDS + tick * 100 };
    for (const { fix } of step.fixes) state = reduce(state, { kind: 'fixReceived', fix, ...now });
    state = reduce(state, { kind: 'clockAdvanced', ...now });
    const { phase } = cuesFrom(state);
    if (phase === 'go-around' && before.phase !== 'go-around') goArounds += 1;
  }
  expect(cuesFrom(state).phase).toBe('finished');
  expect(goArounds).toBe(0);
  // What the receiver was told is where the aircraft is, through the frame and back.
  const place = siteFromGeodetic(geodeticFromSite(aircraft, setup.layerHeightMetres, setup.site), setup.layerHeightMetres, setup.site);
  expect(Math.hypot(place.eastMetres - aircraft.eastMetres, place.northMetres - aircraft.northMetres)).toBeLessThan(0.01);
});
