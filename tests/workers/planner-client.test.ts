import { expose } from 'comlink';
import { afterEach, describe, expect, test } from 'vitest';
import { DEMO_JOB } from '../../src/core/job/demo-job.ts';
import type { Job } from '../../src/core/job/job.ts';
import { planJob } from '../../src/core/plan/plan-job.ts';
import { offPageOn } from '../../src/workers/off-page.ts';
import { type PlannerClient, startPlanner } from '../../src/workers/planner-client.ts';
import { createPlannerService } from '../../src/workers/planner-service.ts';

// The service behind a message channel: everything crosses by structured clone, as between page and worker.
const channels: MessageChannel[] = [];
function connected(): PlannerClient {
  const channel = new MessageChannel();
  channels.push(channel);
  expose({ planner: createPlannerService() }, channel.port1);
  return startPlanner(offPageOn(channel.port2, 'planner'));
}
afterEach(() => {
  for (const { port1, port2 } of channels.splice(0)) {
    port1.close();
    port2.close();
  }
});

const LONG: Job = { ...DEMO_JOB, text: 'HAPPYBIRTHDAYDOLPHIN', options: { ...DEMO_JOB.options, letterOrder: 'free', progress: 'free' } };
const never = new AbortController().signal;

describe('the planner off the page', () => {
  test('gives the answer that the page gives', async () => {
    expect(await connected().planJob(DEMO_JOB, () => undefined, never)).toEqual(planJob(DEMO_JOB));
  });

  test('passes a problem on as a problem', async () => {
    expect(await connected().planJob({ ...DEMO_JOB, text: ' ' }, () => undefined, never)).toMatchObject({ ok: false, problem: { kind: 'text' } });
  });

  test('reports progress that never goes back', async () => {
    const fractions: number[] = [];
    await connected().planJob(LONG, (fraction) => fractions.push(fraction), never);
    expect(fractions.length).toBeGreaterThan(3);
    fractions.forEach((fraction, index) => {
      expect(fraction).toBeGreaterThanOrEqual(index === 0 ? 0 : fractions[index - 1]!);
      expect(fraction).toBeLessThanOrEqual(1);
    });
  });

  test('stops when told, at once for the caller and within a breath for the worker, and plans the next', async () => {
    const client = connected();
    const stopper = new AbortController();
    let reports = 0;
    const run = client.planJob(
      LONG,
      () => {
        reports += 1;
        if (reports === 2) stopper.abort(new Error('changed'));
      },
      stopper.signal,
    );
    await expect(run).rejects.toThrow('changed');
    const reportsThen = reports;
    expect((await client.planJob(DEMO_JOB, () => undefined, never)).ok).toBe(true);
    expect(reports).toBe(reportsThen);
  });

  test('the worker itself leaves a stopped run, and leaves others alone', async () => {
    const service = createPlannerService();
    const answers = [service.plan(1, LONG, () => service.stop(1)), service.plan(2, DEMO_JOB, () => undefined)] as const;
    expect(await answers[0]).toBeNull();
    expect((await answers[1])?.ok).toBe(true);
  });

  test('a run stopped before it began does not begin', async () => {
    const stopper = new AbortController();
    stopper.abort(new Error('too late'));
    await expect(connected().planJob(DEMO_JOB, () => undefined, stopper.signal)).rejects.toThrow('too late');
  });

  test('a worker that breaks off rejects what it was doing and what comes after', async () => {
    const channel = new MessageChannel();
    channels.push(channel);
    const client = startPlanner(offPageOn(channel.port2, 'planner'));
    const run = client.planJob(DEMO_JOB, () => undefined, never);
    channel.port2.dispatchEvent(new Event('error'));
    await expect(run).rejects.toThrow('broke off');
    await expect(client.planJob(DEMO_JOB, () => undefined, never)).rejects.toThrow('broke off');
  });
});
