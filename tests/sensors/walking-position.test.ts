import { expect, it } from 'vitest';
import { cuesFrom } from '../../src/core/guidance/cues-from.ts';
import { type GuidanceState, initialState } from '../../src/core/guidance/guidance-state.ts';
import { reduce } from '../../src/core/guidance/reduce.ts';
import { startRehearsal, stepRehearsal } from '../../src/core/guidance/rehearsal-aircraft.ts';
import { geodeticFromSite } from '../../src/core/earth/geodetic-from-site.ts';
import { siteFromGeodetic } from '../../src/core/earth/site-frame.ts';
import { CALM } from '../../src/core/earth/wind-vector.ts';
import type { Fix } from '../../src/core/tracking/fix.ts';
import { walkingPosition } from '../../src/sensors/walking-position.ts';
import { drawPolylines } from '../flight/draw-strokes.ts';
import { openTextReader } from '../flight/read-text.ts';
import { seenFromBelow } from '../flight/smoke-from-below.ts';
import { WORD_AIRSPEED, WORD_FACING_DEGREES, WORD_HEIGHT_METRES, wordSetup } from '../flight/word-setup.ts';

const SCALE = 40;
/** A field on another continent. */
const FIELD = { latitudeDegrees: -8.05, longitudeDegrees: -34.9, elevationMetres: 12 };
const START_MILLISECONDS = Date.UTC(2027, 6, 17, 15);

it('leads a walker through a word of 30 m on a field: read from what was walked with the smoke on', async () => {
  const { setup: planned } = wordSetup('LOT');
  const setup = { ...planned, forecastWind: CALM };
  const first = setup.strokes[0]!.path.start;
  const start = { eastMetres: first.airEastMetres - 1800, northMetres: first.airNorthMetres - 900 };
  // The walker turns on the spot as an aircraft banks: the same ways, forty times smaller.
  let walker = startRehearsal(setup, {
    seed: 3,
    skill: 'ordinary',
    wind: CALM,
    startEastMetres: start.eastMetres,
    startNorthMetres: start.northMetres,
    startHeadingDegrees: 60,
    fixIntervalSeconds: 1,
    fixNoiseMetres: 0,
    fixLatencySeconds: 0.3,
  });
  let state: GuidanceState = reduce(initialState, { kind: 'flightStarted', setup, atSeconds: 0, wallMilliseconds: START_MILLISECONDS });
  let walk: (fix: Fix) => void = () => {};
  const heard: Fix[] = [];
  const source = walkingPosition(
    { start: ({ fixReceived }) => ((walk = fixReceived), () => {}) },
    { site: setup.site, layerHeightMetres: setup.layerHeightMetres, start, scale: SCALE },
  );
  source.start({ fixReceived: (fix) => void heard.push(fix), fixesLost: () => {} });
  let [noise, longest] = [12_345, 0];
  /** A phone's position wanders by a third of a metre. */
  const wander = (): number => {
    noise = (noise * 1_103_515_245 + 12_345) % 2_147_483_648;
    return (noise / 2_147_483_648 - 0.5) * 0.7;
  };
  const trails: { airEastMetres: number; airNorthMetres: number; laidAtSeconds: number }[][] = [];
  let smoking = false;
  let first0: { eastMetres: number; northMetres: number } | null = null;
  for (let tick = 1; tick < 12_000 && cuesFrom(state).phase !== 'finished'; tick += 1) {
    const step = stepRehearsal(walker, { kind: 'cues', cues: cuesFrom(state) }, 0.1);
    walker = step.aircraft;
    longest = tick;
    if (walker.smokeOn) {
      if (!smoking) trails.push([]);
      trails.at(-1)?.push({ airEastMetres: walker.eastMetres, airNorthMetres: walker.northMetres, laidAtSeconds: tick / 10 });
    }
    smoking = walker.smokeOn;
    const now = { atSeconds: tick / 10, wallMilliseconds: START_MILLISECONDS + tick * 100 };
    for (const { fix } of step.fixes) {
      const flown = siteFromGeodetic(fix, setup.layerHeightMetres, setup.site);
      first0 ??= flown;
      const field = {
        eastMetres: (flown.eastMetres - first0.eastMetres) / SCALE + wander(),
        northMetres: (flown.northMetres - first0.northMetres) / SCALE + wander(),
      };
      heard.length = 0;
      walk({
        ...geodeticFromSite(field, FIELD.elevationMetres, FIELD),
        accuracyMetres: 2,
        altitudeMetres: FIELD.elevationMetres,
        groundSpeedMetresPerSecond: WORD_AIRSPEED / SCALE,
        trackDegrees: fix.trackDegrees,
        stampMilliseconds: fix.stampMilliseconds,
      });
      for (const through of heard) state = reduce(state, { kind: 'fixReceived', fix: through, ...now });
    }
    state = reduce(state, { kind: 'clockAdvanced', ...now });
  }
  expect(cuesFrom(state).phase).toBe('finished');
  expect(longest).toBeLessThan(9000);
  const reader = await openTextReader();
  const { text } = await reader.read(drawPolylines(seenFromBelow(trails as never, WORD_FACING_DEGREES), { letterHeightMetres: WORD_HEIGHT_METRES }));
  await reader.close();
  expect(text).toBe('LOT');
}, 180_000);

it('takes no scale that is none', () => {
  for (const scale of [0, -1, Number.NaN, Infinity])
    expect(() => walkingPosition({ start: () => () => {} }, { site: FIELD, layerHeightMetres: 0, start: { eastMetres: 0, northMetres: 0 }, scale })).toThrow(
      RangeError,
    );
});
