import { describe, expect, test, vi } from 'vitest';
import { DEMO_JOB } from '../../src/core/job/demo-job.ts';
import { readArtwork } from '../../src/workers/artwork-reader-client.ts';
import type { OffPage } from '../../src/workers/off-page.ts';
import { answerArtwork, type ArtworkAnswer, type ArtworkRequest } from '../../src/workers/artwork-service.ts';
import { processorMilliseconds } from '../processor-time.ts';

const CIRCLE = '<svg xmlns="http://www.w3.org/2000/svg"><circle cx="5" cy="5" r="4"/><text>Ondine</text></svg>';
const request = (svgText: string, depthMetres = 1200): ArtworkRequest => ({
  job: DEMO_JOB,
  svgText,
  depthMetres,
  turnRadiusMetres: 293,
  changed: true,
  middles: true,
});

/** A worker that runs the service at once, on the page. */
function workerWith(serve: (request: ArtworkRequest, answer: (answer: ArtworkAnswer) => void) => void) {
  const terminate = vi.fn();
  const services = { readArtwork: async (asked: ArtworkRequest, answer: (answer: ArtworkAnswer) => void) => serve(asked, answer) };
  const start = (): OffPage => ({ services: services as unknown as OffPage['services'], broken: new Promise(() => {}), end: terminate });
  return { start, terminate };
}

function answersTo(asked: ArtworkRequest): { readonly answers: ArtworkAnswer[]; readonly ended: number } {
  const { start, terminate } = workerWith(answerArtwork);
  const answers: ArtworkAnswer[] = [];
  readArtwork(asked, (answer) => answers.push(answer), start);
  return { answers, ended: terminate.mock.calls.length };
}

describe('a drawing read off the page', () => {
  test('says what can be flown, then in which order, and ends the worker', () => {
    const { answers, ended } = answersTo(request(CIRCLE));
    expect(answers.map(({ kind }) => kind)).toEqual(['read', 'planned']);
    expect(answers[0]).toMatchObject({ passedOver: ['text'], artwork: { flyableShare: 1, unflyable: [] } });
    // A circle of 1,200 m flown round at the demo ship's 104.3 kt, and nothing else.
    const seconds = answers[1]?.kind === 'planned' ? answers[1].plan?.durationSeconds : undefined;
    expect(seconds).toBeCloseTo((Math.PI * 1200) / (104.3 * (1852 / 3600)), 0);
    expect(ended).toBe(1);
  });

  test('marks what is too tight, and has no plan where nothing can be flown', () => {
    const { answers } = answersTo(request(CIRCLE, 400));
    expect(answers[0]).toMatchObject({ artwork: { flyableShare: 0, unflyable: [{ problem: 'too-tight', reason: 'Turns on 200 m; the ship needs 293 m.' }] } });
    expect(answers[1]).toEqual({ kind: 'planned', plan: null });
  });

  test('answers 100,000 points, entities and broken files with a reason in under 2 s', () => {
    const points = Array.from({ length: 100_000 }, (_, index) => `${(index * 7919) % 1009},${(index * 104_729) % 997}`).join(' ');
    const startedAt = processorMilliseconds();
    for (const text of [`<svg><polyline points="${points}"/></svg>`, '<!DOCTYPE svg [<!ENTITY a "b">]><svg/>', '<svg><path d="M0 0', '<svg/>', 'M0 0L1 1']) {
      const { answers, ended } = answersTo(request(text));
      expect(answers.map(({ kind }) => kind)).toEqual(['refused']);
      expect(answers[0]?.kind === 'refused' ? answers[0].reason : '').toMatch(/[A-Z].{15,}\.$/);
      expect(ended).toBe(1);
    }
    expect(processorMilliseconds() - startedAt).toBeLessThan(2000);
  });

  test('kills a worker that hangs, after two seconds, and says nothing once ended', () => {
    vi.useFakeTimers();
    const hanging = workerWith(() => {});
    const answers: ArtworkAnswer[] = [];
    readArtwork(request(CIRCLE), (answer) => answers.push(answer), hanging.start);
    vi.advanceTimersByTime(1900);
    expect(answers).toEqual([]);
    vi.advanceTimersByTime(200);
    expect(answers).toMatchObject([{ kind: 'refused', reason: expect.stringContaining('within 2 s') as string }]);
    expect(hanging.terminate).toHaveBeenCalledOnce();
    readArtwork(request(CIRCLE), (answer) => answers.push(answer), hanging.start)();
    vi.advanceTimersByTime(30_000);
    expect(answers).toHaveLength(1);
    vi.useRealTimers();
  });
});
