import { readFileSync } from 'node:fs';
import { expect, type Page, test } from '@playwright/test';
import { DEMO_JOB } from '../src/core/job/demo-job.ts';
import { writeJob } from '../src/core/job/write-job.ts';
import { openJobs, putRaw, storedJobIds } from './stored-jobs.ts';

const SPRING = { ...DEMO_JOB, id: 'spring', name: 'Spring fair', text: 'SPRING' };

interface TestFile {
  readonly name: string;
  readonly mimeType: string;
  readonly buffer: Buffer;
}

const file = (name: string, content: string | Buffer): TestFile => ({ name, mimeType: 'application/json', buffer: Buffer.from(content as string) });

async function importFiles(page: Page, ...files: readonly TestFile[]): Promise<void> {
  await page.getByLabel('Job files to import').setInputFiles([...files]);
}

async function drop(page: Page, name: string, content: string): Promise<void> {
  const transfer = await page.evaluateHandle(
    ([fileName, text]) => {
      const data = new DataTransfer();
      data.items.add(new File([text], fileName, { type: 'application/json' }));
      return data;
    },
    [name, content] as const,
  );
  await page.locator('.jobs').dispatchEvent('drop', { dataTransfer: transfer });
}

test.describe('the Jobs screen', () => {
  test.beforeEach(async ({ page }) => {
    await openJobs(page);
  });

  test('shows the demo job once, its word drawn, and does not bring it back when it was deleted', async ({ page }) => {
    const card = page.getByRole('article', { name: /Lake Ondine Regatta/ });
    await expect(card).toHaveCount(1);
    await expect(card.getByRole('img', { name: 'SAIL' }).locator('path.ink')).not.toHaveCount(0);
    await expect(card).toContainText('Sat 19 Jun 2027, 13:30 EDT');
    await card.getByRole('button', { name: 'Delete' }).click();
    await expect(card).toHaveCount(0);
    await page.reload();
    await expect(page.getByText('No jobs are stored on this device.')).toBeVisible();
  });

  test('makes a new job and opens its plan', async ({ page }) => {
    await page.getByRole('button', { name: 'New job' }).click();
    await expect(page).toHaveURL(/#\/draw\/[0-9a-f]{16}$/);
    await page.getByRole('link', { name: 'Jobs' }).click();
    await expect(page.getByRole('article', { name: 'New job' })).toBeVisible();
    expect(await storedJobIds(page)).toHaveLength(2);
  });

  test('copies, deletes and undoes, in the store too', async ({ page }) => {
    await page.getByRole('button', { name: 'Duplicate' }).click();
    const copy = page.getByRole('article', { name: 'Lake Ondine Regatta (demo) (copy)' });
    await expect(copy).toBeVisible();
    await copy.getByRole('button', { name: 'Delete' }).click();
    await expect(copy).toHaveCount(0);
    expect(await storedJobIds(page)).toEqual(['lake-ondine']);
    await page.getByRole('button', { name: 'Undo' }).click();
    await expect(copy).toBeVisible();
    await page.reload();
    await expect(copy).toBeVisible();
  });

  test('takes a job file by picker and by drop, and the same file again changes nothing', async ({ page }) => {
    await importFiles(page, file('spring.json', writeJob(SPRING)));
    await expect(page.getByRole('status').filter({ hasText: 'Imported: Spring fair.' })).toBeVisible();
    await expect(page.getByRole('article', { name: 'Spring fair' })).toHaveCount(1);
    await drop(page, 'autumn.json', writeJob({ ...SPRING, id: 'autumn', name: 'Autumn fair' }));
    await expect(page.getByRole('article', { name: 'Autumn fair' })).toHaveCount(1);
    await importFiles(page, file('spring.json', writeJob(SPRING)));
    await page.waitForTimeout(300);
    await expect(page.getByRole('article')).toHaveCount(3);
    // Another job under a known id stands beside it.
    await importFiles(page, file('spring2.json', writeJob({ ...SPRING, name: 'Spring fair, moved' })));
    await expect(page.getByRole('article', { name: 'Spring fair, moved' })).toBeVisible();
    await expect(page.getByRole('article', { name: 'Spring fair', exact: true })).toBeVisible();
    expect(await storedJobIds(page)).toHaveLength(4);
  });

  const good = writeJob(SPRING);
  const refusals: readonly (readonly [what: string, content: string | Buffer, reason: string])[] = [
    ['an empty file', '', 'This file is empty.'],
    ['a cut-off file', good.slice(0, 700), 'This file is not whole JSON'],
    ['a picture', Buffer.from([0x89, 0x50, 0x4e, 0x47, 0xff, 0xfe, 0x00]), 'This is not a job file'],
    ['another kind of JSON', '{"type":"FeatureCollection","features":[]}', 'This is not a job file'],
    ['a newer version', good.replace('"version": 1', '"version": 7'), 'written by a newer version of Quillwind'],
    [
      'a slipped digit',
      good.replace('"trueAirspeedKnots": 104.3', '"trueAirspeedKnots": 1043'),
      'ships[0].trueAirspeedKnots must be a number from 30 to 400; it is 1043.',
    ],
    ['an infinite number', good.replace('"heightFeet": 3937', '"heightFeet": 1e999'), 'letters.heightFeet must be a number from 100 to 20000'],
    ['a missing group', good.replace('"site"', '"sight"'), 'site is missing.'],
    ['2 MB', good.replace('"notes": "', `"notes": "${'x'.repeat(2_000_000)}`), 'larger than 1 MB'],
    ['a million brackets', '['.repeat(999_000), 'nested more than 32 levels'],
    ['a hundred thousand faults', good.replace('"winds": [', `"winds": [${'{},'.repeat(200_000)}`), 'winds must be a list of at most 60'],
  ];
  for (const [what, content, reason] of refusals) {
    test(`refuses ${what} within 2 s with a reason, and changes nothing`, async ({ page }) => {
      const before = await storedJobIds(page);
      // Measured in the page: how long a test takes to hand over 2 MB is not the app's.
      const refusedAfter = await page.evaluateHandle(() => {
        const timing = { chosenMilliseconds: Number.NaN, refusedMilliseconds: Number.NaN };
        document.querySelector('input[type=file]')?.addEventListener('change', () => (timing.chosenMilliseconds = performance.now()), { capture: true });
        new MutationObserver(() => {
          if (Number.isNaN(timing.refusedMilliseconds) && document.querySelector('[role=alert]') !== null) timing.refusedMilliseconds = performance.now();
        }).observe(document.body, { subtree: true, childList: true });
        return timing;
      });
      await importFiles(page, file('from-a-friend.json', content));
      const alert = page.getByRole('alert');
      await expect(alert).toContainText(reason);
      const { chosenMilliseconds, refusedMilliseconds } = await refusedAfter.jsonValue();
      expect(refusedMilliseconds - chosenMilliseconds).toBeLessThan(2000);
      await expect(alert).toContainText('Nothing was imported');
      await expect(alert).toContainText('from-a-friend.json');
      expect(await storedJobIds(page)).toEqual(before);
      await expect(page.getByRole('article')).toHaveCount(1);
    });
  }

  test('takes all files or none', async ({ page }) => {
    await importFiles(page, file('good.json', good), file('bad.json', good.slice(0, 99)));
    await expect(page.getByRole('alert')).toContainText('bad.json');
    await expect(page.getByRole('alert')).toContainText('The other files are in order (1)');
    expect(await storedJobIds(page)).toEqual(['lake-ondine']);
  });

  test('shows a hostile name as text and nothing more', async ({ page }) => {
    const hostile = { ...SPRING, name: '<img src=x onerror="document.title=1">\u202Egnitar\u0000', notes: '<script>document.title=2</script>' };
    await importFiles(page, file('<b>bold<b>.json', JSON.stringify(hostile)));
    await expect(page.getByRole('heading', { name: '<img src=x onerror="document.title=1">gnitar' })).toBeVisible();
    expect(await page.locator('img').count()).toBe(0);
    await expect(page).toHaveTitle('Jobs \u2013 Quillwind');
  });

  test('gives a job away as a file that comes back the same', async ({ page }) => {
    const downloading = page.waitForEvent('download');
    await page.getByRole('button', { name: 'Export' }).click();
    const download = await downloading;
    expect(download.suggestedFilename()).toBe('lake-ondine-regatta-demo.json');
    const text = readFileSync(await download.path(), 'utf8');
    expect(text).toBe(writeJob(DEMO_JOB));
    await page.getByRole('button', { name: 'Delete' }).click();
    await expect(page.getByRole('article')).toHaveCount(0);
    await importFiles(page, file('back.json', text));
    await expect(page.getByRole('article', { name: /Lake Ondine Regatta/ })).toBeVisible();
    expect(await storedJobIds(page)).toEqual(['lake-ondine']);
  });

  test('names damaged jobs and leaves them as they are', async ({ page }) => {
    await putRaw(page, 'jobs', { id: 'torn', name: 'Harbour night', savedAtMilliseconds: 1, fileText: '{"format":"quillwind-job","ver' });
    await page.reload();
    const alert = page.getByRole('alert');
    await expect(alert).toContainText('One stored job cannot be read');
    await expect(alert).toContainText('Harbour night');
    await expect(page.getByRole('article')).toHaveCount(1);
    expect(await storedJobIds(page)).toEqual(['lake-ondine', 'torn']);
  });
});

test('a store that cannot be opened is said, and is no empty list', async ({ page }) => {
  await page.addInitScript(() => {
    IDBFactory.prototype.open = () => {
      throw new DOMException('injected', 'UnknownError');
    };
  });
  await page.goto('./');
  await expect(page.getByRole('alert')).toContainText('The stored jobs cannot be read');
  await expect(page.getByText('No jobs are stored')).toHaveCount(0);
  await expect(page.getByRole('button', { name: 'Try again' })).toBeVisible();
});

for (const [answer, words] of [
  [true, 'kept until you delete it'],
  [false, 'the browser may clear it; install the app, and export what matters'],
] as const) {
  test(`the browser is asked to keep the data, and its answer ${answer} is shown`, async ({ page }) => {
    await page.addInitScript((kept) => {
      Object.defineProperty(window, 'persistAsked', { value: 0, writable: true });
      StorageManager.prototype.persisted = () => Promise.resolve(false);
      StorageManager.prototype.persist = () => {
        (window as unknown as { persistAsked: number }).persistAsked += 1;
        return Promise.resolve(kept);
      };
    }, answer);
    await openJobs(page);
    await expect(page.locator('[data-persistence]')).toContainText(words);
    expect(await page.evaluate(() => (window as unknown as { persistAsked: number }).persistAsked)).toBe(1);
  });
}

test('the browser is not asked anything while a flight is in progress', async ({ page }) => {
  await page.addInitScript(() => {
    Object.defineProperty(window, 'persistAsked', { value: 0, writable: true });
    StorageManager.prototype.persisted = () => Promise.resolve(false);
    StorageManager.prototype.persist = () => {
      (window as unknown as { persistAsked: number }).persistAsked += 1;
      return Promise.resolve(true);
    };
  });
  const asked = (): Promise<number> => page.evaluate(() => (window as unknown as { persistAsked: number }).persistAsked);
  await openJobs(page);
  await expect.poll(asked).toBe(1);
  const flight = {
    id: 'f',
    jobId: 'lake-ondine',
    name: 'F',
    kind: 'flight',
    startedAtMilliseconds: Date.now(),
    endedAtMilliseconds: null,
    jobFileText: '{}',
    setupText: '{}',
  };
  await putRaw(page, 'flights', flight);
  await page.reload();
  await page.getByRole('heading', { name: /Lake Ondine Regatta/ }).waitFor();
  await page.waitForTimeout(800);
  expect(await asked()).toBe(0);
});

test('an app installed on iOS gives files to the share sheet and starts no download', async ({ page }) => {
  await page.addInitScript(() => {
    Object.defineProperty(navigator, 'standalone', { value: true });
    Object.defineProperty(window, 'sharedFiles', { value: [] });
    navigator.canShare = () => true;
    navigator.share = (data) => {
      (window as unknown as { sharedFiles: string[] }).sharedFiles.push(...(data?.files ?? []).map(({ name }) => name));
      return Promise.resolve();
    };
  });
  let downloads = 0;
  page.on('download', () => (downloads += 1));
  await openJobs(page);
  await page.getByRole('button', { name: 'Export' }).click();
  await expect.poll(() => page.evaluate(() => (window as unknown as { sharedFiles: string[] }).sharedFiles)).toEqual(['lake-ondine-regatta-demo.json']);
  expect(downloads).toBe(0);
});
