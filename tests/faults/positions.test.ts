import { beforeAll, describe, expect, it } from 'vitest';
import type { DevicePositionReport } from '../../src/sensors/fix-from-position.ts';
import type { FlightWorld } from '../flight/simulated-flight.ts';
import { ordinaryWorld, TEN_KNOTS } from '../flight/ordinary-world.ts';
import { wordSetup } from '../flight/word-setup.ts';
import { type Delivery, type FaultyFlight, type FlightFaults, flyWithFaults, type Look } from './faulty-flight.ts';

/**
 * Every fault of positions and clocks, in a whole flight: a simulated pilot obeys the cues, and each look at the screen
 * is held against the truth, which knows nothing of the app.
 */
const { setup } = wordSetup('HI');
/** A second into the first stroke: the smoke is on. */
const FAULT_AT_SECONDS = 196;
const METRES_PER_DEGREE = 111_320;

const fly = (faults: FlightFaults, changes: Partial<FlightWorld> = {}): FaultyFlight =>
  flyWithFaults(setup, ordinaryWorld(4, TEN_KNOTS, changes), faults, 2400);
const atOnce = (report: DevicePositionReport): readonly Delivery[] => [{ report, afterSeconds: 0 }];
const during = (fromSeconds: number, seconds: number, change: (report: DevicePositionReport, atSeconds: number) => readonly Delivery[]): FlightFaults => ({
  deliver: (report, atSeconds) => (atSeconds >= fromSeconds && atSeconds < fromSeconds + seconds ? change(report, atSeconds) : atOnce(report)),
});
const north = (report: DevicePositionReport, metres: number): DevicePositionReport => ({
  ...report,
  coords: { ...report.coords, latitude: report.coords.latitude + metres / METRES_PER_DEGREE },
});
const between = ({ looks }: FaultyFlight, fromSeconds: number, toSeconds: number): readonly Look[] =>
  looks.filter(({ atSeconds }) => atSeconds >= fromSeconds && atSeconds < toSeconds);
const cuedPhases = ['run-in', 'stroke', 'reposition', 'go-around'];
const isCued = ({ cues }: Look): boolean => cuedPhases.includes(cues.phase);

/** What holds at every look of every flight, whatever is injected. */
function expectNoLie(flight: FaultyFlight, mostMetresOff = 150): void {
  expect(flight.looks.length).toBeGreaterThan(100);
  for (const look of flight.looks) {
    const { cues, offMetres, atSeconds } = look;
    const at = `at ${atSeconds.toFixed(1)} s, ${cues.phase}, ${cues.because}`;
    if (cues.smoke === 'on') expect(cues.fixAgeSeconds, at).toBeLessThan(3);
    if (isCued(look)) {
      expect(cues.fixAgeSeconds, at).toBeLessThan(3);
      expect(offMetres, at).toBeLessThan(mostMetresOff);
    } else {
      expect([cues.turn, cues.headingTrueDegrees, cues.headingMagneticDegrees, cues.bankDegrees, cues.smokeInSeconds, cues.crossTrackMetres], at).toEqual([
        null,
        null,
        null,
        null,
        null,
        null,
      ]);
      expect(cues.smoke, at).toBe('off');
    }
  }
}

describe('without a fault', () => {
  it('the flight ends, which the faults below are measured against', () => {
    const flight = fly({});
    expect(flight.finished).toBe(true);
    expectNoLie(flight);
    expect(between(flight, 20, Infinity).every(({ cues }) => cues.phase !== 'no-cue')).toBe(true);
  });
});

