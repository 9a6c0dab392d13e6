import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import { flyFlight } from '../../../src/app/flight/fly-flight.ts';
import { createSpeaker } from '../../../src/app/flight/voice/speaker.ts';
import { flightEventFromRow } from '../../../src/app/flight/flight-event-from-row.ts';
import { flownAgain, resumptionOf } from '../../../src/app/flight/resume-flight.ts';
import type { LogRow } from '../../../src/core/guidance/log-row.ts';
import { cuesFrom } from '../../../src/core/guidance/cues-from.ts';
import type { Cues } from '../../../src/core/guidance/cues.ts';
import { initialState } from '../../../src/core/guidance/guidance-state.ts';
import type { FlightSetup } from '../../../src/core/guidance/flight-setup.ts';
import type { FlightWorld } from '../../../src/sensors/flight-world.ts';
import { rehearsalWorld } from '../../../src/sensors/rehearsal-world.ts';
import { wordSetup } from '../../flight/word-setup.ts';

const { setup } = wordSetup('HI');
const START_MILLISECONDS = Date.UTC(2027, 5, 19, 17, 0, 0);

/** A rehearsal of a word, its log kept as the store would keep it: as JSON text. */
function rehearsed(speed: number, flown: FlightSetup = setup) {
  const rows: LogRow[] = [];
  const announced: string[] = [];
  let readCues = (): Cues => cuesFrom(initialState);
  const start = flown.strokes[0]!.path.start;
  const world: FlightWorld = rehearsalWorld({
    setup: flown,
    settings: {
      seed: 7,
      wind: { eastMetresPerSecond: 10, northMetresPerSecond: 6 },
      skill: 'ordinary',
      startEastMetres: start.airEastMetres - 1500,
      startNorthMetres: start.airNorthMetres - 500,
      startHeadingDegrees: 90,
      fixIntervalSeconds: 1,
      fixNoiseMetres: 3,
      fixLatencySeconds: 0.7,
    },
    control: () => ({ kind: 'cues', cues: readCues() }),
    start: { startSeconds: 0, startWallMilliseconds: START_MILLISECONDS },
    speed,
    together: (work) => work(),
  });
  const log = {
    append: (entry: Omit<LogRow, 'sequence'>) => {
      rows.push(JSON.parse(JSON.stringify({ ...entry, sequence: rows.length })) as LogRow);
    },
  };
  const sound = { announce: (tone: string | null) => void announced.push(String(tone)) };
  const flying = flyFlight({ clock: world.clock, position: world.position, log, speakerFrom: (before) => createSpeaker(sound, before) }, initialState, {
    kind: 'flightStarted',
    setup: flown,
  });
  readCues = () => flying.cues.peek();
  world.followSmoke(flying.smokeSwitched);
  return { flying, rows, announced, world };
}

const reading = (rows: readonly LogRow[]) => ({ rows, gaps: [], damagedSequences: [], cutSequences: [], nextSequence: rows.length });

