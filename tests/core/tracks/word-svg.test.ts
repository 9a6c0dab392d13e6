import { XMLValidator } from 'fast-xml-parser';
import { expect, it } from 'vitest';
import { DEMO_JOB } from '../../../src/core/job/demo-job.ts';
import { planJob } from '../../../src/core/plan/plan-job.ts';
import { trailsFromPlan } from '../../../src/core/sky/trail.ts';
import { wordPicture } from '../../../src/core/tracks/word-svg.ts';

const STYLE = { title: 'A & <B>', facingRadians: 1, strokeMetres: 60, sky: '#000', smoke: '#fff', across: 'REHEARSAL' };

it('draws a planned word so that it reads from left to right, every point inside', () => {
  const made = planJob(DEMO_JOB);
  if (!made.ok) throw new Error(made.problem.kind);
  const { plan } = made.value;
  const trails = trailsFromPlan(plan, 60);
  const picture = wordPicture(trails, { ...STYLE, facingRadians: plan.frame.facingRadians })!;
  expect(XMLValidator.validate(picture.svg)).toBe(true);
  expect(picture.svg).toContain('REHEARSAL');
  const numbers = [...picture.pathData.matchAll(/(-?[\d.]+) (-?[\d.]+)/g)].map(([, x, y]) => [Number(x), Number(y)] as const);
  for (const [x, y] of numbers) {
    expect(x).toBeGreaterThan(0);
    expect(x).toBeLessThan(picture.widthPixels);
    expect(y).toBeGreaterThan(0);
    expect(y).toBeLessThan(picture.heightPixels);
  }
  // S is on the left of L, whatever way the crowd looks.
  const meanX = (character: string): number => {
    const its = wordPicture(
      trails.filter((trail) => trail.character === character),
      { ...STYLE, facingRadians: plan.frame.facingRadians },
    );
    return its === null ? NaN : its.widthPixels;
  };
  expect(meanX('S')).toBe(1600);
  const paths = picture.pathData.split('M').slice(1);
  const xOf = (index: number): number => Number(paths[index]!.split(' ')[0]);
  const first = trails.findIndex(({ character }) => character === 'S');
  const last = trails.findIndex(({ character }) => character === 'L');
  expect(xOf(first)).toBeLessThan(xOf(last));
});

it('is nothing without smoke', () => {
  expect(wordPicture([], STYLE)).toBeNull();
});
