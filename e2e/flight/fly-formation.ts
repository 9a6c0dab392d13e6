import { type Browser, expect, type Page } from '@playwright/test';
import type { Job } from '../../src/core/job/job.ts';
import { type JobPlan, planJob } from '../../src/core/plan/plan-job.ts';
import { linkUp, settled } from '../ground-pages.ts';
import type { GroundWire } from '../ground-wire.ts';
import { byFastClock, ordersFor, pressStart, startFlight, wordJob } from './fly-word.ts';
import { nearestAtOneHeight } from '../../tests/flight/judge-separation.ts';
import { uniformFrom } from '../../tests/flight/random.ts';
import type { PilotReport } from './pilot-in-page.ts';

/** What the ships of one formation truly did, each flown by a page of its own without a link. */
export interface FormationReport {
  readonly planned: JobPlan;
  readonly reports: readonly PilotReport[];
  /** Nearest any two truly came within 300 ft of each other's height, from the first fix until one of the two had left. */
  readonly nearestMetres: number;
  /** Ships on which the lead's figures were touched or typed, the lead among them. */
  readonly hungByFigures: number;
  /** What the lead said: `098 224 0`; null when it never did. */
  readonly figures: string | null;
  /** Ships whose screens told of a ship by another time, by their indexes. */
  readonly toldOfAnotherTime: readonly number[];
}

/** A link between the pages, and one ship whose hack is pressed late. */
export interface LinkedPages {
  /** By which each ship reaches the broker, and its name there. */
  readonly wires: readonly { readonly name: string; readonly wire: GroundWire }[];
  readonly lateHack: { readonly shipIndex: number; readonly seconds: number };
  /** A ship that is told that the lead has another time takes it by a touch; otherwise nobody does anything about it. */
  readonly takesLeadsTime: boolean;
}

const FIRST_SMOKE_AFTER_CALL_SECONDS = 600;
/** How long after the call each pilot presses: up to 2 s apart. */
const PRESSES_AFTER_SECONDS = [1, 0.1, 2.1];
/** Ships come from anywhere within this of the site. */
const ANYWHERE_METRES = 8000;
const FEET_PER_METRE = 1 / 0.3048;
const STEP_SECONDS = 20;
const LOOKS_EVERY_SECONDS = 5;
const LONGEST_SECONDS = 3000;

/** A job of the demo's with another word and three ships alike. */
export function formationJob(word: string): Job {
  const job = wordJob(word);
  const [lead] = job.ships;
  return { ...job, id: `three-${word.toLowerCase()}`, name: `Three ships, ${word}`, ships: ['Lead', 'Two', 'Three'].map((name) => ({ ...lead!, name })) };
}

/**
 * Flies the ships of a job in pages that know nothing of each other: they take the time hack on a radio call, to which
 * the pilots' hands are up to 2 s apart, and share nothing but the air and the radio, on which the lead says for what it
 * hangs the word and the others type it up to 40 s later. With a link they share that as well, and nobody types anything.
 * Scripts: `pilot-in-page` and `fast-clock`.
 */
