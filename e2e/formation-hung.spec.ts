import { expect, test } from '@playwright/test';
import { writeJob } from '../src/core/job/write-job.ts';
import { formationJob } from './flight/fly-formation.ts';
import { openJobs } from './stored-jobs.ts';
import { flyUntil } from './write-flight.ts';

test('a ship of a formation hangs the word by the lead’s figures, and refuses those that do not fit their check', async ({ page }) => {
  const job = formationJob('JOY');
  await page.clock.install();
  await openJobs(page);
  await page.getByLabel('Job files to import').setInputFiles([{ name: 'job.json', mimeType: 'application/json', buffer: Buffer.from(writeJob(job)) }]);
  await expect(page.getByRole('article', { name: job.name })).toHaveCount(1);
  await page.goto(`./#/write/${job.id}`);
  await page.getByLabel('This ship is').selectOption('0');
  await page.getByRole('radio', { name: /Time hack/ }).check();
  await page.getByLabel('First smoke after the call').selectOption('600');
  await page.getByLabel(/^Pace/).fill('1');
  await page.getByRole('button', { name: /^Start/ }).click();
  await flyUntil(page, ({ height }) => height !== '' && height !== undefined, 30);
  const hung = page.locator('[data-figure="formation-hung"]');
  await expect(hung).toHaveAttribute('data-value', 'as briefed');
  await hung.click();
  const typed = page.getByLabel('Lead’s figures');
  await typed.fill('098 225 0');
  await page.getByRole('button', { name: 'Hang', exact: true }).click();
  await expect(page.getByText('The check figure does not fit')).toBeVisible();
  await expect(hung).toHaveAttribute('data-value', 'as briefed');
  await typed.fill('098 224 0');
  await typed.press('Enter');
  await expect(hung).toHaveAttribute('data-value', 'for 098 224 0');
  await expect(page.getByText('The check figure does not fit')).toHaveCount(0);
  // The lead finds the wind on its circle, and has it to say.
  await expect(async () => {
    await flyUntil(page, () => true);
    await expect(hung).toContainText(/Found \d{3} \d{3} \d: say it/, { timeout: 50 });
  }).toPass({ timeout: 150_000, intervals: [0] });
  await expect(typed).toHaveCount(0);
  if (process.env['QUILLWIND_SHOTS'] !== undefined) {
    for (const [width, height] of [
      [1024, 768],
      [768, 1024],
      [390, 844],
      [320, 640],
    ] as const) {
      await page.setViewportSize({ width, height });
      await page.clock.runFor(300);
      await page.screenshot({ path: `${process.env['QUILLWIND_SHOTS']}/hung-${width}.png` });
    }
  }
  await hung.click();
  await page.getByRole('button', { name: 'As briefed' }).click();
  await expect(hung).toHaveAttribute('data-value', 'as briefed');
});
