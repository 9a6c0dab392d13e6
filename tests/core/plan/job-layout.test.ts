import { describe, expect, test } from 'vitest';
import { artworkFromPathData } from '../../../src/core/artwork/artwork.ts';
import { jobDrawing } from '../../../src/core/artwork/job-drawing.ts';
import { DEMO_JOB } from '../../../src/core/job/demo-job.ts';
import type { Job, JobDrawing } from '../../../src/core/job/job.ts';
import { parseJob } from '../../../src/core/job/parse-job.ts';
import { writeJob } from '../../../src/core/job/write-job.ts';
import { writtenWords } from '../../../src/core/job/written-words.ts';
import { jobLayout } from '../../../src/core/plan/job-layout.ts';
import { planJob } from '../../../src/core/plan/plan-job.ts';
import type { TextLayout } from '../../../src/core/letters/typeset.ts';

/** A ring with a bolt in it, drawn for this test. */
const RING = 'M10 0A10 10 0 0 1 -10 0A10 10 0 0 1 10 0Z';
const BOLT = 'M2 -7L-4 1L3 0L-2 7';

function drawing(pathData: string, name: string, place: JobDrawing['place'], depthMetres = 2400): JobDrawing {
  const read = artworkFromPathData(pathData, { depthMetres, turnRadiusMetres: 293 });
  if (!read.ok) throw new Error(read.reason);
  const made = jobDrawing(read.artwork, name, place);
  if ('reason' in made) throw new Error(made.reason);
  return made;
}

const withDrawings = (text: string, ...drawings: readonly JobDrawing[]): Job => ({ ...DEMO_JOB, text, drawings });

function layout(job: Job): TextLayout {
  const setting = jobLayout(job, 293);
  if (!setting.ok) throw new Error(setting.reason);
  return setting.layout;
}

describe('a drawing beside words', () => {
  // To 50 m: the ring is drawn to a hundredth of its depth.
  test('stands where it was put, a word\u2019s gap away, the whole in the middle', () => {
    const alone = layout(withDrawings('SAIL'));
    const gap = 0.95 * 3937 * 0.3048;
    for (const place of ['before', 'after'] as const) {
      const { letters, widthMetres, depthMetres } = layout(withDrawings('SAIL', drawing(RING, 'ring', place)));
      expect(letters.map(({ letterIndex, character }) => `${letterIndex}${character}`).join(' ')).toBe('0S 1A 2I 3L 4\u25c6');
      expect(widthMetres).toBeCloseTo(alone.widthMetres + gap + 2400, -2);
      expect(depthMetres).toBeCloseTo(2400, -2);
      const [first, ring] = [letters[0]!, letters[4]!];
      if (place === 'before') expect(first.leftMetres - ring.rightMetres).toBeCloseTo(gap, -2);
      else expect(ring.leftMetres - letters[3]!.rightMetres).toBeCloseTo(gap, -2);
      const edges = letters.flatMap(({ leftMetres, rightMetres }) => [leftMetres, rightMetres]);
      expect(Math.min(...edges)).toBeCloseTo(-widthMetres / 2, 3);
      expect(Math.max(...edges)).toBeCloseTo(widthMetres / 2, 3);
    }
    const above = layout(withDrawings('SAIL', drawing(RING, 'ring', 'above'), drawing(BOLT, 'bolt', 'below', 1500)));
    expect(above.depthMetres).toBeCloseTo(alone.depthMetres + 2 * gap + 2400 + 1500, -2);
  });

  test('goes through the job file unchanged, and into the plan: every stroke once, beside the letters', () => {
    const job = withDrawings('SAM', drawing(`${RING}${BOLT}`, 'ring and bolt', 'after'));
    const read = parseJob(writeJob(job));
    expect(read.ok && read.value.drawings).toEqual(job.drawings);
    const planned = planJob(job);
    if (!planned.ok) throw new Error(planned.problem.kind);
    const legs = planned.value.plan.ships.flatMap((ship) => ship.legs).filter((leg) => leg.kind === 'smoke');
    const sources = legs.filter(({ character }) => character === '\u25c6').flatMap((leg) => leg.sources.map(({ drawnStrokeIndex }) => drawnStrokeIndex));
    expect(sources.toSorted((one, other) => one - other)).toEqual(job.drawings[0]!.strokes.map((_, index) => index));
    expect(new Set(legs.map(({ letterIndex }) => letterIndex)).size).toBe(4);
  });

  test('stands alone in a job without words, which is called after it', () => {
    const job = withDrawings('', drawing(RING, 'ring', 'after'));
    expect(writtenWords(job)).toBe('ring');
    const planned = planJob(job);
    expect(planned.ok && planned.value.plan.text).toBe('ring');
    expect(planned.ok && planned.value.plan.ships[0]!.toggles).toBe(1);
  });

  test('too tight for the ships at its size is refused as a drawing', () => {
    const small = { ...drawing(RING, 'ring', 'after'), depthFeet: 1000 };
    const planned = planJob(withDrawings('SAM', small));
    expect(planned.ok ? '' : planned.problem).toMatchObject({ kind: 'too-small', smallest: { character: '\u25c6' } });
  });

  test('that cannot be flown at all is not taken', () => {
    const read = artworkFromPathData('M0 10L5 0L6 10', { depthMetres: 60, turnRadiusMetres: 293, mostStrayMetres: 0 });
    expect(read.ok && 'reason' in jobDrawing(read.artwork, 'point', 'after')).toBe(true);
  });
});