describe('flyFlight', () => {
  beforeEach(() => {
    vi.useFakeTimers({ now: START_MILLISECONDS });
  });
  afterEach(() => {
    vi.useRealTimers();
  });

  it('logs each event under its own flight time and wall time', () => {
    const { rows, flying } = rehearsed(1);
    vi.advanceTimersByTime(3000);
    flying.end();
    expect(rows.length).toBeGreaterThan(10);
    for (const { event, monotonicSeconds, wallMilliseconds } of rows) expect(event).toMatchObject({ atSeconds: monotonicSeconds, wallMilliseconds });
  });

  it('flies a word at the desk to its end, with every event in the log', () => {
    const { flying, rows, announced } = rehearsed(20);
    for (let second = 0; second < 40 && flying.cues.value.phase !== 'finished'; second += 1) vi.advanceTimersByTime(1_000);
    expect(flying.cues.value.phase).toBe('finished');
    flying.end();
    const kinds = new Map<string, number>();
    for (const { event } of rows) {
      const known = flightEventFromRow(event);
      expect(known).not.toBeNull();
      kinds.set(known!.kind, (kinds.get(known!.kind) ?? 0) + 1);
    }
    const flownSeconds = rows.at(-1)!.monotonicSeconds;
    expect(kinds.get('clockAdvanced')).toBe(Math.round(flownSeconds * 10));
    // One fix a second, the last still on its way.
    expect(kinds.get('fixReceived')! / flownSeconds).toBeCloseTo(1, 1);
    expect(kinds.get('smokeSwitched')).toBe(2 * setup.strokes.length);
    expect(announced.filter((tone) => tone === 'smoke-on')).toHaveLength(setup.strokes.length);
    expect(announced.filter((tone) => tone === 'smoke-off')).toHaveLength(setup.strokes.length);
    expect(announced).not.toContain('no-cue');
  });

  it('gives the same cues from the log as it gave in flight, at every row', () => {
    const { flying, rows } = rehearsed(20);
    const shown: string[] = [];
    flying.cues.subscribe((cues) => shown.push(JSON.stringify(cues)));
    vi.advanceTimersByTime(5_000);
    flying.end();
    const again: string[] = [];
    for (let count = 1; count <= rows.length; count += 97) again.push(JSON.stringify(cuesFrom(flownAgain(reading(rows.slice(0, count)), null).state)));
    for (const cues of again) expect(shown).toContain(cues);
    expect(JSON.stringify(cuesFrom(flownAgain(reading(rows), null).state))).toBe(JSON.stringify(flying.cues.value));
  });

  it('comes to the same state from a checkpoint, and leaves one aside whose row is lost', () => {
    const { flying, rows } = rehearsed(20);
    vi.advanceTimersByTime(3_000);
    const checkpoint = { flightId: 'x', sequence: rows.length - 1, state: flying.state() };
    vi.advanceTimersByTime(2_000);
    flying.end();
    const whole = flownAgain(reading(rows), null);
    expect(flownAgain(reading(rows), checkpoint)).toEqual(whole);
    const short = flownAgain(reading(rows.slice(0, 200)), { ...checkpoint, sequence: 5_000 });
    expect(short).toEqual(flownAgain(reading(rows.slice(0, 200)), null));
  });

  it('goes on from a log where the flight stood', () => {
    const { flying, rows } = rehearsed(20);
    for (let tick = 0; tick < 400 && flying.cues.value.phase !== 'stroke'; tick += 1) vi.advanceTimersByTime(100);
    vi.advanceTimersByTime(200);
    expect(flying.cues.value.phase).toBe('stroke');
    const again = flownAgain(reading(rows), null);
    expect(again.state.phase).toBe('onStroke');
    expect(again.atSeconds).toBe(rows.at(-1)!.monotonicSeconds);
    const { place } = resumptionOf(again);
    const own = flying.view.value!.own!;
    // The letters drift; where the aircraft is over the ground is what a rehearsal goes on from.
    expect(Math.hypot(place!.startEastMetres - own.airEastMetres, place!.startNorthMetres - own.airNorthMetres)).toBeLessThan(500);
  });

  it('offers a touch for undoing until it is undone, and only the last', () => {
    const { flying } = rehearsed(1);
    vi.advanceTimersByTime(5_000);
    expect(flying.undoableTouch.value).toBeNull();
    flying.touch('strokeSkipped');
    expect(flying.cues.value.strokeNumber).toBe(2);
    expect(flying.undoableTouch.value).toBe('strokeSkipped');
    flying.touch('lastTouchUndone');
    expect(flying.cues.value.strokeNumber).toBe(1);
    expect(flying.undoableTouch.value).toBeNull();
    // Nothing was written yet, so there is nothing to do again: the touch is ignored and leaves no undo.
    flying.touch('strokeRedone');
    expect(flying.undoableTouch.value).toBeNull();
  });

  it('keeps a knock-it-off on the stroke where it came, and its undo over a kill', () => {
    const { flying, rows, world } = rehearsed(1);
    vi.advanceTimersByTime(5_000);
    flying.touch('strokeSkipped');
    flying.touch('knockedOff');
    expect(flying.cues.value).toMatchObject({ phase: 'finished', strokeNumber: 2 });
    flying.end();
    const again = flyFlight(
      { clock: world.clock, position: world.position, log: { append: () => {} }, speakerFrom: (before) => createSpeaker({ announce: () => {} }, before) },
      flownAgain(reading(rows), null).state,
      { kind: 'flightResumed' },
    );
    expect(again.cues.value).toMatchObject({ phase: 'finished', strokeNumber: 2 });
    expect(again.undoableTouch.value).toBe('knockedOff');
    again.touch('lastTouchUndone');
    expect(again.cues.value.phase).not.toBe('finished');
    again.end();
  });

  it('blanks the cue when the guidance fails, and logs what it failed on', () => {
    const broken = { ...setup, strokes: null } as unknown as FlightSetup;
    const rows: Omit<LogRow, 'sequence'>[] = [];
    const flying = flyFlight(
      {
        clock: { now: () => ({ atSeconds: 0, wallMilliseconds: START_MILLISECONDS }), everyTick: () => () => {} },
        position: { start: () => () => {} },
        log: { append: (entry) => rows.push(entry) },
        speakerFrom: (before) => createSpeaker({ announce: () => {} }, before),
      },
      initialState,
      { kind: 'flightStarted', setup: broken },
    );
    expect(flying.cues.value).toMatchObject({ phase: 'no-cue', smoke: null, headingMagneticDegrees: null });
    expect(flying.cues.value.because).toMatch(/the guidance failed/);
    expect(rows).toHaveLength(1);
  });

  it('tells how long the marked switch has differed from the cue', () => {
    const { flying } = rehearsed(1);
    vi.advanceTimersByTime(3_000);
    flying.smokeSwitched('on');
    vi.advanceTimersByTime(1_500);
    expect(flying.smokeDiffersSeconds.value).toBeCloseTo(1.5, 5);
    flying.smokeSwitched('off');
    expect(flying.smokeDiffersSeconds.value).toBeNull();
  });
});
