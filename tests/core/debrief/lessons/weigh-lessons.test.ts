import { fc } from '../../../property.ts';
import { describe, expect, it } from 'vitest';
import { oilFlowLesson } from '../../../../src/core/debrief/lessons/oil-flow.ts';
import { weighLessons } from '../../../../src/core/debrief/lessons/weigh-lessons.ts';
import type { ShipDebrief } from '../../../../src/core/debrief/ship-debrief.ts';

describe('lessons of several flights', () => {
  it('weigh by the inverse square of their errors where flights agree', () => {
    const together = weighLessons([
      { value: 1, sigma: 0.2, count: 5 },
      { value: 1.1, sigma: 0.1, count: 7 },
    ]);
    // 25 and 100: (25 * 1 + 100 * 1.1) / 125, error 1 / sqrt(125).
    expect(together?.value).toBeCloseTo(1.08, 9);
    expect(together?.sigma).toBeCloseTo(1 / Math.sqrt(125), 9);
    expect(together?.count).toBe(12);
  });

  it('count alike where flights disagree by far more than their errors, and say that it is unsure', () => {
    const together = weighLessons([
      { value: 0, sigma: 0.01, count: 9 },
      { value: 2, sigma: 0.2, count: 3 },
    ]);
    expect(together?.value).toBeCloseTo(1, 1);
    expect(together?.sigma).toBeGreaterThan(0.9);
  });

  it('lie among what they are made of; one is itself; none is nothing', () => {
    expect(weighLessons([])).toBeNull();
    expect(weighLessons([{ value: 3, sigma: 0.5, count: 4 }])).toEqual({ value: 3, sigma: 0.5, count: 4 });
    const lesson = fc.record({
      value: fc.double({ min: -50, max: 50, noNaN: true }),
      sigma: fc.double({ min: 0, max: 5, noNaN: true }),
      count: fc.integer({ min: 1, max: 30 }),
    });
    fc.assert(
      fc.property(fc.array(lesson, { minLength: 1, maxLength: 9 }), (lessons) => {
        const { value, sigma } = weighLessons(lessons)!;
        expect(value).toBeGreaterThanOrEqual(Math.min(...lessons.map((each) => each.value)) - 1e-6);
        expect(value).toBeLessThanOrEqual(Math.max(...lessons.map((each) => each.value)) + 1e-6);
        expect(Number.isFinite(sigma)).toBe(true);
      }),
    );
  });
});

it('reckons the oil a minute from the tank before and after', () => {
  const debrief = {
    intervals: [
      { onSeconds: 0, offSeconds: 240 },
      { onSeconds: 300, offSeconds: 420 },
    ],
  } as unknown as Pick<ShipDebrief, 'intervals'>;
  expect(oilFlowLesson(debrief, 400, 130, 40)?.suggested.value).toBeCloseTo(45, 9);
  expect(oilFlowLesson(debrief, 400, 410, 40)).toBeNull();
  expect(oilFlowLesson({ intervals: [] }, 400, 100, 40)).toBeNull();
});
