import { fc } from '../../property.ts';
import { describe, expect, it } from 'vitest';
import { airMomentAt, airTrack, driftSince, indexAt, windAt } from '../../../src/core/debrief/air-track.ts';
import { solveBorderedChain3 } from '../../../src/core/debrief/chain-solve.ts';
import type { FlownPosition } from '../../../src/core/debrief/flown-position.ts';
import { smoothTrack } from '../../../src/core/debrief/smooth-track.ts';
import { windHistory, type WindPrior } from '../../../src/core/debrief/wind-history.ts';
import { windFromVector } from '../../../src/core/earth/wind-vector.ts';
import { degreesFromRadians } from '../../../src/core/units/angle.ts';
import { knotsFromMetresPerSecond, metresPerSecondFromKnots } from '../../../src/core/units/quantity.ts';
import wind from '../../reference/wind.json' with { type: 'json' };

const STRANGE: WindPrior = {
  wind: { eastMetresPerSecond: 0, northMetresPerSecond: 0 },
  windSigmaMetresPerSecond: 20,
  airspeedMetresPerSecond: 60,
  airspeedSigmaMetresPerSecond: 15,
};

/** Legs over the ground one after another, a fix a second. */
function legs(rows: readonly { readonly trackDegrees: number; readonly groundKnots: number; readonly seconds: number }[]): FlownPosition[] {
  const positions: FlownPosition[] = [];
  let [atSeconds, eastMetres, northMetres] = [0, 0, 0];
  for (const { trackDegrees, groundKnots, seconds } of rows) {
    for (let second = 0; second < seconds; second += 1) {
      positions.push({ atSeconds, eastMetres, northMetres, accuracyMetres: 5 });
      atSeconds += 1;
      eastMetres += metresPerSecondFromKnots(groundKnots) * Math.sin((trackDegrees * Math.PI) / 180);
      northMetres += metresPerSecondFromKnots(groundKnots) * Math.cos((trackDegrees * Math.PI) / 180);
    }
  }
  return positions;
}

describe('the wind of a whole track', () => {
  it('explains the three legs of a published example', () => {
    // D. Gray, 1998: 140, 112, 120 kt on 192, 283, 020 are 130 kt in a wind from 314.8 at 20.6 kt (tests/reference/wind.json).
    expect(JSON.stringify(wind)).toContain('20.6');
    const track = smoothTrack(
      legs([
        { trackDegrees: 192, groundKnots: 140, seconds: 120 },
        { trackDegrees: 283, groundKnots: 112, seconds: 120 },
        { trackDegrees: 20, groundKnots: 120, seconds: 120 },
      ]),
    );
    const history = windHistory(track, STRANGE)!;
    expect(history.converged).toBe(true);
    const middle = windAt(history, 180);
    const from = windFromVector(middle);
    expect(degreesFromRadians(from.fromRadians)).toBeCloseTo(314.8, -0.5);
    expect(Math.abs(knotsFromMetresPerSecond(from.speedMetresPerSecond) - 20.6)).toBeLessThan(1);
    expect(Math.abs(knotsFromMetresPerSecond(middle.airspeedMetresPerSecond) - 130)).toBeLessThan(1);
  });

  it('says that a straight leg tells nothing of the wind along it', () => {
    const history = windHistory(smoothTrack(legs([{ trackDegrees: 90, groundKnots: 100, seconds: 300 }])), STRANGE)!;
    expect(history.windEastSigmaMetresPerSecond[5]!).toBeGreaterThan(8);
    expect(windHistory(smoothTrack(legs([{ trackDegrees: 90, groundKnots: 5, seconds: 100 }])), STRANGE)).toBeNull();
    expect(windHistory(smoothTrack([]), STRANGE)).toBeNull();
  });
});

