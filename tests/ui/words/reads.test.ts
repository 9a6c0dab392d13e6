import { describe, expect, it } from 'vitest';
import type { ReadingWindow } from '../../../src/core/sky/reading-window.ts';
import { askewWords, readsText, readsValue } from '../../../src/ui/words/reads.ts';

const WINDOW: ReadingWindow = {
  letters: [],
  fromSeconds: 320,
  until: { lowSeconds: 740, likelySeconds: 1_300, highSeconds: 2_300 },
  stands: { fromSeconds: 320, untilSeconds: 657, endedBy: 'leaning' },
  first: null,
};
const at = (seconds: number): string => `${seconds}`;

describe('how long a text reads, in words', () => {
  it('says from when, for how long, and from when on the wind has turned it askew', () => {
    expect(readsText(WINDOW)).toBe('from 5:20 for 7 to 33 min, askew from 10:57');
    expect(readsText({ ...WINDOW, stands: { fromSeconds: 320, untilSeconds: 11_000, endedBy: null } })).toBe('from 5:20 for 7 to 33 min');
    expect(readsText({ ...WINDOW, fromSeconds: 2_300 })).toBe('never as a whole');
    expect(readsValue(WINDOW)).toBe('320/740/1300/2300/657');
  });

  it('says when it comes level only later, sinks, or never stands', () => {
    expect(askewWords({ ...WINDOW, stands: { fromSeconds: 400, untilSeconds: 657, endedBy: 'leaning' } }, at)).toBe('askew until 400 and from 657');
    expect(askewWords({ ...WINDOW, stands: { fromSeconds: 320, untilSeconds: 657, endedBy: 'low' } }, at)).toBe('too low from 657');
    expect(askewWords({ ...WINDOW, stands: null }, at)).toBe('askew all the time');
    expect(askewWords({ ...WINDOW, stands: { fromSeconds: 320, untilSeconds: 2_400, endedBy: 'leaning' } }, at)).toBe('');
  });
});
