import { drawPolylines } from '../flight/draw-strokes.ts';
import { flyAtDesk } from '../flight/fly-at-desk.ts';
import { measureSmoke } from '../flight/measure-smoke.ts';
import { ordinaryWorld, TEN_KNOTS } from '../flight/ordinary-world.ts';
import { openTextReader } from '../flight/read-text.ts';
import { seenFromBelow } from '../flight/smoke-from-below.ts';
import { WORD_AIRSPEED, WORD_FACING_DEGREES, WORD_HEIGHT_METRES, wordSetup } from '../flight/word-setup.ts';
import type { Figure } from './figures.ts';
import { atLeast, atMost } from './limits.ts';

/** First names and greetings that nobody looked at while the joined hand was drawn. */
const NAMES = ['PETER', 'OSCAR', 'JULIA', 'AGNES', 'HENRY', 'LOVE', 'MONIKA', 'FELIX', 'SORRY', 'THEO', 'RALPH', 'WANDA'];
/** Of the stroke across its line, as drawings are held to. */
const ERROR_HEIGHTS = 0.04;

/** Names in the joined hand flown at the desk, the wind 10 kt off the forecast: read as flown, and how far off their strokes the smoke lies. */
export async function joinedFigures(): Promise<Figure[]> {
  const capitals = 'ABCDEFGHIJKLMNOPQRSTUVWXYZ';
  const reader = await openTextReader(`${capitals}${capitals.toLowerCase()} `);
  const flown: { readonly read: boolean; readonly matched: boolean; readonly heights: number }[] = [];
  for (const [index, name] of NAMES.entries()) {
    const { setup } = wordSetup(name, {}, 1, 0, 'joined');
    const { simulation } = flyAtDesk(setup, ordinaryWorld(index + 1, TEN_KNOTS));
    const errors = measureSmoke(
      simulation.trails,
      setup.strokes.map(({ path }) => path),
      WORD_AIRSPEED,
    );
    const { text } = await reader.read(drawPolylines(seenFromBelow(simulation.trails, WORD_FACING_DEGREES), { letterHeightMetres: WORD_HEIGHT_METRES }));
    flown.push({ read: text === name, matched: errors.matchedStrokes === setup.strokes.length, heights: errors.crossTrackRmsMetres / WORD_HEIGHT_METRES });
    process.stdout.write(`${name}: read ${text}, ${(errors.crossTrackRmsMetres / WORD_HEIGHT_METRES).toFixed(3)} letter heights\n`);
  }
  await reader.close();
  const heights = flown.map((one) => one.heights).toSorted((one, other) => one - other);
  return [
    atLeast('joined hand flown 10 kt off: every stroke in its place, of 12 names', flown.filter(({ matched }) => matched).length, NAMES.length, '', 0),
    atLeast('joined hand flown 10 kt off: names read, of 12', flown.filter(({ read }) => read).length, 11, '', 0),
    atMost('joined hand flown 10 kt off: smoke off its strokes (rms), median', heights[NAMES.length / 2]!, ERROR_HEIGHTS, 'letter heights', 3),
    atMost('joined hand flown 10 kt off: smoke off its strokes (rms), worst', heights.at(-1)!, ERROR_HEIGHTS, 'letter heights', 3),
  ];
}