describe('fixes stop', () => {
  let flight: FaultyFlight;
  beforeAll(() => {
    flight = fly(during(FAULT_AT_SECONDS, 20, () => []));
  });

  it('amber by 1.5 s after the last one, blank by 3 s of its age, and never the last value greyed', () => {
    expectNoLie(flight);
    // The last fix came within a second before the loss.
    const ambers = between(flight, FAULT_AT_SECONDS, FAULT_AT_SECONDS + 20).filter(({ cues }) => cues.fixHealth === 'ageing');
    expect(ambers[0]?.atSeconds).toBeLessThan(FAULT_AT_SECONDS + 1.7);
    expect(between(flight, FAULT_AT_SECONDS + 3.1, FAULT_AT_SECONDS + 20).every(({ cues }) => cues.phase === 'no-cue' && cues.fixHealth === 'lost')).toBe(true);
  });

  it('the flight is taken up again and ends', () => {
    expect(between(flight, FAULT_AT_SECONDS + 25, FAULT_AT_SECONDS + 40).every(isCued)).toBe(true);
    expect(flight.finished).toBe(true);
  });
});

describe('jumps of 3 km', () => {
  it.each([1, 5])('for %i fixes move no cue: the old place is kept, then blank', (count) => {
    const flight = fly(during(FAULT_AT_SECONDS, count === 5 ? 4 : count, (report) => atOnce(north(report, 3000))));
    expectNoLie(flight);
    expect(flight.finished).toBe(true);
  });

  it('for 30 fixes blank the cue until five agree; then the receiver is believed, there and back', () => {
    const flight = fly(during(FAULT_AT_SECONDS, 30, (report) => atOnce(north(report, 3000))));
    // Before the jump and long after it the cues are true; in between nothing can tell the receiver's lie from a flight.
    expectNoLie({ ...flight, looks: [...between(flight, 0, FAULT_AT_SECONDS), ...between(flight, FAULT_AT_SECONDS + 40, Infinity)] });
    for (const turn of [FAULT_AT_SECONDS, FAULT_AT_SECONDS + 30]) {
      const blank = between(flight, turn + 3, turn + 4);
      expect(blank.length).toBeGreaterThan(5);
      expect(blank.every(({ cues }) => cues.phase === 'no-cue')).toBe(true);
    }
    expect(flight.finished).toBe(true);
  });
});

describe('frozen coordinates', () => {
  it('are no fix: the age grows, and the cue goes blank though reports keep coming', () => {
    let kept: DevicePositionReport | null = null;
    const flight = fly(
      during(FAULT_AT_SECONDS, 15, (report) => {
        kept ??= report;
        return atOnce({ coords: kept.coords, timestamp: report.timestamp });
      }),
    );
    expectNoLie(flight);
    expect(between(flight, FAULT_AT_SECONDS + 4.1, FAULT_AT_SECONDS + 15).every(({ cues }) => cues.phase === 'no-cue')).toBe(true);
    expect(flight.finished).toBe(true);
  });
});

describe('stamps', () => {
  it('every report twice leads nowhere else', () => {
    const doubled = fly({ deliver: (report) => [...atOnce(report), { report, afterSeconds: 0.3 }] });
    expectNoLie(doubled);
    expect(doubled.finished).toBe(true);
    // The way is solved anew at each report, so that a heading may differ by a degree and one way be longer, but nothing is learned twice.
    expect(Math.abs(doubled.looks.length / fly({}).looks.length - 1)).toBeLessThan(0.1);
  });

  it('reports out of order never lead the aircraft back', () => {
    // Every third report comes after the next one.
    let count = 0;
    const flight = fly({ deliver: (report) => [{ report, afterSeconds: (count += 1) % 3 === 0 ? 1.2 : 0 }] });
    expectNoLie(flight);
    expect(flight.finished).toBe(true);
  });

  it.each([
    ['an hour ahead', 3_600_000],
    ['counted from 2001', Date.UTC(1970, 0, 1) - Date.UTC(2001, 0, 1)],
    ['an hour old', -3_600_000],
  ])('%s say nothing of age: the arrival counts', (_name, byMilliseconds) => {
    const flight = fly(during(FAULT_AT_SECONDS, Infinity, (report) => atOnce({ ...report, timestamp: report.timestamp + byMilliseconds })));
    expectNoLie(flight);
    expect(flight.finished).toBe(true);
    expect(between(flight, FAULT_AT_SECONDS + 3, FAULT_AT_SECONDS + 60).every(isCued)).toBe(true);
  });
});

