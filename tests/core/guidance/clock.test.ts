import { describe, expect, it } from 'vitest';
import { flightSetupFromJob } from '../../../src/core/guidance/flight-setup-from-job.ts';
import { planJob } from '../../../src/core/plan/plan-job.ts';
import { wordJob } from '../../../e2e/flight/fly-word.ts';
import { flyWithFaults } from '../../faults/faulty-flight.ts';
import { flyWithLies } from '../../flight/lying-clocks.ts';
import { ordinaryWorld, TEN_KNOTS } from '../../flight/ordinary-world.ts';

const job = wordJob('HI');
const planned = planJob(job);
if (!planned.ok) throw new Error('HI has no plan');
const made = flightSetupFromJob(job, planned.value.plan, 0, { kind: 'first-smoke' }, Date.parse(job.readTime), null);
if (!made.ok) throw new Error(made.reason);
const { setup } = made;

describe('a clock that lies', () => {
  it.each([
    ['set on by 30 s, stamps of the receiver', 30, false],
    ['set on by 30 s, stamps of the device', 30, true],
    ['set on by 2 s, stamps of the receiver', 2, false],
    ['set back by 600 s', -600, true],
  ])('%s: nobody slept, the drift goes on as it was, and the flight ends', { timeout: 30_000 }, (_name, bySeconds, deviceStamps) => {
    let shifted = 0;
    let datum: number | null = null;
    const flight = flyWithFaults(setup, ordinaryWorld(4, TEN_KNOTS), {
      clockSet: { atSeconds: 250, bySeconds },
      deviceStamps,
      touch(state) {
        if (state.phase === 'idle' || state.flight.datumAtSeconds === null) return null;
        datum ??= state.flight.datumAtSeconds;
        shifted = Math.max(shifted, Math.abs(state.flight.datumAtSeconds - datum));
        return null;
      },
    });
    expect(flight.finished).toBe(true);
    expect(shifted).toBeLessThan(1);
  });

  it('knows a sleep of a minute by where the aircraft is, and ages the drift by it', { timeout: 30_000 }, () => {
    const flight = flyWithFaults(setup, ordinaryWorld(4, TEN_KNOTS), { stops: { atSeconds: 250, seconds: 60, kind: 'sleep' } });
    expect(flight.finished).toBe(true);
    expect(Math.max(...flight.looks.map(({ cues, offMetres }) => (cues.smoke === 'on' ? (offMetres ?? 0) : 0)))).toBeLessThan(100);
  });

  it('two seconds ahead of the receiver is measured by a turn, said, and corrected: the word is written', { timeout: 30_000 }, () => {
    const flight = flyWithFaults(setup, ordinaryWorld(4, TEN_KNOTS), { clockOff: () => 2 });
    expect(flight.finished).toBe(true);
    expect(Math.max(...flight.looks.map(({ cues, offMetres }) => (cues.smoke === 'on' ? (offMetres ?? 0) : 0)))).toBeLessThan(100);
  });

  it('positions that come 3 s late are told from a clock that is ahead, and refused in words', { timeout: 30_000 }, () => {
    const flight = flyWithFaults(setup, ordinaryWorld(4, TEN_KNOTS, { fixLatencySeconds: 3.5 }), {}, 500);
    expect(flight.looks.some(({ cues }) => cues.smoke === 'on')).toBe(false);
    expect(flight.looks.at(-1)?.cues.because).toMatch(/positions come 3\.\d s late/);
  });

  // Late by 3.7 s on a clock 3 s behind, a stamp looks 0.7 s old: smoke lay 180 to 250 m off before the turns were watched.
  it.each([
    [3, 1],
    [3, 3],
    [4, 4],
  ])('positions %i s later than stamps say are told by two turns before the first smoke (seed %i), and asked about', { timeout: 30_000 }, (late, seed) => {
    const world = ordinaryWorld(seed, TEN_KNOTS, { fixLatencySeconds: 0.7 + late });
    const flight = flyWithFaults(setup, world, { clockOff: () => -late }, 300);
    expect(flight.looks.some(({ cues }) => cues.smoke === 'on')).toBe(false);
    expect(flight.looks.some(({ cues }) => /positions late by [345] s, or your turns/.test(cues.because))).toBe(true);
  });

  it('a pilot who says that it was the hand goes on, and is not asked again', { timeout: 30_000 }, () => {
    let asked = 0;
    let before = false;
    const flight = flyWithFaults(setup, ordinaryWorld(1, TEN_KNOTS, { fixLatencySeconds: 3.7 }), {
      clockOff: () => -3,
      touch(state) {
        const late = state.phase !== 'idle' && state.flight.placeDoubt?.kind === 'late';
        if (late && !before) asked += 1;
        before = late;
        return late ? { kind: 'holdReleased' } : null;
      },
    });
    expect(asked).toBe(1);
    expect(flight.looks.some(({ cues }) => cues.smoke === 'on')).toBe(true);
  });

  it('honest stamps and an ordinary hand are never asked about, and cost one straight line', { timeout: 60_000 }, () => {
    for (const seed of [1, 2, 3, 4]) {
      const flight = flyWithFaults(setup, ordinaryWorld(seed, TEN_KNOTS), {}, 600);
      expect(flight.finished).toBe(true);
      expect(flight.looks.filter(({ cues }) => /doubt|late/.test(cues.because))).toEqual([]);
    }
  });

  it('a sleep on a clock that runs wrong leaves the stamps in doubt until a turn has told, not for ever (seed 17)', { timeout: 60_000 }, () => {
    expect(flyWithLies(setup, 17)).toMatchObject({ finished: true, doubtedOns: 0 });
  });

  it.each([162, 317, 904, 1074])(
    '%i: a clock some 2 s ahead, or positions 1.5 s late, are not taken for lateness for good by one slow hand',
    { timeout: 60_000 },
    (seed) => {
      expect(flyWithLies(setup, seed)).toMatchObject({ finished: true, doubtedOns: 0 });
    },
  );

  it('1002: a sleep and a clock set in it are told apart by the stamps of the receiver', { timeout: 60_000 }, () => {
    expect(flyWithLies(setup, 1002)).toMatchObject({ finished: true, doubtedOns: 0 });
  });

  it.each([339, 592])('%i: a sleep in a turn leaves no straight line without an end', { timeout: 60_000 }, (seed) => {
    expect(flyWithLies(setup, seed)).toMatchObject({ finished: true, doubtedOns: 0 });
  });

  it.each([20, 156, 177, 223, 269, 425, 628, 747])(
    'keeps counter-example %i: smoke only where the aircraft is, and no smoke in doubt',
    { timeout: 60_000 },
    (seed) => {
      const flown = flyWithLies(setup, seed);
      expect(flown.worstMetres).toBeLessThan(150);
      expect(flown.doubtedOns).toBe(0);
    },
  );
});
