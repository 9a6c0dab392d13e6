import { describe, expect, it } from 'vitest';
import type { AirTrack } from '../../../src/core/debrief/air-track.ts';
import { frameOffset } from '../../../src/core/debrief/frame-offset.ts';
import { letterScores } from '../../../src/core/debrief/letter-score.ts';
import type { SmokeInterval } from '../../../src/core/debrief/smoke-intervals.ts';
import { flownStrokes, strokeScores } from '../../../src/core/debrief/stroke-score.ts';
import type { FlightSetup } from '../../../src/core/guidance/flight-setup.ts';
import { airPathLengthMetres, airPoseAt } from '../../../src/core/paths/air-path.ts';
import { signedRadians } from '../../../src/core/units/angle.ts';
import { flyWord, setupFor, worldFor } from './flown-word.ts';

/** A ghost that flies every stroke's own line at the planned airspeed, moved and timed as told. */
function ghost(
  setup: FlightSetup,
  how: {
    readonly eastMetres?: number;
    readonly northMetres?: number;
    readonly rightMetres?: number;
    readonly smokeLateSeconds?: number;
    readonly smokeLongSeconds?: number;
  } = {},
): { air: AirTrack; intervals: SmokeInterval[] } {
  const { eastMetres = 0, northMetres = 0, rightMetres = 0, smokeLateSeconds = 0, smokeLongSeconds = 0 } = how;
  const speed = setup.trueAirspeedMetresPerSecond;
  const rows: { atSeconds: number; east: number; north: number; direction: number }[] = [];
  const intervals: SmokeInterval[] = [];
  const segmentStarts: number[] = [];
  setup.strokes.forEach((stroke, strokeIndex) => {
    const lengthMetres = airPathLengthMetres(stroke.path);
    segmentStarts.push(rows.length);
    const margin = 5;
    for (let t = -margin; t <= lengthMetres / speed + margin; t += 0.5) {
      const inside = airPoseAt(stroke.path, t * speed);
      const beyond = t < 0 ? t * speed : Math.max(0, t * speed - lengthMetres);
      const { directionRadians: direction } = inside;
      rows.push({
        atSeconds: stroke.plannedStartSeconds + t,
        east: inside.airEastMetres + beyond * Math.cos(direction) + rightMetres * Math.sin(direction) + eastMetres,
        north: inside.airNorthMetres + beyond * Math.sin(direction) - rightMetres * Math.cos(direction) + northMetres,
        direction: signedRadians(direction),
      });
    }
    intervals.push({
      onSeconds: stroke.plannedStartSeconds + smokeLateSeconds,
      offSeconds: stroke.plannedStartSeconds + lengthMetres / speed + smokeLongSeconds,
      strokeIndex,
      source: 'cued',
      cuedOnSeconds: null,
      cuedOffSeconds: null,
      switchedOnSeconds: null,
      switchedOffSeconds: null,
    });
  });
  // Strokes of a plan are flown one after another, but a test may not rely on their order in time.
  const air: AirTrack = {
    atSeconds: Float64Array.from(rows, ({ atSeconds }) => atSeconds),
    airEastMetres: Float64Array.from(rows, ({ east }) => east),
    airNorthMetres: Float64Array.from(rows, ({ north }) => north),
    directionRadians: Float64Array.from(rows, ({ direction }) => direction),
    airspeedMetresPerSecond: new Float64Array(rows.length).fill(speed),
    turnRateRadiansPerSecond: new Float64Array(rows.length),
    segmentStarts,
  };
  return { air, intervals };
}

const setup = setupFor('BEN');
const NOWHERE = { eastMetres: 0, northMetres: 0 };

