import { describe, expect, it } from 'vitest';
import { wordJob } from '../../../../e2e/flight/fly-word.ts';
import type { Cues } from '../../../../src/core/guidance/cues.ts';
import { cuesFrom } from '../../../../src/core/guidance/cues-from.ts';
import { airPoseOf, predictedAt } from '../../../../src/core/guidance/present.ts';
import { flyJob } from '../../../flight/job-flight.ts';

/** Loses fixes for so long from the first stroke's tenth second on. */
function lossUnderSmoke(
  seconds: number,
  reason: 'unavailable' | 'permission' = 'unavailable',
): {
  readonly looks: readonly { readonly sinceSeconds: number; readonly cues: Cues; readonly offMetres: number | null }[];
  readonly finished: boolean;
} {
  let onSince: number | null = null;
  let lossFrom = Infinity;
  const looks: { sinceSeconds: number; cues: Cues; offMetres: number | null }[] = [];
  let errorBefore: { east: number; north: number } | null = null;
  const flight = flyJob(
    wordJob('OPEN'),
    7,
    10,
    {
      fixLosses: (smokeOn, atSeconds) => {
        if (smokeOn && onSince === null) onSince = atSeconds;
        if (onSince !== null && lossFrom === Infinity) lossFrom = onSince + 10;
        return atSeconds >= lossFrom && atSeconds < lossFrom + seconds;
      },
    },
    {
      // A receiver that is silent for three seconds is told as one that has no fixes.
      touch: (state) =>
        state.phase !== 'idle' && state.flight.fixesLost === null && (cuesFrom(state).fixAgeSeconds ?? 0) > 2.9 ? { kind: 'fixesLost', reason } : null,
      watch: (state, simulation) => {
        if (state.phase === 'idle' || simulation.atSeconds < lossFrom - 1 || simulation.atSeconds > lossFrom + seconds + 3) return;
        const believed = predictedAt(state.flight, state.flight.atSeconds);
        if (believed === null) return;
        // The frame's own error when the loss began is not the loss's.
        const pose = airPoseOf(believed, state.flight);
        const error = { east: pose.airEastMetres - simulation.airEastMetres, north: pose.airNorthMetres - simulation.airNorthMetres };
        errorBefore ??= error;
        looks.push({
          sinceSeconds: simulation.atSeconds - lossFrom,
          cues: cuesFrom(state),
          offMetres: Math.hypot(error.east - errorBefore.east, error.north - errorBefore.north),
        });
      },
    },
  );
  return { looks, finished: flight.finalState.phase === 'finished' };
}

describe('a stroke over a short loss of fixes', () => {
  it('is held, and says so, for five seconds without a fix', () => {
    const { looks, finished } = lossUnderSmoke(5);
    const old = looks.filter(({ cues }) => (cues.fixAgeSeconds ?? 0) >= 3);
    expect(old.length).toBeGreaterThan(20);
    expect(
      old.every(({ cues }) => cues.held && cues.phase === 'stroke' && cues.smoke === 'on' && cues.crossTrackMetres === null && cues.fixHealth === 'ageing'),
    ).toBe(true);
    // 0.04 of a letter of 1,200 m.
    expect(Math.max(...old.map(({ offMetres }) => offMetres ?? Infinity))).toBeLessThan(48);
    expect(looks.some(({ cues }) => cues.phase === 'no-cue' || cues.phase === 'go-around')).toBe(false);
    expect(finished).toBe(true);
  });

  it('is let go after eight seconds at most, blank and smoke off, and the word is finished all the same', () => {
    const { looks, finished } = lossUnderSmoke(20);
    expect(looks.filter(({ cues }) => cues.held).length).toBeGreaterThan(20);
    expect(looks.filter(({ cues }) => (cues.fixAgeSeconds ?? 0) > 8).every(({ cues }) => cues.phase === 'no-cue' && cues.smoke === 'off' && !cues.held)).toBe(
      true,
    );
    expect(looks.some(({ cues }) => (cues.fixAgeSeconds ?? 0) > 12)).toBe(true);
    expect(finished).toBe(true);
  });

  it('is not held when the permission was taken back', () => {
    const { looks } = lossUnderSmoke(5, 'permission');
    expect(looks.some(({ cues }) => cues.held)).toBe(false);
    expect(looks.some(({ cues }) => cues.phase === 'no-cue')).toBe(true);
  });
});
