import { expect, type Page, test } from '@playwright/test';
import { writeJob } from '../src/core/job/write-job.ts';
import { HARD_JOBS } from './hard-jobs.ts';
import { openJobs, putRaw, storedJobText } from './stored-jobs.ts';

/** Nothing of the machine may stand where a pilot reads. */
const OF_THE_MACHINE = /NaN|Infinity|undefined|\bnull\b|\[object|RangeError|TypeError|Invalid Date/;
const PANES = ['In the sky', 'Over the ground', 'The day', 'Layers', 'Go or no-go'];

const shownText = (page: Page): Promise<string> =>
  page.evaluate(
    () =>
      `${document.body.innerText}\n${[...document.querySelectorAll('[aria-label], [data-value], svg path')].map((each) => `${each.getAttribute('aria-label') ?? ''} ${each.getAttribute('data-value') ?? ''} ${/NaN|Infinity/.test(each.getAttribute('d') ?? '') ? 'NaN in a path' : ''}`).join('\n')}`,
  );

/** What a person must be told, on the Draw screen or on the card. */
const TOLD: Readonly<Record<string, { readonly plan: RegExp; readonly card: RegExp }>> = {
  'polar-day': { plan: /polar day/, card: /19 June 2027|20 June 2027/ },
  'polar-night': { plan: /The sun is down/, card: /21 December 2027/ },
  antimeridian: { plan: /from Reef light/, card: /179°\s\d\d\.\d\d′\s[EW]/ },
  calm: { plan: /Drift in all\s+0\.0/, card: /000°T \/ 0 kt|calm/ },
  gale: { plan: /No-go, as it stands/, card: /80 kt/ },
  inversion: { plan: /stable air/, card: /12 kt/ },
  'no-winds': { plan: /No wind at the layer: no winds are given/, card: /No wind at the layer/ },
  'high-site': { plan: /Not over people below the minimum heights/, card: /10,500 ft/ },
};

test.describe('a job at an edge', () => {
  for (const { job, in: edge } of HARD_JOBS.filter(({ job: { id } }) => id in TOLD)) {
    test(`in ${edge} is planned and briefed in words a person can act on, and kept as it was`, async ({ page }) => {
      page.setDefaultTimeout(20_000);
      const faults: string[] = [];
      page.on('pageerror', ({ message }) => faults.push(message));
      await openJobs(page);
      await putRaw(page, 'jobs', { id: job.id, name: job.name, savedAtMilliseconds: 1, fileText: writeJob(job) });
      await page.goto(`./#/draw/${job.id}`);
      await page.reload();
      await expect(page.locator('.plan-strip[data-state="planned"]')).toBeVisible({ timeout: 30_000 });
      const said: string[] = [];
      for (const pane of PANES) {
        await page.getByRole('radio', { name: pane, exact: true }).check();
        if (pane === 'The day') await expect(page.locator('.day-best-cells li').first()).toBeVisible({ timeout: 60_000 });
        if (pane === 'Layers') await expect(page.locator('tbody.layer')).toHaveCount(21, { timeout: 60_000 });
        if (pane === 'Go or no-go') await expect(page.locator('[data-check="daylight"]')).toBeVisible();
        if (pane === 'Over the ground') await expect(page.locator('[data-figure="first-smoke"]')).toBeVisible();
        said.push(await shownText(page));
      }
      await page.goto(`./#/brief/${job.id}`);
      const card = page.getByRole('article', { name: /^Card of/ }).first();
      await expect(card).toBeVisible({ timeout: 30_000 });
      await expect(card).toContainText(TOLD[job.id]!.card);
      said.push(await shownText(page));
      for (const page_ of ['Controller', 'Client']) {
        await page.getByRole('button', { name: page_ }).click();
        await expect(page.getByRole('article').first()).toBeVisible();
        said.push(await shownText(page));
      }
      expect(said.join('\n')).toMatch(TOLD[job.id]!.plan);
      for (const text of said) expect(OF_THE_MACHINE.exec(text)?.[0]).toBeUndefined();
      expect(faults).toEqual([]);
      expect(await storedJobText(page, job.id)).toBe(writeJob(job));
    });
  }
});
