import { describe, expect, it } from 'vitest';
import { announce, announceNothing, headingWords } from '../../../src/app/flight/announce.ts';
import type { Cues } from '../../../src/core/guidance/cues.ts';
import { someCues } from '../../ui/write/some-cues.ts';

/** What is announced as the cues change one after the other. */
function heard(...steps: readonly Partial<Cues>[]): string[] {
  let cues = someCues;
  let memory = announceNothing(cues);
  return steps.map((step) => {
    cues = { ...cues, ...step };
    const result = announce(memory, cues);
    memory = result.memory;
    return result.announcement === null ? '' : `${result.announcement.tone}: ${result.announcement.words.join(' ')}`.trim();
  });
}

describe('announce', () => {
  it('reads out a turn and its heading once, and again when it moved by 15 degrees', () => {
    expect(heard({}, { headingMagneticDegrees: 220 }, { headingMagneticDegrees: 229 }, { headingMagneticDegrees: 230 }, { turn: 'right' })).toEqual([
      'left: left two one five',
      '',
      '',
      'left: left two three zero',
      'right: right two three zero',
    ]);
  });

  it('measures a heading across north', () => {
    expect(heard({ headingMagneticDegrees: 355 }, { headingMagneticDegrees: 4 }, { headingMagneticDegrees: 12 })).toEqual([
      'left: left three five five',
      '',
      'left: left zero one two',
    ]);
  });

  it('makes ready at five seconds and counts three, two, one', () => {
    const seconds = [6.2, 5.1, 4.9, 4.0, 3.1, 3.0, 2.4, 1.9, 1.0, 0.4];
    const run = heard({ turn: 'straight', phase: 'run-in' }, ...seconds.map((smokeInSeconds) => ({ smokeInSeconds })));
    expect(run.slice(1)).toEqual(['', '', 'ready:', '', '', 'count:', '', 'count:', 'count:', '']);
  });

  it('tells smoke on at once, and smoke off with where to turn', () => {
    expect(
      heard(
        { phase: 'stroke', smoke: 'on', turn: 'straight' },
        { smokeInSeconds: 12 },
        { phase: 'reposition', smoke: 'off', turn: 'right', headingMagneticDegrees: 60, smokeInSeconds: 20 },
      ),
    ).toEqual(['smoke-on: smoke-on', '', 'smoke-off: smoke-off right zero six zero']);
  });

  it('says no cue once, counts nothing meanwhile, and says everything anew afterwards', () => {
    const lost: Partial<Cues> = { phase: 'no-cue', turn: null, headingMagneticDegrees: null, smoke: null, smokeInSeconds: null };
    expect(heard({}, lost, lost, { phase: 'reposition', turn: 'left', headingMagneticDegrees: 215, smoke: 'off', smokeInSeconds: 2 })).toEqual([
      'left: left two one five',
      'no-cue: no-cue',
      '',
      'left: left two one five',
    ]);
  });

  it('says smoke on again when a stroke goes on after a loss', () => {
    const lost: Partial<Cues> = { phase: 'no-cue', turn: null, headingMagneticDegrees: null, smoke: null };
    expect(heard({ phase: 'stroke', smoke: 'on' }, lost, { phase: 'stroke', smoke: 'on', turn: 'straight', headingMagneticDegrees: 215 }).at(-1)).toBe(
      'smoke-on: smoke-on',
    );
  });

  it('names a go-around, a hold and the end', () => {
    expect(heard({ turn: 'straight' }, { phase: 'go-around', turn: 'right', headingMagneticDegrees: 40 })[1]).toBe('go-around: go-around right zero four zero');
    expect(heard({ phase: 'hold', turn: null, headingMagneticDegrees: null })).toEqual(['hold: hold']);
    expect(heard({ phase: 'finished', turn: null, headingMagneticDegrees: null })).toEqual(['finished: finished']);
  });

  it('says north as three six zero', () => {
    expect(headingWords(359.7)).toEqual(['three', 'six', 'zero']);
    expect(headingWords(7)).toEqual(['zero', 'zero', 'seven']);
  });
});
