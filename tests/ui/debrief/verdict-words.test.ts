import { describe, expect, it } from 'vitest';
import type { ShipDebrief } from '../../../src/core/debrief/ship-debrief.ts';
import type { Plan } from '../../../src/core/plan/plan.ts';
import type { ReadingWindow } from '../../../src/core/sky/reading-window.ts';
import { lettersWritten } from '../../../src/ui/debrief/letters-written.ts';
import { textWindow } from '../../../src/ui/debrief/use-flown-word.ts';
import { verdictWords } from '../../../src/ui/debrief/verdict-words.ts';
import { unitText } from '../../../src/core/text/unit-text.ts';

const letter = (character: string, shapeErrorHeights: number | null, coverage: number, strokesMissing = 0) => ({
  letterIndex: 'SAIL'.indexOf(character),
  character,
  shapeErrorHeights,
  coverage,
  strokesMissing,
});
/** Only what the verdict asks for. */
const flown = (letters: ReturnType<typeof letter>[], worstMetres: (number | null)[]): ShipDebrief =>
  ({ letterScores: letters, strokeScores: worstMetres.map((crossTrackWorstMetres) => ({ crossTrackWorstMetres })) }) as unknown as ShipDebrief;
const reading = (fromSeconds: number, likelySeconds: number): ReadingWindow =>
  ({ fromSeconds, until: { lowSeconds: 0, likelySeconds, highSeconds: 0 } }) as unknown as ReadingWindow;

/** Strokes of a plan, one letter each. */
const planOf = (letters: string): Plan => ({ ships: [{ legs: Array.from(letters, (_, letterIndex) => ({ kind: 'smoke', letterIndex })) }] }) as unknown as Plan;
const verdict = (text: string, debriefs: ShipDebrief[], window: ReadingWindow | null, plan: Plan | null = null): string =>
  verdictWords(text, lettersWritten(debriefs, plan), debriefs, window, unitText());

describe('the verdict on a flight', () => {
  const sail = ['S', 'A', 'I', 'L'].map((each) => letter(each, 0.01, 1));

  it('counts the whole letters and says how far the smoke was off at most, to either side', () => {
    expect(verdict('SAIL', [flown(sail, [3, -9.4, null])], reading(300, 900))).toBe('SAIL reads, four letters whole, 31 ft off at most.');
    expect(verdict('SAIL', [flown(sail.slice(0, 2), [3]), flown(sail.slice(2), [-4])], null)).toBe('SAIL reads, four letters whole, 13 ft off at most.');
  });

  it('does not call a word read with a letter bent, broken or missing, or once it fades before it is done', () => {
    for (const bad of [letter('S', 0.2, 1), letter('S', 0.01, 0.4), letter('S', null, 0), letter('S', 0.005, 0.95, 1)]) {
      expect(verdict('SAIL', [flown([bad, ...sail.slice(1)], [3])], reading(300, 900))).toBe(
        'SAIL does not read as a whole, three of four letters whole, 10 ft off at most.',
      );
    }
    expect(verdict('SAIL', [flown(sail, [3])], reading(900, 800))).toMatch(/^SAIL does not read/);
    expect(verdict('SAIL', [flown(sail, [null])], null)).toBe('SAIL was not written.');
    expect(verdict('SAIL', [flown([], [])], null)).toBe('No letter was planned.');
  });

  it('says nothing of a word whose other ships are not here', () => {
    const lead = flown(sail.slice(0, 1), [3]);
    expect(verdict('SAIL', [lead], reading(300, 900), planOf('SAIL'))).toBe('Of SAIL only one of four letters is here, one letter whole, 10 ft off at most.');
    expect(textWindow(reading(300, 900), lettersWritten([lead], planOf('SAIL')))).toBeNull();
    expect(verdict('SAIL', [lead, flown(sail.slice(1), [4])], reading(300, 900), planOf('SAIL'))).toMatch(/^SAIL reads/);
  });

  it('never reads as a whole without a stroke of a letter, whatever smoke was laid', () => {
    const all = (strokesMissing: number) => lettersWritten([flown([letter('S', 0.005, 0.95, strokesMissing), ...sail.slice(1)], [3])], planOf('SAIL'));
    expect(textWindow(reading(300, 900), all(0))).toEqual(reading(300, 900));
    expect(textWindow(reading(300, 900), all(1))?.until).toEqual({ lowSeconds: 300, likelySeconds: 300, highSeconds: 300 });
  });
});
