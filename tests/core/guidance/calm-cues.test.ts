import { expect, it } from 'vitest';
import { wordJob } from '../../../e2e/flight/fly-word.ts';
import { cuesFrom } from '../../../src/core/guidance/cues-from.ts';
import { type CueAt, cueCalm } from '../../show/cue-calm.ts';
import { flyJob } from '../../flight/job-flight.ts';

it('counts what unsettles: a turn taken back, a heading that jumps, figures that flicker', () => {
  const cue = (atSeconds: number, turn: string, heading: number): CueAt => ({ atSeconds, phase: 'reposition', turn, heading });
  expect(cueCalm([cue(0, 'left', 90), cue(1, 'right', 120), cue(9, 'left', 90)], 20)).toMatchObject({ turnCues: 3, oppositeTurns: 1, headingJumps: 0 });
  expect(cueCalm([cue(0, 'left', 90), cue(1, 'left', 97), cue(1.1, 'left', 90), cue(5, 'left', 94)], 20)).toMatchObject({
    headingJumps: 1,
    restlessSeconds: 0,
  });
  expect(cueCalm([cue(0, 'left', 90), cue(0.1, 'left', 91), cue(0.2, 'left', 92)], 2)).toMatchObject({ restlessSeconds: 1 });
});

it('asks calmly: no turn is taken back, headings seldom jump, figures stand', { timeout: 60_000 }, () => {
  let jumps = 0;
  let opposite = 0;
  let restless = 0;
  let seconds = 0;
  for (const [index, word] of ['JULY', 'OPEN', 'LUCK', 'YES'].entries()) {
    const changes: CueAt[] = [];
    const flight = flyJob(
      wordJob(word),
      60 + index,
      10,
      {},
      {
        watch: (state, { atSeconds }) => {
          const { phase, turn, headingMagneticDegrees } = cuesFrom(state);
          const last = changes.at(-1);
          if (last?.turn !== (turn ?? '') || last.heading !== headingMagneticDegrees || last.phase !== phase)
            changes.push({ atSeconds, phase, turn: turn ?? '', heading: headingMagneticDegrees });
        },
      },
    );
    const calm = cueCalm(changes, flight.seconds);
    jumps += calm.headingJumps;
    opposite += calm.oppositeTurns;
    restless += calm.restlessSeconds;
    seconds += calm.seconds;
  }
  // Without calm 15 to 20 jumps a flight of such words, and restless figures in 8 % of the time.
  expect(jumps / 4).toBeLessThan(1);
  expect(opposite).toBe(0);
  expect(restless / seconds).toBeLessThan(0.01);
});

it('never counts down to the end of a smoke that has just begun', { timeout: 60_000 }, () => {
  const counts: (number | null)[] = [];
  let before = '';
  flyJob(
    wordJob('JULY'),
    60,
    10,
    {},
    {
      watch: (state) => {
        const { phase, smokeInSeconds } = cuesFrom(state);
        if (phase === 'stroke' && before !== 'stroke') counts.push(smokeInSeconds);
        before = phase;
      },
    },
  );
  // The least stroke takes seconds; the run-in's last 0.3 s stood there as "OFF in 1".
  expect(counts.length).toBeGreaterThan(4);
  expect(counts.every((count) => count === null || count > 2)).toBe(true);
});
