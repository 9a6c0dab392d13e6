import { describe, expect, it } from 'vitest';
import { lastsText, minutesRange, readsFor, readsText, readsValue } from '../../../src/ui/words/reads-text.ts';
import { WINDOW } from './window.ts';

describe('how long a text reads, in minutes', () => {
  it('says from when, for how long, and from when on the wind has turned it askew', () => {
    expect(readsText(WINDOW)).toBe('from 5:20 for 7 to 33 min, askew from 10:57');
    expect(readsText({ ...WINDOW, stands: { fromSeconds: 320, untilSeconds: 11_000, endedBy: null } })).toBe('from 5:20 for 7 to 33 min');
    expect(readsText({ ...WINDOW, fromSeconds: 2_300 })).toBe('never as a whole');
    expect(readsText({ ...WINDOW, fromSeconds: 1_400, stands: null })).toBe('perhaps, for 15 min at most, askew all the time');
    expect(readsFor({ ...WINDOW, fromSeconds: 2_250 })).toBe('perhaps, for less than a minute');
    expect(readsValue(WINDOW)).toBe('320/740/1300/2300/657');
  });

  it('tells the pilot and the client the same minutes, and neither more than is reckoned', () => {
    // 10.7 and 28.8 minutes after all of it is written at 1:27.
    const window = { ...WINDOW, fromSeconds: 87, until: { lowSeconds: 729, likelySeconds: 1_100, highSeconds: 1_815 } };
    expect(readsText(window)).toMatch(/^from 1:27 for 10 to 28 min/);
    expect(lastsText(window)).toMatch(/^the whole text reads for about 10 to 28 minutes from then on, .* it stands level for about 9 of them/);
    expect(minutesRange(59.9, 119.9)).toBe('0 to 1');
    expect(lastsText({ ...window, until: { ...window.until, lowSeconds: 146 } })).toMatch(/reads for up to 28 minutes/);
    expect(lastsText({ ...window, until: { ...window.until, lowSeconds: 146, likelySeconds: 460 } })).toMatch(
      /up to \d+ minutes from then on, likely for about \d/,
    );
    expect(lastsText({ ...window, until: { ...window.until, lowSeconds: 146, likelySeconds: 140 } })).toMatch(
      /likely for less than one, the less the gustier the air/,
    );
    expect(lastsText({ ...window, fromSeconds: 1_800 })).toMatch(/gone before the last is written/);
  });
});