describe('the air track', () => {
  const history = windHistory(
    smoothTrack(
      legs([
        { trackDegrees: 10, groundKnots: 100, seconds: 60 },
        { trackDegrees: 130, groundKnots: 120, seconds: 60 },
        { trackDegrees: 250, groundKnots: 110, seconds: 60 },
      ]),
    ),
    STRANGE,
  )!;

  it('has a drift that is the integral of its wind, inside the nodes and beyond', () => {
    fc.assert(
      fc.property(fc.double({ min: -50, max: 250, noNaN: true }), fc.double({ min: 0.1, max: 80, noNaN: true }), (from, seconds) => {
        const steps = 400;
        let [east, north] = [0, 0];
        for (let step = 0; step < steps; step += 1) {
          const { eastMetresPerSecond, northMetresPerSecond } = windAt(history, from + ((step + 0.5) / steps) * seconds);
          east += (eastMetresPerSecond * seconds) / steps;
          north += (northMetresPerSecond * seconds) / steps;
        }
        const drift = driftSince(history, from, from + seconds);
        expect(drift.eastMetres).toBeCloseTo(east, 2);
        expect(drift.northMetres).toBeCloseTo(north, 2);
      }),
      { numRuns: 100 },
    );
  });

  it('stands still in still air and is the ground at the datum', () => {
    const track = smoothTrack(
      legs([
        { trackDegrees: 10, groundKnots: 100, seconds: 60 },
        { trackDegrees: 130, groundKnots: 120, seconds: 60 },
        { trackDegrees: 250, groundKnots: 110, seconds: 60 },
      ]),
    );
    const air = airTrack(track, history, track.atSeconds[70]!);
    expect(air.airEastMetres[70]).toBeCloseTo(track.eastMetres[70]!, 9);
    expect(air.airEastMetres[120]).not.toBeCloseTo(track.eastMetres[120]!, 0);
    track.atSeconds.forEach((at, index) => {
      const drift = driftSince(history, track.atSeconds[70]!, at);
      expect(track.eastMetres[index]! - air.airEastMetres[index]!).toBeCloseTo(drift.eastMetres, 6);
      expect(track.northMetres[index]! - air.airNorthMetres[index]!).toBeCloseTo(drift.northMetres, 6);
    });
    const between = airMomentAt(air, track.atSeconds[70]! + 0.5)!;
    expect(between.airEastMetres).toBeCloseTo((air.airEastMetres[70]! + air.airEastMetres[71]!) / 2, 0);
    expect(airMomentAt(air, -1)).toBeNull();
    expect(airMomentAt(air, 1e6)).toBeNull();
  });

  it('finds an index by halving as by looking at each', () => {
    fc.assert(
      fc.property(fc.array(fc.integer({ min: 0, max: 50 }), { maxLength: 30 }), fc.integer({ min: -5, max: 60 }), (values, wanted) => {
        const sorted = Float64Array.from(values.toSorted((one, other) => one - other));
        expect(indexAt(sorted, wanted)).toBe([...sorted].findLastIndex((value) => value <= wanted));
      }),
    );
  });
});

describe('a chain of 3 x 3 blocks', () => {
  it('takes a border along', () => {
    const border = { corner: 5, row: Float64Array.of(1, 0.5, 0, -1, 0.2, 0.3), right: 2 };
    const diagonal = Float64Array.of(4, 1, 0, 1, 5, 1, 0, 1, 6, 7, 0, 1, 0, 8, 2, 1, 2, 9);
    const below = new Float64Array(18);
    below.set([0.5, 0.1, 0, 0, 0.4, 0.2, 0.3, 0, 0.6], 9);
    const { solution, variances, borderSolution, borderVariance } = solveBorderedChain3(diagonal, below, Float64Array.of(1, 2, 3, 4, 5, 6), 2, border);
    const dense = [
      [4, 1, 0, 0.5, 0, 0.3, 1],
      [1, 5, 1, 0.1, 0.4, 0, 0.5],
      [0, 1, 6, 0, 0.2, 0.6, 0],
      [0.5, 0.1, 0, 7, 0, 1, -1],
      [0, 0.4, 0.2, 0, 8, 2, 0.2],
      [0.3, 0, 0.6, 1, 2, 9, 0.3],
      [1, 0.5, 0, -1, 0.2, 0.3, 5],
    ];
    const whole = [...solution, borderSolution];
    [1, 2, 3, 4, 5, 6, 2].forEach((value, row) => expect(dense[row]!.reduce((sum, each, column) => sum + each * whole[column]!, 0)).toBeCloseTo(value, 9));
    [...variances, borderVariance].forEach((value, row) => expect(value).toBeCloseTo(plainSolve(dense, row)[row]!, 9));
  });
});

/** A column of the inverse by Gauss and Jordan. */
function plainSolve(matrix: readonly (readonly number[])[], column: number): number[] {
  const size = matrix.length;
  const rows = matrix.map((row, index) => [...row, index === column ? 1 : 0]);
  for (let pivot = 0; pivot < size; pivot += 1) {
    for (let row = 0; row < size; row += 1) {
      if (row === pivot) continue;
      const factor = rows[row]![pivot]! / rows[pivot]![pivot]!;
      for (let at = pivot; at <= size; at += 1) rows[row]![at] = rows[row]![at]! - factor * rows[pivot]![at]!;
    }
  }
  return rows.map((row, index) => row[size]! / row[index]!);
}
