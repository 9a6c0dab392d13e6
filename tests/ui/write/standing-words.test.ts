import { describe, expect, it } from 'vitest';
import { crowdCaution } from '../../../src/app/flight/crowd-caution.ts';
import { wordStanding, type WordStanding } from '../../../src/core/guidance/hanging/word-standing.ts';
import { checkFigure } from '../../../src/core/wire/hanging-figures.ts';
import { unitText } from '../../../src/core/text/unit-text.ts';
import { OWN_UNITS } from '../../../src/core/units/unit-kinds.ts';
import { hungValue, readsUntilWords, standingWords } from '../../../src/ui/write/standing-words.ts';
import { wordJob } from '../../../e2e/flight/fly-word.ts';
import { flyJob } from '../../flight/job-flight.ts';

const DEGREE = Math.PI / 180;
const KNOT = 1852 / 3600;
const KM = unitText({ ...OWN_UNITS, distance: 'km' });

/** 2.8 km north-west of where it was briefed, for 22 kt from 098. */
const hung: WordStanding = {
  kind: 'found-wind',
  beforeSmoke: true,
  wallAtZeroMilliseconds: Date.UTC(2027, 5, 19, 12, 0),
  movedEastMetres: -1980,
  movedNorthMetres: 1980,
  wind: { eastMetresPerSecond: -22 * KNOT * Math.sin(98 * DEGREE), northMetresPerSecond: -22 * KNOT * Math.cos(98 * DEGREE) },
  hungFor: { eastMetresPerSecond: -22 * KNOT * Math.sin(98 * DEGREE), northMetresPerSecond: -22 * KNOT * Math.cos(98 * DEGREE) },
  lastSmokeAtSeconds: 250,
  levelAtSeconds: 300,
  promised: { eastMetres: 0, northMetres: 3900 },
  levelAfterSeconds: 50,
  atLastSmoke: { eastMetres: 0, northMetres: 3900 },
  seen: { azimuthRadians: 0, elevationRadians: 35 * DEGREE, rangeMetres: 4700 },
  leanRadians: 0.5 * DEGREE,
  offMetres: 0,
  readsUntil: { lowSeconds: 700, likelySeconds: 1000, highSeconds: 1265 },
  stands: { fromSeconds: 250, untilSeconds: 560, endedBy: 'leaning' },
  willRead: true,
};

describe('where the word hangs, in one line', () => {
  it('says how far and for which wind it was hung, when it reads and that it is level', () => {
    expect(standingWords(hung, KM)).toBe(
      '2.8 km north-west for 098/22, reads 12:04 to 12:11, perhaps 12:21 UTC, level, askew from 12:09; radio 098 220 ' + checkFigure('098220'),
    );
    expect(standingWords({ ...hung, kind: 'as-briefed', leanRadians: 20 * DEGREE }, KM)).toBe(
      'as briefed, reads 12:04 to 12:11, perhaps 12:21 UTC, leans 20°, right end high, askew from 12:09',
    );
    expect(standingWords({ ...hung, kind: 'by-hand' }, KM)).toMatch(/^where you put it, /);
    expect(standingWords(hung, KM, 'small')).toBe('2.8 km north-west for 098/22, reads 12:04 to 12:11 UTC; radio 098 220 ' + checkFigure('098220'));
    expect(standingWords(null, KM)).toBe('');
    expect([hungValue({ ...hung, promised: { eastMetres: -1240.4, northMetres: 3650 } }), hungValue(null)]).toEqual(['-1240/3650/50', '']);
  });

  it('says while it is written how far off it will stand, and that it will not read', () => {
    expect(standingWords({ ...hung, beforeSmoke: false, offMetres: 430, leanRadians: -5 * DEGREE }, KM)).toBe(
      '0.4 km off its place, reads 12:04 to 12:11, perhaps 12:21 UTC, leans 5°, left end high, askew from 12:09',
    );
    expect(standingWords({ ...hung, beforeSmoke: false, willRead: false }, KM)).toMatch(/will not read/);
    expect(standingWords({ ...hung, beforeSmoke: false, offMetres: 40 }, KM, 'small')).toBe('on its place, reads 12:04 to 12:11 UTC');
  });

  it('never reads until before it is finished, at a line and after the last stroke either', () => {
    const late = { ...hung, readsUntil: { lowSeconds: 100, likelySeconds: 400, highSeconds: 1265 } };
    expect(standingWords(late, KM, 'small')).toContain('reads 12:04 to 12:04, perhaps 12:21 UTC');
    expect(readsUntilWords(late)).toBe(' reads until 12:04, perhaps 12:21 UTC');
    const gone = { ...late, readsUntil: { lowSeconds: 40, likelySeconds: 60, highSeconds: 100 } };
    expect(standingWords(gone, KM)).toContain('reads 12:04 to 12:04 UTC');
    expect(readsUntilWords(hung)).toBe(' reads until 12:11, perhaps 12:21 UTC');
  });

  it('says distances in the unit that is chosen, and none that would be written as nothing', () => {
    // 2.8 km are 1.51 NM and 1.74 statute miles.
    expect(standingWords(hung, unitText())).toMatch(/^1\.5 NM north-west for 098\/22, /);
    expect(standingWords(hung, unitText({ ...OWN_UNITS, distance: 'statute mi' }))).toMatch(/^1\.7 statute mi north-west /);
    expect(standingWords({ ...hung, beforeSmoke: false, offMetres: 430 }, unitText())).toMatch(/^0\.2 NM off its place, /);
    expect(standingWords({ ...hung, beforeSmoke: false, offMetres: 80 }, unitText())).toMatch(/^on its place, /);
    expect(standingWords({ ...hung, beforeSmoke: false, offMetres: 80 }, KM)).toMatch(/^0\.1 km off its place, /);
  });
});

describe('the caution of a word that the crowd will not like', () => {
  it('is silent only where the word stands well', () => {
    expect(crowdCaution(hung, KM)).toBeNull();
    expect(crowdCaution({ ...hung, offMetres: 3000, leanRadians: 20 * DEGREE }, KM)).toBe('WORD 3 KM OFF, LEAN 20°');
    expect(crowdCaution({ ...hung, offMetres: 3000 }, unitText())).toBe('WORD 2 NM OFF');
    expect(crowdCaution({ ...hung, offMetres: 3000 }, unitText({ ...OWN_UNITS, distance: 'statute mi' }))).toBe('WORD 2 MI OFF');
    expect(crowdCaution({ ...hung, willRead: false }, KM)).toBe('WORD WILL NOT READ');
  });

  it('is given before the next letter to a pilot who writes as briefed in a wind that turns the word away', () => {
    const cautions: string[] = [];
    let refused = false;
    // 20 kt off, as briefed: the eye at the site sees this word leaning by more than 15 degrees.
    flyJob(
      wordJob('VIVID'),
      9,
      20,
      {},
      {
        longestSeconds: 600,
        touch: (state) => {
          if (refused || state.phase === 'idle' || state.flight.hanging === null) return null;
          refused = true;
          return { kind: 'hangingRefused' };
        },
        watch: (state) => {
          if (state.phase === 'idle') return;
          const standing = wordStanding(state);
          if (standing !== null && !standing.beforeSmoke) cautions.push(crowdCaution(standing, KM) ?? '');
        },
      },
    );
    expect(cautions.length).toBeGreaterThan(100);
    expect(cautions.filter((one) => one === 'WORD WILL NOT READ').length).toBeGreaterThan(0.5 * cautions.length);
  });
});