describe('the score of a stroke', () => {
  it('is without fault for one flown on its line, from its start to its end', () => {
    const { air, intervals } = ghost(setup);
    const scores = strokeScores(
      setup,
      flownStrokes(setup.strokes, intervals, air, () => NOWHERE),
      0,
    );
    expect(scores).toHaveLength(setup.strokes.length);
    for (const score of scores) {
      expect(score.crossTrackRmsMetres!).toBeLessThan(0.5);
      expect(score.headingErrorRmsRadians!).toBeLessThan(0.02);
      expect(score.onErrorSeconds!).toBeCloseTo(0, 1);
      expect(score.offErrorSeconds!).toBeCloseTo(0, 1);
      expect(score.lateSeconds!).toBeCloseTo(0, 6);
      expect(score.coverage).toBeGreaterThan(0.98);
      expect(score.redoneCount).toBe(0);
    }
  });

  it('says late and too long positive, right of the line positive', () => {
    const { air, intervals } = ghost(setup, { smokeLateSeconds: 1, smokeLongSeconds: -0.5, rightMetres: 20 });
    for (const score of strokeScores(
      setup,
      flownStrokes(setup.strokes, intervals, air, () => NOWHERE),
      -3,
    )) {
      expect(score.onErrorSeconds!).toBeCloseTo(1, 0);
      expect(score.onErrorSeconds!).toBeGreaterThan(0.85);
      expect(score.offErrorSeconds!).toBeCloseTo(-0.5, 0);
      expect(score.crossTrackMeanMetres!).toBeCloseTo(20, 0);
      expect(score.crossTrackRmsMetres!).toBeCloseTo(20, 0);
      expect(score.lateSeconds!).toBeCloseTo(4, 6);
    }
  });

  it('is empty for a stroke without smoke', () => {
    const { air } = ghost(setup);
    const [score] = strokeScores(
      setup,
      flownStrokes(setup.strokes, [], air, () => NOWHERE),
      0,
    );
    expect(score).toMatchObject({ crossTrackRmsMetres: null, onErrorSeconds: null, lateSeconds: null, coverage: 0 });
  });

  it('judges a stroke begun anew by its last flying, and one taken up again by both', () => {
    const { air, intervals } = ghost(setup);
    const first = intervals[0]!;
    const half = (first.onSeconds + first.offSeconds) / 2;
    const taken = [
      { ...first, offSeconds: half - 3 },
      { ...first, onSeconds: half + 3 },
    ];
    const [resumed] = strokeScores(
      setup,
      flownStrokes(setup.strokes, taken, air, () => NOWHERE),
      0,
    );
    expect(resumed!.redoneCount).toBe(0);
    expect(resumed!.coverage).toBeGreaterThan(0.3);
    expect(resumed!.coverage).toBeLessThan(0.95);
    const anew = [{ ...first, offSeconds: half }, first];
    const [redone] = strokeScores(
      setup,
      flownStrokes(setup.strokes, anew, air, () => NOWHERE),
      0,
    );
    expect(redone!.redoneCount).toBe(1);
    expect(redone!.coverage).toBeGreaterThan(0.98);
  });
});

describe('the offset of a text', () => {
  it('is found from the cross-tracks alone', () => {
    const { air, intervals } = ghost(setup, { eastMetres: 60, northMetres: -35 });
    const samples = flownStrokes(setup.strokes, intervals, air, () => NOWHERE).flatMap((stroke) => stroke.samples);
    const offset = frameOffset(samples, 500);
    expect(offset.eastMetres).toBeCloseTo(60, -0.5);
    expect(offset.northMetres).toBeCloseTo(-35, -0.5);
    // A letter is not moved farther than the wind leaves open.
    expect(Math.hypot(frameOffset(samples, 1).eastMetres, frameOffset(samples, 1).northMetres)).toBeLessThan(Math.hypot(60, 35) / 3);
    expect(frameOffset([], 500)).toEqual(NOWHERE);
  });
});

