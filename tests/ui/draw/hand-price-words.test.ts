import { expect, it } from 'vitest';
import { DEMO_JOB } from '../../../src/core/job/demo-job.ts';
import { planJob } from '../../../src/core/plan/plan-job.ts';
import { readingOf } from '../../../src/core/sky/reading-of.ts';
import { unitText } from '../../../src/core/text/unit-text.ts';
import { handPriceWords } from '../../../src/ui/draw/hand-price-words.ts';
import { readsText } from '../../../src/ui/words/reads-text.ts';

it('tells how long a hand reads by the same range as what the plan takes', () => {
  const planned = planJob(DEMO_JOB);
  if (!planned.ok) throw new Error(JSON.stringify(planned.problem));
  const { window } = readingOf(planned.value, null);
  const reads = / for \d+ to \d+ min/;
  const [told] = reads.exec(readsText(window)) ?? ['nothing'];
  expect(handPriceWords(planned.value.plan, window, unitText())).toMatch(new RegExp(String.raw`^\d+:\d\d, \d+ lb of oil, reads${told}$`));
  expect(handPriceWords(planned.value.plan, { ...window, fromSeconds: window.until.highSeconds }, unitText())).toMatch(/, never reads as a whole$/);
});
