import { describe, expect, it } from 'vitest';
import type { ShipDebrief } from '../../../src/core/debrief/ship-debrief.ts';
import type { ReadingWindow } from '../../../src/core/sky/reading-window.ts';
import { verdictWords } from '../../../src/ui/debrief/verdict-words.ts';
import { unitText } from '../../../src/core/text/unit-text.ts';

const letter = (character: string, shapeErrorHeights: number | null, coverage: number) => ({ character, shapeErrorHeights, coverage });
/** Only what the verdict asks for. */
const flown = (letters: ReturnType<typeof letter>[], worstMetres: (number | null)[]): ShipDebrief =>
  ({ letterScores: letters, strokeScores: worstMetres.map((crossTrackWorstMetres) => ({ crossTrackWorstMetres })) }) as unknown as ShipDebrief;
const reading = (fromSeconds: number, likelySeconds: number): ReadingWindow =>
  ({ fromSeconds, until: { lowSeconds: 0, likelySeconds, highSeconds: 0 } }) as unknown as ReadingWindow;

describe('the verdict on a flight', () => {
  const sail = ['S', 'A', 'I', 'L'].map((each) => letter(each, 0.01, 1));

  it('counts the whole letters and says how far the smoke was off at most, to either side', () => {
    expect(verdictWords('SAIL', [flown(sail, [3, -9.4, null])], reading(300, 900), unitText())).toBe('SAIL reads, four letters whole, 31 ft off at most.');
    expect(verdictWords('SAIL', [flown(sail.slice(0, 2), [3]), flown(sail.slice(2), [-4])], null, unitText())).toBe(
      'SAIL reads, four letters whole, 13 ft off at most.',
    );
  });

  it('does not call a word read with a letter bent, broken or missing, or once it fades before it is done', () => {
    for (const bad of [letter('S', 0.2, 1), letter('S', 0.01, 0.4), letter('S', null, 0)]) {
      expect(verdictWords('SAIL', [flown([bad, ...sail.slice(1)], [3])], reading(300, 900), unitText())).toBe(
        'SAIL does not read as a whole, three of four letters whole, 10 ft off at most.',
      );
    }
    expect(verdictWords('SAIL', [flown(sail, [3])], reading(900, 800), unitText())).toMatch(/^SAIL does not read/);
    expect(verdictWords('SAIL', [flown(sail, [null])], null, unitText())).toBe('SAIL was not written.');
    expect(verdictWords('SAIL', [flown([], [])], null, unitText())).toBe('No letter was planned.');
  });
});