export async function flyFormationInPages(
  browser: Browser,
  scripts: readonly string[],
  job: Job,
  seed: number,
  forecastErrorKnots: number,
  linked: LinkedPages | null = null,
): Promise<FormationReport> {
  const planned = planJob(job);
  if (!planned.ok) throw new Error(`${job.text} has no plan: ${JSON.stringify(planned.problem)}`);
  const begun = await Promise.all(
    planned.value.plan.ships.map(async ({ shipIndex, ownHeightStepMetres }) => {
      const context = await browser.newContext({ baseURL: process.env['QUILLWIND_URL']!, permissions: ['geolocation', 'screen-wake-lock'] });
      const page = await context.newPage();
      for (const content of scripts) await page.addInitScript({ content });
      await startFlight(page, job, linked !== null);
      await page.getByLabel('This ship is').selectOption(String(shipIndex));
      await page.getByRole('radio', { name: /Time hack/ }).check();
      await page.getByLabel('First smoke after the call').selectOption(String(FIRST_SMOKE_AFTER_CALL_SECONDS));
      const wired = linked?.wires[shipIndex];
      if (wired !== undefined) {
        await linkUp({ page, name: wired.name }, wired.wire.address, 'Link this ship');
        await expect(page.locator('.ground-link')).toHaveAttribute('data-link', /./);
      }
      const orders = ordersFor(job, seed, forecastErrorKnots);
      const next = uniformFrom(seed * 101 + shipIndex);
      for (let drawn = 0; drawn < 5; drawn += 1) next();
      const away = ANYWHERE_METRES * Math.sqrt(next());
      const bearing = 2 * Math.PI * next();
      const world = {
        ...orders.world,
        seed: seed * 10 + shipIndex,
        windSeed: seed,
        rollRateDegreesPerSecond: 25 + 35 * next(),
        reactionSeconds: 0.3 + 0.9 * next(),
        startEastMetres: away * Math.sin(bearing),
        startNorthMetres: away * Math.cos(bearing),
        startHeadingDegrees: 360 * next(),
      };
      const height = {
        cardFeet: job.layer.altitudeFeet + (ownHeightStepMetres ?? 0) * FEET_PER_METRE,
        climbFeetPerMinute: 700,
        descentFeetPerMinute: 1500,
        reactionSeconds: 1,
      };
      const lateSeconds = linked?.lateHack.shipIndex === shipIndex ? linked.lateHack.seconds : 0;
      const pressesAfterSeconds = PRESSES_AFTER_SECONDS[shipIndex % PRESSES_AFTER_SECONDS.length]! + lateSeconds;
      await pressStart(page, { ...orders, world, height, keepsTrack: true }, byFastClock, pressesAfterSeconds);
      return { page, pressesAfterSeconds };
    }),
  );
  const pages = begun.map(({ page }) => page);
  // Messages reach a page in its own time: by the link all pages stand at the same moment after the call.
  const lastPress = Math.max(...begun.map(({ pressesAfterSeconds }) => pressesAfterSeconds));
  if (linked !== null) await Promise.all(begun.map(({ page, pressesAfterSeconds }) => byFastClock(page, (lastPress - pressesAfterSeconds) * 1000)));
  const radio = new Radio(linked === null ? pages : pages.slice(0, 1));
  const told = new Set<number>();
  const stepSeconds = linked === null ? STEP_SECONDS : 1;
  let flying = pages;
  for (let flown = 0; flown < LONGEST_SECONDS && flying.length > 0; flown += stepSeconds) {
    await Promise.all(flying.map((page) => byFastClock(page, stepSeconds * 1000)));
    if (linked !== null) await settled(linked.wires);
    await radio.listen();
    if (linked !== null && flown % LOOKS_EVERY_SECONDS === 0) for (const shipIndex of await hearOfTimes(pages, linked.takesLeadsTime)) told.add(shipIndex);
    const finished = await Promise.all(flying.map((page) => page.evaluate(() => window.flightPilot.isFinished())));
    flying = flying.filter((_, index) => finished[index] === false);
    // It stays on its circle for as long as nobody answers.
    if (linked !== null && !linked.takesLeadsTime && flying.every((page) => page === pages[linked.lateHack.shipIndex])) break;
  }
  const reports = await Promise.all(pages.map((page) => page.evaluate(() => window.flightPilot.report())));
  await Promise.all(pages.map((page) => page.context().close()));
  // All began at the call, in air that has drifted alike, so equal times and air coordinates belong together.
  const tracks = reports.map(({ track }) =>
    track.map(({ atSeconds, airEastMetres, airNorthMetres, heightFeet }) => ({
      atSeconds,
      eastMetres: airEastMetres,
      northMetres: airNorthMetres,
      heightFeet,
    })),
  );
  return {
    planned: planned.value,
    reports,
    nearestMetres: nearestAtOneHeight(tracks, Infinity)?.metres ?? Infinity,
    hungByFigures: radio.heardBy,
    figures: radio.figures,
    toldOfAnotherTime: [...told].toSorted((one, other) => one - other),
  };
}

/** Which pages tell of a ship by another time; a pilot who takes the lead's does so when it is offered. */
async function hearOfTimes(pages: readonly Page[], takesLeadsTime: boolean): Promise<number[]> {
  const told = await Promise.all(
    pages.map(async (page, index) => {
      const words = (await page.locator('.write-near, [data-figure="lead-time"]').allInnerTexts()).join(' ');
      if (!/’S TIME IS .* YOURS|Your time is .* lead’s/.test(words)) return [];
      const touch = page.getByRole('button', { name: 'Use lead’s time' });
      if (takesLeadsTime && (await touch.isVisible())) await touch.click();
      return [index];
    }),
  );
  return told.flat();
}

/** The lead reads out for what it hangs the word; one after another, each a step later, the others type it. */
class Radio {
  figures: string | null = null;
  private waiting: readonly Page[];
  private readonly lead: Page;
  heardBy = 0;

  constructor([lead, ...others]: readonly Page[]) {
    if (lead === undefined) throw new RangeError('nobody flies');
    this.lead = lead;
    this.waiting = others;
  }

  async listen(): Promise<void> {
    if (this.figures === null) {
      const touch = this.lead.getByRole('button', { name: 'Hang it', exact: true });
      if (!(await touch.isVisible())) return;
      this.figures = /\d{3} \d{3} \d/.exec(await hungLine(this.lead).innerText())?.[0] ?? null;
      await touch.click();
      this.heardBy = 1;
      return;
    }
    const [next, ...rest] = this.waiting;
    if (next === undefined || !(await hungLine(next).isVisible())) return;
    if ((await hungLine(next).getAttribute('aria-expanded')) !== 'true') await hungLine(next).click();
    const typed = next.getByLabel('Lead’s figures');
    // Among the others nobody may hang it elsewhere.
    if (!(await typed.isVisible())) return;
    await typed.fill(this.figures);
    await typed.press('Enter');
    this.waiting = rest;
    this.heardBy += 1;
  }
}

const hungLine = (page: Page) => page.locator('[data-figure="formation-hung"]');