describe('speed and heading', () => {
  it.each([
    ['null', null],
    ['NaN', Number.NaN],
    ['a speed below zero', -1],
  ])('given as %s are derived from positions, never 0 or north', (_name, value) => {
    const flight = fly({ deliver: (report) => atOnce({ ...report, coords: { ...report.coords, speed: value, heading: value === -1 ? Number.NaN : value } }) });
    expectNoLie(flight);
    expect(flight.finished).toBe(true);
    expect(flight.looks.every(({ cues }) => Object.values(cues).every((each) => !Number.isNaN(each)))).toBe(true);
  });
});

describe('accuracy', () => {
  it('from 30 m to 3 km: the good ones are used, the imprecise ones age the cue until it is blank', () => {
    // 30, 100, 300, 1000 and 3000 m, 12 s each.
    const radii = [30, 100, 300, 1000, 3000];
    const flight = fly(
      during(FAULT_AT_SECONDS, 60, (report, atSeconds) => {
        const accuracy = radii[Math.floor((atSeconds - FAULT_AT_SECONDS) / 12)]!;
        // Off by half of what the receiver owns to.
        return atOnce(north({ ...report, coords: { ...report.coords, accuracy } }, accuracy / 2));
      }),
    );
    expectNoLie(flight, 200);
    expect(between(flight, FAULT_AT_SECONDS + 28, FAULT_AT_SECONDS + 60).every(({ cues }) => cues.phase === 'no-cue')).toBe(true);
    expect(flight.finished).toBe(true);
  });
});

describe('the rate of fixes', () => {
  it('10 Hz, then one in 5 s, then 10 Hz: the sparse ones cue no smoke, and the flight ends', () => {
    let last = -Infinity;
    const sparse = during(FAULT_AT_SECONDS, 60, (report, atSeconds) => {
      if (atSeconds - last < 5) return [];
      last = atSeconds;
      return atOnce(report);
    });
    const flight = fly(sparse, { fixIntervalSeconds: 0.1 });
    expectNoLie(flight);
    expect(between(flight, FAULT_AT_SECONDS + 6, FAULT_AT_SECONDS + 60).some(({ cues }) => cues.smoke === 'on')).toBe(false);
    expect(flight.finished).toBe(true);
  });
});

describe('the page stands still', () => {
  it.each([
    ['sleeps for 3.5 s', 3.5, 'sleep'],
    ['sleeps for 10 min', 600, 'sleep'],
    ['is stalled for 2 s', 2, 'stall'],
    ['is stalled for 6 s', 6, 'stall'],
  ] as const)('%s: nothing stale is cued at its waking, and the flight ends', (_name, seconds, kind) => {
    const flight = fly({ stops: { atSeconds: FAULT_AT_SECONDS, seconds, kind } });
    expectNoLie(flight);
    const first = between(flight, FAULT_AT_SECONDS + seconds, Infinity)[0]!;
    if (kind === 'sleep') expect(first.cues.phase).toBe('no-cue');
    expect(flight.finished).toBe(true);
  });
});

describe('the wall clock', () => {
  it.each([6 * 3600, -6 * 3600])('set by %i s: blank at once, until a fresh fix', (bySeconds) => {
    const flight = fly({ clockSet: { atSeconds: FAULT_AT_SECONDS, bySeconds } });
    expectNoLie(flight);
    // A fix may have arrived in the very same tick.
    expect(between(flight, FAULT_AT_SECONDS - 0.2, FAULT_AT_SECONDS + 1.2).some(({ cues }) => cues.phase === 'no-cue')).toBe(true);
    expect(between(flight, FAULT_AT_SECONDS + 3, FAULT_AT_SECONDS + 20).every(isCued)).toBe(true);
    expect(flight.finished).toBe(true);
  });
});
