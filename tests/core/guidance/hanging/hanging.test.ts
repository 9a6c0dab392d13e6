import { describe, expect, it } from 'vitest';
import { wordJob } from '../../../../e2e/flight/fly-word.ts';
import type { FlightFact } from '../../../../src/core/guidance/flight-event.ts';
import type { GuidanceState } from '../../../../src/core/guidance/guidance-state.ts';
import { hangText } from '../../../../src/core/guidance/hanging/hang-text.ts';
import { reduce } from '../../../../src/core/guidance/reduce.ts';
import { type WordStanding, wordStanding } from '../../../../src/core/guidance/hanging/word-standing.ts';
import { angleBetween, wordPose, wordSeen } from '../../../flight/crowd-eye.ts';
import { driftAtOf, flyJob, type JobFlight } from '../../../flight/job-flight.ts';
import { plannedInk } from '../../../flight/planned-ink.ts';

const DEGREE = Math.PI / 180;

function seenAtLastSmoke({ simulation, planned }: JobFlight): ReturnType<typeof wordSeen> {
  const pose = wordPose(simulation.trails, plannedInk(planned.plan));
  return wordSeen(pose, driftAtOf(simulation.driftTrack), simulation.trails.at(-1)!.at(-1)!.atSeconds, planned.air.layerAboveSiteMetres);
}

function then(state: GuidanceState, fact: FlightFact): GuidanceState {
  if (state.phase === 'idle') throw new Error('no flight');
  const { atSeconds, wallMilliseconds } = state.flight;
  return reduce(state, { ...fact, atSeconds: atSeconds + 0.1, wallMilliseconds: wallMilliseconds + 100 });
}

