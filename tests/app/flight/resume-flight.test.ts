import { afterEach, beforeEach, expect, it, vi } from 'vitest';
import { flyFlight, type Flying } from '../../../src/app/flight/fly-flight.ts';
import type { RehearsalChoice } from '../../../src/app/flight/flight-choices.ts';
import { worldWith } from '../../../src/app/flight/flight-world-for.ts';
import { flownAgain, resumptionOf } from '../../../src/app/flight/resume-flight.ts';
import { createSpeaker } from '../../../src/app/flight/voice/speaker.ts';
import { cuesFrom } from '../../../src/core/guidance/cues-from.ts';
import { initialState } from '../../../src/core/guidance/guidance-state.ts';
import type { LogRow } from '../../../src/core/guidance/log-row.ts';
import { uniformFrom } from '../../flight/random.ts';
import { wordSetup } from '../../flight/word-setup.ts';

const { setup } = wordSetup('HI');
const PACE = 3;
const REHEARSAL: RehearsalChoice = { kind: 'rehearsal', flownBy: 'machine', seed: 7, skill: 'ordinary', speed: PACE, windFromDegrees: 240, windKnots: 22 };
/** A rehearsal is blank for no longer than a receiver's five fixes after a jump would be. */
const BLANK_SECONDS = 6;

beforeEach(() => {
  vi.useFakeTimers({ now: Date.UTC(2027, 5, 19, 17, 0, 0) });
});
afterEach(() => {
  vi.useRealTimers();
});

it('a rehearsal that is killed every second or two goes on each time by its own clock, from where it was', () => {
  const rows: LogRow[] = [];
  const log = {
    append: (entry: Omit<LogRow, 'sequence'>) => void rows.push(JSON.parse(JSON.stringify({ ...entry, sequence: rows.length })) as LogRow),
  };
  const begin = (): Flying => {
    const again = flownAgain({ rows, gaps: [], damagedSequences: [], cutSequences: [], nextSequence: rows.length }, null);
    let readCues = () => cuesFrom(again.state);
    const world = worldWith(REHEARSAL, setup, rows.length === 0 ? null : resumptionOf(again), () => readCues(), null);
    const flying = flyFlight(
      { clock: world.clock, position: world.position, log, speakerFrom: (before) => createSpeaker({ announce: () => {} }, before) },
      rows.length === 0 ? initialState : again.state,
      rows.length === 0 ? { kind: 'flightStarted', setup } : { kind: 'flightResumed' },
    );
    readCues = () => flying.cues.peek();
    return flying;
  };
  const uniform = uniformFrom(178);
  let longestBlankSeconds = 0;
  let blankSinceSeconds = 0;
  for (let kill = 0; kill < 40; kill += 1) {
    const flying = begin();
    for (let leftMilliseconds = 300 + 1700 * uniform(); leftMilliseconds > 0; leftMilliseconds -= 50) {
      vi.advanceTimersByTime(50);
      const atSeconds = rows.at(-1)!.monotonicSeconds;
      if (flying.cues.value.phase !== 'no-cue') blankSinceSeconds = atSeconds;
      longestBlankSeconds = Math.max(longestBlankSeconds, atSeconds - blankSinceSeconds);
    }
    flying.end();
    // The browser is gone for as long as it takes to start another.
    vi.advanceTimersByTime(1000 + 3000 * uniform());
  }
  expect(rows.at(-1)!.monotonicSeconds).toBeGreaterThan(60);
  expect(longestBlankSeconds).toBeLessThan(BLANK_SECONDS);
});
