import { beforeAll, describe, expect, it } from 'vitest';
import { wordJob } from '../../../e2e/flight/fly-word.ts';
import { calmAdvice } from '../../../src/core/guidance/calm-advice.ts';
import type { Advice, FlyingState } from '../../../src/core/guidance/guidance-state.ts';
import { JOINING } from '../../../src/core/guidance/formation/formation-progress.ts';
import { jumpDoubt } from '../../../src/core/guidance/place-doubt.ts';
import { STATE } from '../../../src/core/tracking/estimate.ts';
import type { TurnCommand } from '../../../src/core/tracking/turn-command.ts';
import { flyJob } from '../../flight/job-flight.ts';

type Repositioning = Extract<FlyingState, { phase: 'repositioning' }>;

let onWay: Repositioning;

/** A flight that was on its way for a while. */
beforeAll(() => {
  let found: Repositioning | null = null;
  flyJob(
    wordJob('YES'),
    3,
    10,
    {},
    {
      longestSeconds: 60,
      watch: (state) => {
        if (state.phase === 'repositioning' && state.flight.tracker.estimate !== null) found = state;
      },
    },
  );
  if (found === null) throw new Error('no flight');
  onWay = found;
}, 60_000);

const command = (sense: TurnCommand['sense'], fromSeconds: number): TurnCommand => ({
  fromSeconds,
  sense,
  directionRadians: 1,
  bankRadians: sense === 'either' ? 0 : 0.7,
  startsManoeuvre: true,
});

/** What is asked for after these, oldest first, each so long ago. */
function askedAfter(commands: readonly [TurnCommand['sense'], number][], sense: TurnCommand['sense'], onRunIn = true): TurnCommand['sense'] {
  const { flight } = onWay;
  const shown = commands.map(([one, ago]) => command(one, flight.atSeconds - ago));
  const advice: Advice = { command: command(sense, flight.atSeconds), smokeInSeconds: null, crossTrackMetres: null, because: '', next: null };
  return calmAdvice({ ...onWay, onRunIn, flight: { ...flight, commands: shown } }, advice).command.sense;
}

describe('a turn that was begun', () => {
  it('is not taken back for the opposite one within 3 s, nor by two facts of one moment', () => {
    expect(askedAfter([['right', 1]], 'left')).toBe('either');
    expect(
      askedAfter(
        [
          ['right', 1],
          ['either', 0],
        ],
        'left',
      ),
    ).toBe('either');
  });

  it('is followed by the opposite one after that', () => {
    expect(askedAfter([['right', 4]], 'left')).toBe('left');
    expect(
      askedAfter(
        [
          ['right', 6],
          ['either', 2],
        ],
        'left',
      ),
    ).toBe('left');
  });
});

describe('a position after a time without one', () => {
  /** The doubt when the aircraft is found so far aside of where it was told to go, after so long. */
  function doubtAfter(seconds: number, asideMetres: number, sense: TurnCommand['sense'], seenMetresPerSecond: readonly number[] = []): string | undefined {
    const { flight } = onWay;
    const { estimate } = flight.tracker;
    const { mean, atSeconds } = estimate!;
    // A heading that is flown already: the aircraft goes straight on by the cue.
    const straight = { ...command('either', atSeconds - 20), directionRadians: mean[STATE.direction]! };
    const last = { ...straight, sense, bankRadians: sense === 'either' ? 0 : 0.7 };
    const level = { ...estimate!, mean: mean.map((value, index) => (index === STATE.turnRate ? 0 : value)) };
    const speed = mean[STATE.airspeed]!;
    const along = (component: number, wind: number): number => (speed * component + wind) * seconds;
    const [cosine, sine] = [Math.cos(mean[STATE.direction]!), Math.sin(mean[STATE.direction]!)];
    const sighting = {
      eastMetres: mean[STATE.east]! + along(cosine, mean[STATE.windEast]!) - asideMetres * sine,
      northMetres: mean[STATE.north]! + along(sine, mean[STATE.windNorth]!) + asideMetres * cosine,
      measuredAtSeconds: atSeconds + seconds,
      accuracyMetres: 5,
      velocity: null,
    };
    const velocities = seenMetresPerSecond.map((north, index) => ({ atSeconds: atSeconds - 2 + index, eastMetresPerSecond: 0, northMetresPerSecond: north }));
    return jumpDoubt({ ...flight, commands: [last] }, { ...flight.tracker, estimate: level }, sighting, velocities)?.kind;
  }

  it('is no jump where an aircraft lost from sight in a turn may have come round to', () => {
    expect(doubtAfter(60, 2000, 'left')).toBeUndefined();
    expect(doubtAfter(60, 4000, 'left')).toBe('jumped');
  });

  it('is a jump sooner where it was level, and where it was out of sight for a moment', () => {
    expect(doubtAfter(60, 2000, 'either')).toBe('jumped');
    expect(doubtAfter(6, 300, 'left')).toBe('jumped');
  });

  // Seed 5 of the ordinary pilots at the desk: a hand that followed three turns at once, and a filter that was 300 m wrong.
  it('is no jump where each position followed from the one before, as an aircraft flies', () => {
    expect(doubtAfter(6, 300, 'left', [55, 60, 50, 40, 45, 55, 60, 65, 60])).toBeUndefined();
    expect(doubtAfter(6, 300, 'left', [55, 60, 50, 40, 45, 110, 60, 65, 60])).toBe('jumped');
  });
});

describe('a line of a moment between a turn and its opposite', () => {
  const shownAfterRight = (inSeconds: number, formation: typeof JOINING | null): TurnCommand['sense'] => {
    const { flight } = onWay;
    const next = { command: command('left', flight.atSeconds), inSeconds };
    const advice: Advice = { command: command('either', flight.atSeconds), smokeInSeconds: null, crossTrackMetres: null, because: '', next };
    const after = { ...flight, formation, commands: [command('right', flight.atSeconds - 8)] };
    return calmAdvice({ ...onWay, onRunIn: false, flight: after }, advice).command.sense;
  };

  it('is left out where a formation’s time is kept, and shown to a ship alone', () => {
    expect(shownAfterRight(0.8, JOINING)).toBe('left');
    expect(shownAfterRight(1.5, JOINING)).toBe('either');
    expect(shownAfterRight(0.8, null)).toBe('either');
  });
});
