import { expect, test } from '@playwright/test';
import { openJobs } from './stored-jobs.ts';

test('a receiver over Bluetooth is chosen by a touch, heard, and flown with', async ({ page }) => {
  await page.addInitScript(() => {
    // A radio that says where it is once a second, twenty bytes at a time, by the sentences of NMEA 0183.
    const value = Object.assign(new EventTarget(), { value: null as DataView | null, startNotifications: async () => {} });
    const sum = (body: string): string =>
      [...body]
        .reduce((total, character) => total ^ character.charCodeAt(0), 0)
        .toString(16)
        .toUpperCase()
        .padStart(2, '0');
    const say = (body: string): void => {
      const bytes = new TextEncoder().encode(`$${body}*${sum(body)}\r\n`);
      for (let at = 0; at < bytes.length; at += 20) {
        value.value = new DataView(bytes.slice(at, at + 20).buffer);
        value.dispatchEvent(new Event('characteristicvaluechanged'));
      }
    };
    let second = 0;
    setInterval(() => {
      const time = new Date().toISOString().slice(11, 22).replaceAll(':', '');
      second += 1;
      const latitude = (54 + second * 0.03).toFixed(4).padStart(7, '0');
      say(`GNGGA,${time},43${latitude},N,07425.9000,W,1,12,0.7,3200.0,M,0.0,M,,`);
      say(`GNRMC,${time},A,43${latitude},N,07425.9000,W,104.0,000.0,190627,,,A`);
    }, 1000);
    const device = Object.assign(new EventTarget(), {
      name: 'Panel receiver',
      gatt: { connect: async () => ({ getPrimaryService: async () => ({ getCharacteristic: async () => value }) }), disconnect: () => {} },
    });
    Object.defineProperty(navigator, 'bluetooth', { value: { requestDevice: async () => device } });
  });
  await openJobs(page);
  await page.getByRole('link', { name: 'Write', exact: true }).first().click();
  await page
    .getByRole('radio', { name: /^Fly|device/i })
    .first()
    .check({ force: true });
  await page.getByRole('button', { name: 'Receiver over Bluetooth' }).click();
  await expect(page.locator('[data-receiver="GN"]')).toContainText(/GN: .*1\.0 a second/, { timeout: 15_000 });
  await page
    .getByRole('button', { name: /^Start/ })
    .first()
    .click();
  await expect(page.locator('[data-cue="fix-age"]')).toHaveAttribute('data-value', /^[0-2]\.\d$/, { timeout: 15_000 });
});