describe('the score of a letter', () => {
  it('tells its shape from its place', () => {
    const { air, intervals } = ghost(setup, { rightMetres: 12 });
    const flown = flownStrokes(setup.strokes, intervals, air, () => NOWHERE);
    const letters = letterScores(setup, flown, strokeScores(setup, flown, 0), [{ letterIndex: 0, sigmaMetres: 5, eastMetres: 3, northMetres: 4 }]);
    expect(letters.map(({ character }) => character)).toEqual(['B', 'E', 'N']);
    expect(letters[0]!.shapeErrorMetres!).toBeCloseTo(12, 0);
    expect(letters[0]!.shapeErrorHeights!).toBeCloseTo(0.01, 3);
    expect(letters[0]!.place).toEqual({ letterIndex: 0, sigmaMetres: 5, eastMetres: 3, northMetres: 4 });
    expect(letters[1]!.place).toBeNull();
    expect(letters[0]!.coverage).toBeGreaterThan(0.98);
  });

  it('counts a stroke that was never flown by its planned length', () => {
    const { air, intervals } = ghost(setup, {});
    const own = setup.strokes.flatMap(({ letterIndex, path }, strokeIndex) =>
      letterIndex === 1 ? [{ strokeIndex, lengthMetres: airPathLengthMetres(path) }] : [],
    );
    const skipped = own.toSorted((one, other) => other.lengthMetres - one.lengthMetres)[0]!;
    const flown = flownStrokes(
      setup.strokes,
      intervals.filter(({ strokeIndex }) => strokeIndex !== skipped.strokeIndex),
      air,
      () => NOWHERE,
    );
    const [b, e] = letterScores(setup, flown, strokeScores(setup, flown, 0), []);
    const left = 1 - skipped.lengthMetres / own.reduce((sum, { lengthMetres }) => sum + lengthMetres, 0);
    expect(b).toMatchObject({ character: 'B', strokesMissing: 0 });
    expect(e).toMatchObject({ character: 'E', strokesMissing: 1 });
    expect(own.length).toBeGreaterThan(1);
    expect(e!.coverage).toBeCloseTo(left, 1);
  });
});

describe('a simulated flight', () => {
  it('is scored as it was truly flown', () => {
    const { debrief, simulation, truth, setup: flownSetup } = flyWord('HI', worldFor(21), { marked: true, setup: { oilKilogramsPerSecond: 0.5 } });
    // Smoke: by the marks, to a step of the simulation, 0.05 s.
    const believed = debrief.intervals.flatMap(({ onSeconds, offSeconds }) => [onSeconds, offSeconds]);
    expect(believed).toHaveLength(simulation.switchings.length);
    simulation.switchings.forEach(({ atSeconds }, index) => expect(Math.abs(believed[index]! - atSeconds)).toBeLessThan(0.051));
    expect(debrief.intervals.every(({ source }) => source === 'switched')).toBe(true);
    expect(debrief.flight.oilUsedKilograms).toBeCloseTo(0.5 * debrief.intervals.reduce((sum, { onSeconds, offSeconds }) => sum + offSeconds - onSeconds, 0), 6);
    // Shape: against the truth in the truth's own air, each letter moved to where it fits.
    debrief.letterScores.forEach((letter) => {
      expect(letter.shapeErrorMetres!).toBeGreaterThan(1);
      expect(letter.shapeErrorMetres!).toBeLessThan(40);
      expect(letter.coverage).toBeGreaterThan(0.9);
    });
    const first = truth.find(({ atSeconds }) => atSeconds >= debrief.flight.firstSmokeSeconds!)!;
    const last = truth.find(({ atSeconds }) => atSeconds >= debrief.flight.lastSmokeSeconds!)!;
    const distance = truth
      .filter(({ atSeconds }) => atSeconds > first.atSeconds && atSeconds <= last.atSeconds)
      .reduce((sum, { airspeed }) => sum + airspeed * 0.1, 0);
    expect(Math.abs(debrief.flight.distanceFlownMetres! / distance - 1)).toBeLessThan(0.02);
    expect(debrief.flight.durationFlownSeconds!).toBeCloseTo(last.atSeconds - first.atSeconds, 0);
    expect(debrief.flight.strokesFlown).toBe(flownSetup.strokes.length);
    expect(debrief.flight.blindSeconds).toBe(0);
  });
});
