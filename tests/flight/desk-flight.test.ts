import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { cuesFrom } from '../../src/core/guidance/cues-from.ts';
import type { FlightSetup } from '../../src/core/guidance/flight-setup.ts';
import { initialState } from '../../src/core/guidance/guidance-state.ts';
import { reduce } from '../../src/core/guidance/reduce.ts';
import { drawPolylines } from './draw-strokes.ts';
import { flyAtDesk } from './fly-at-desk.ts';
import { measureSmoke } from './measure-smoke.ts';
import { ordinaryWorld, TEN_KNOTS } from './ordinary-world.ts';
import { openTextReader, type TextReader } from './read-text.ts';
import { seenFromBelow } from './smoke-from-below.ts';
import { WORD_AIRSPEED, WORD_FACING_DEGREES, WORD_HEIGHT_METRES, wordSetup } from './word-setup.ts';

const smokeErrors = ({ simulation }: ReturnType<typeof flyAtDesk>, { strokes }: FlightSetup): ReturnType<typeof measureSmoke> =>
  measureSmoke(
    simulation.trails,
    strokes.map(({ path }) => path),
    WORD_AIRSPEED,
  );

/**
 * The measure above all, without a browser: a simulated pilot who sees only the cues writes a word in a wind 10 kt off
 * the forecast, and an OCR engine that does not know the word reads it from below.
 */
describe('a word flown at the desk', () => {
  let reader: TextReader;
  beforeAll(async () => {
    reader = await openTextReader();
  });
  afterAll(() => reader.close());

  it.each(['SKY', 'CAKE'])('writes %s so that it is read, and not in the mirror', { timeout: 60_000 }, async (word) => {
    const { setup } = wordSetup(word);
    const flight = flyAtDesk(setup, ordinaryWorld(word.length, TEN_KNOTS));
    const seen = seenFromBelow(flight.simulation.trails, WORD_FACING_DEGREES);
    const picture = { letterHeightMetres: WORD_HEIGHT_METRES };
    expect((await reader.read(drawPolylines(seen, picture))).text).toBe(word);
    expect((await reader.read(drawPolylines(seen, { ...picture, mirrored: true }))).text).not.toBe(word);
    const errors = smokeErrors(flight, setup);
    expect(errors.matchedStrokes).toBe(setup.strokes.length);
    expect(errors.crossTrackRmsMetres).toBeLessThan(70);
  });

  it.each(['ANNA', 'LISA'])(
    'writes %s in the joined hand, strokes from letter to letter in their place, so that it is read',
    { timeout: 60_000 },
    async (word) => {
      const { setup } = wordSetup(word, {}, 1, 0, 'joined');
      const flight = flyAtDesk(setup, ordinaryWorld(4, TEN_KNOTS));
      const errors = smokeErrors(flight, setup);
      expect(errors.matchedStrokes).toBe(setup.strokes.length);
      expect(errors.crossTrackRmsMetres).toBeLessThan(70);
      const capitals = 'ABCDEFGHIJKLMNOPQRSTUVWXYZ';
      const script = await openTextReader(`${capitals}${capitals.toLowerCase()} `);
      const { text } = await script.read(
        drawPolylines(seenFromBelow(flight.simulation.trails, WORD_FACING_DEGREES), { letterHeightMetres: WORD_HEIGHT_METRES }),
      );
      await script.close();
      expect(text).toBe(word);
    },
  );

  it('flies the same log to the same cues, bit for bit', () => {
    const { setup } = wordSetup('FLY');
    const shown: string[] = [];
    const flight = flyAtDesk(setup, ordinaryWorld(3, TEN_KNOTS), { watch: (state) => shown.push(JSON.stringify(cuesFrom(state))) });
    let state = initialState;
    const replayed: string[] = [];
    for (const event of JSON.parse(JSON.stringify(flight.events)) as typeof flight.events) {
      state = reduce(state, event);
      if (event.kind === 'clockAdvanced') replayed.push(JSON.stringify(cuesFrom(state)));
    }
    expect(replayed).toEqual(shown);
    expect(shown.length).toBeGreaterThan(2000);
  });

  it('never cues smoke on while fixes are lost, and finishes the word after both losses', { timeout: 60_000 }, async () => {
    const { setup } = wordSetup('WISH');
    const losses = { reposition: Infinity, stroke: Infinity };
    const world = ordinaryWorld(9, TEN_KNOTS, {
      fixLosses: (smokeOn, atSeconds) => {
        if (losses.reposition === Infinity && atSeconds > 200 && !smokeOn) losses.reposition = atSeconds;
        if (losses.stroke === Infinity && atSeconds > losses.reposition + 90 && smokeOn) losses.stroke = atSeconds + 5;
        return [losses.reposition, losses.stroke].some((from) => atSeconds >= from && atSeconds < from + 30);
      },
    });
    let wrongOns = 0;
    const flight = flyAtDesk(setup, world, {
      watch: (state) => {
        const cues = cuesFrom(state);
        if (cues.smoke === 'on' && (cues.fixAgeSeconds === null || cues.fixAgeSeconds >= 3)) wrongOns += 1;
        if (cues.phase === 'no-cue')
          expect([cues.turn, cues.headingTrueDegrees, cues.bankDegrees, cues.smokeInSeconds, cues.crossTrackMetres]).toEqual([null, null, null, null, null]);
      },
    });
    expect(losses.stroke).toBeLessThan(Infinity);
    expect(wrongOns).toBe(0);
    expect(
      (await reader.read(drawPolylines(seenFromBelow(flight.simulation.trails, WORD_FACING_DEGREES), { letterHeightMetres: WORD_HEIGHT_METRES }))).text,
    ).toBe('WISH');
  });
});
