import 'fake-indexeddb/auto';
import { planningProblem } from '../../src/app/planning-problem.ts';
import { describe, expect, it } from 'vitest';
import { createPlanner, planOrReason } from '../../src/app/planner.ts';
import { DEMO_JOB } from '../../src/core/job/demo-job.ts';
import type { Job } from '../../src/core/job/job.ts';
import { planJob } from '../../src/core/plan/plan-job.ts';
import { unitText } from '../../src/core/text/unit-text.ts';
import { createDatabase } from '../../src/store/database.ts';
import { saveSetting } from '../../src/store/settings.ts';

function bench() {
  const asked: string[] = [];
  let starts = 0;
  let breaking = false;
  const planner = createPlanner(async () => {
    starts += 1;
    return {
      planJob: async (job: Job) => {
        asked.push(job.text);
        if (breaking) throw new Error('gone');
        return planJob(job);
      },
      dispose: () => {},
    };
  });
  return { planner, asked, starts: () => starts, breakOff: (now: boolean) => void (breaking = now) };
}

describe('the one planner', () => {
  it('makes a plan once for all who ask, and asks again for what the plan depends on', async () => {
    const { planner, asked } = bench();
    const [first, second] = [await planner.plan(DEMO_JOB), await planner.plan(structuredClone(DEMO_JOB))];
    expect(asked).toEqual(['SAIL']);
    expect(first.ok && second.ok && first.value.plan === second.value.plan).toBe(true);
    await planner.plan({ ...DEMO_JOB, facingDegreesTrue: 20 });
    expect(asked).toHaveLength(2);
  });

  it('puts the air of the asked job beside a kept plan: its visibility may have been looked up since', async () => {
    const { planner, asked } = bench();
    await planner.plan(DEMO_JOB);
    const seen = await planner.plan({ ...DEMO_JOB, conditions: { altimeterHectopascals: null, visibilityStatuteMiles: 3, clouds: [] } });
    expect(asked).toHaveLength(1);
    expect(seen.ok && seen.value.air.visibilityMetres).toBeCloseTo(4828, 0);
  });

  it('forgets the oldest of many', async () => {
    const { planner, asked } = bench();
    const texts = [...'ABCDEFGHIJKLMNOPQRSTUVWXY', 'A'];
    for (const text of texts) await planner.plan({ ...DEMO_JOB, text });
    expect(asked).toEqual(texts);
    await planner.plan({ ...DEMO_JOB, text: 'Y' });
    expect(asked).toHaveLength(texts.length);
  });

  it('starts afresh after a worker broke off, and words the reason', async () => {
    const { planner, starts, breakOff } = bench();
    breakOff(true);
    expect(await planOrReason(planner, DEMO_JOB, createDatabase())).toEqual({ ok: false, reason: 'The planner broke off: gone. Load the page again.' });
    breakOff(false);
    expect((await planOrReason(planner, DEMO_JOB, createDatabase())).ok).toBe(true);
    expect(starts()).toBe(2);
  });

  it('says of a job without a plan what Draw says of it', async () => {
    const { planner } = bench();
    const database = createDatabase();
    const small = { ...DEMO_JOB, letters: { ...DEMO_JOB.letters, heightFeet: 400 } };
    const told = await planOrReason(planner, small, database);
    expect(told.ok ? '' : told.reason).toMatch(/^At 400 ft the . is too small to fly\. On Draw: Letters of [\d,]+ ft or more/);
    await saveSetting(database, 'units', { height: 'm', speed: 'a furlong' });
    const inMetres = await planOrReason(planner, small, database);
    expect(inMetres.ok ? '' : inMetres.reason).toMatch(/^At 122 m the . is too small to fly\. On Draw: Letters of [\d,]+ m or more.* kt true/);
  });
});

describe('what would let too small letters be written', () => {
  it('names the load and the stall of banks past 60 degrees', () => {
    const smallest = { heightMetres: 900, letterIndex: 0, character: 'O', radiusMetres: 160, neededBankRadians: 1.18, neededAirspeedMetresPerSecond: 39 };
    const { remedies } = planningProblem({ kind: 'too-small', smallest }, DEMO_JOB, unitText());
    // 1.18 rad is 67.6 degrees, rounded up to 68: 1 / cos 68 is 2.67, its root 1.63.
    expect(remedies[1]).toBe('or 68\u00b0 of bank while writing: 2.7 times the weight, stalling 63 % faster');
    expect(planningProblem({ kind: 'too-small', smallest: { ...smallest, neededBankRadians: 1 } }, DEMO_JOB, unitText()).remedies[1]).toBe(
      'or 58\u00b0 of bank while writing',
    );
  });
});