describe('a text hung by the wind that is found', () => {
  it('is hung so that the wind brings it to its place: worked by hand', () => {
    const wish = {
      facingRadians: 0,
      viewElevationRadians: 46.5 * DEGREE,
      layerAboveSiteMetres: 2700,
      middle: { airEastMetres: 100, airNorthMetres: 3000 },
      writingSeconds: 600,
      readingSeconds: 600,
    };
    // Seen at 45 degrees it stands 2,700 m north when level; at 46.5, 2,562: a tenth of that is 256 m, 64 s of 4 m/s.
    const { levelAfterSeconds, movedEastMetres, movedNorthMetres, atLastSmoke } = hangText(wish, { eastMetresPerSecond: 4, northMetresPerSecond: 0 });
    expect(levelAfterSeconds).toBeCloseTo(64.05, 1);
    expect(movedEastMetres).toBeCloseTo(-4 * (600 + 64.05) - 100, 0);
    expect(movedNorthMetres).toBeCloseTo(-300, 0);
    expect(atLastSmoke.eastMetres).toBeCloseTo(-256.2, 0);
    expect(hangText(wish, { eastMetresPerSecond: 0, northMetresPerSecond: 0 }).levelAfterSeconds).toBe(300);
  });

  it('stands level where the crowd looks, 10 kt off the forecast, and as briefed it does not', () => {
    const job = wordJob('JULY');
    const hung = seenAtLastSmoke(flyJob(job, 3, 10));
    let refused = false;
    const flat = seenAtLastSmoke(
      flyJob(
        job,
        3,
        10,
        {},
        {
          touch: (state) => {
            if (refused || state.phase === 'idle' || state.flight.hanging === null) return null;
            refused = true;
            return { kind: 'hangingRefused' };
          },
        },
      ),
    );
    expect(refused).toBe(true);
    expect(Math.abs(hung.leanDegrees)).toBeLessThan(8);
    expect(Math.abs(hung.elevationDegrees - 35)).toBeLessThan(6);
    expect(Math.abs(angleBetween(hung.bearingDegrees, 340))).toBeLessThan(14);
    // Left where the forecast would have carried it, it is a mile or more away.
    expect(Math.hypot(flat.eastMetres - hung.eastMetres, flat.northMetres - hung.northMetres)).toBeGreaterThan(1000);
  });

  it('is refused by one touch, which one touch undoes, and never moves under smoke', () => {
    let before: GuidanceState | null = null;
    let under: GuidanceState | null = null;
    flyJob(
      wordJob('JOY'),
      4,
      10,
      {},
      {
        longestSeconds: 400,
        watch: (state) => {
          if (state.phase === 'repositioning' && before === null && state.flight.hanging?.kind === 'found-wind' && state.way !== null) before = state;
          if (state.phase === 'onStroke' && under === null) under = state;
        },
      },
    );
    const hung = before as GuidanceState | null;
    if (hung?.phase !== 'repositioning') throw new Error('never hung');
    const refused = then(hung, { kind: 'hangingRefused' });
    if (refused.phase !== 'repositioning') throw new Error(refused.phase);
    expect(refused.flight.hanging?.kind).toBe('as-briefed');
    expect([refused.flight.movedEastMetres, refused.flight.movedNorthMetres]).toEqual([0, 0]);
    // It stays so, whatever is learned of the wind.
    const later = then(then(refused, { kind: 'clockAdvanced' }), { kind: 'clockAdvanced' });
    expect(later.phase === 'repositioning' && later.flight.hanging?.kind).toBe('as-briefed');
    expect(then(refused, { kind: 'hangingRefused' })).toBe(refused);
    const back = then(refused, { kind: 'lastTouchUndone' });
    if (back.phase !== 'repositioning') throw new Error(back.phase);
    expect(back.flight.hanging?.kind).toBe('found-wind');
    expect(Math.hypot(back.flight.movedEastMetres - hung.flight.movedEastMetres, back.flight.movedNorthMetres - hung.flight.movedNorthMetres)).toBeLessThan(
      150,
    );
    const smoking = under as GuidanceState | null;
    expect(smoking !== null && then(smoking, { kind: 'hangingRefused' })).toBe(smoking);
  });

  it('stays where the pilot put it by hand, also when the wind is found only later', () => {
    let before: GuidanceState | null = null;
    flyJob(
      wordJob('JOY'),
      4,
      10,
      {},
      {
        longestSeconds: 120,
        watch: (state) => {
          if (state.phase === 'repositioning' && before === null && state.flight.hanging === null && state.flight.advice !== null) before = state;
        },
      },
    );
    const circling = before as GuidanceState | null;
    if (circling?.phase !== 'repositioning') throw new Error('hung at once');
    const moved = then(circling, { kind: 'datumMovedHere' });
    const later = then(then({ ...moved, windCircle: null } as GuidanceState, { kind: 'clockAdvanced' }), { kind: 'clockAdvanced' });
    if (moved.phase !== 'repositioning' || later.phase !== 'repositioning') throw new Error('no way');
    expect(later.flight.hanging?.kind).toBe('by-hand');
    expect([later.flight.movedEastMetres, later.flight.movedNorthMetres]).toEqual([moved.flight.movedEastMetres, moved.flight.movedNorthMetres]);
  });

  it('is not hung at all by a setup that does not ask for it, as older logs hold', () => {
    let asked = false;
    const flight = flyJob(
      wordJob('JOY'),
      4,
      10,
      {},
      { longestSeconds: 300, withoutHanging: true, watch: (state) => (asked ||= state.phase !== 'idle' && state.flight.hanging !== null) },
    );
    expect(flight.setup.hanging).toBeUndefined();
    expect(asked).toBe(false);
  });

  it('is foretold while it is written: where it will stand, how it will lean, until when it reads', () => {
    let told: { readonly standing: WordStanding; readonly atSeconds: number } | null = null;
    const flight = flyJob(
      wordJob('JULY'),
      3,
      10,
      {},
      {
        watch: (state) => {
          if (state.phase === 'onStroke' && state.strokeIndex === state.flight.setup.strokes.length - 1 && told === null) {
            const standing = wordStanding(state);
            if (standing !== null) told = { standing, atSeconds: state.flight.atSeconds };
          }
        },
      },
    );
    const found = told as { readonly standing: WordStanding } | null;
    if (found === null) throw new Error('nothing foretold');
    const { standing } = found;
    const seen = seenAtLastSmoke(flight);
    expect(Math.hypot(standing.atLastSmoke.eastMetres - seen.eastMetres, standing.atLastSmoke.northMetres - seen.northMetres)).toBeLessThan(250);
    expect(Math.abs(standing.lastSmokeAtSeconds - flight.simulation.trails.at(-1)!.at(-1)!.atSeconds)).toBeLessThan(20);
    expect(standing.willRead).toBe(true);
    expect(standing.stands!.untilSeconds).toBeGreaterThan(standing.levelAtSeconds);
    // FINISHED still says until when it reads; a word that was left is foretold no more.
    const { finalState } = flight;
    if (finalState.phase !== 'finished') throw new Error('not finished');
    const after = wordStanding(finalState);
    expect(after?.readsUntil).toEqual(standing.readsUntil);
    expect(Math.abs(after!.lastSmokeAtSeconds - standing.lastSmokeAtSeconds)).toBeLessThan(20);
    expect(wordStanding({ ...finalState, how: 'knocked-off' })).toBeNull();
  });
});
