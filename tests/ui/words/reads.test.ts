import { describe, expect, it } from 'vitest';
import { askewWords } from '../../../src/ui/words/reads.ts';
import { WINDOW } from './window.ts';

const at = (seconds: number): string => `${seconds}`;

describe('from when on the wind has turned a text askew', () => {
  it('says when it comes level only later, sinks, or never stands', () => {
    expect(askewWords({ ...WINDOW, stands: { fromSeconds: 400, untilSeconds: 657, endedBy: 'leaning' } }, at)).toBe('askew until 400 and from 657');
    expect(askewWords({ ...WINDOW, stands: { fromSeconds: 320, untilSeconds: 657, endedBy: 'low' } }, at)).toBe('too low from 657');
    expect(askewWords({ ...WINDOW, stands: null }, at)).toBe('askew all the time');
    expect(askewWords({ ...WINDOW, stands: { fromSeconds: 320, untilSeconds: 2_400, endedBy: 'leaning' } }, at)).toBe('');
  });
});
