import { flyFormationInPages, formationJob } from '../../e2e/flight/fly-formation.ts';
import { metresFromFeet } from '../../src/core/units/quantity.ts';
import { hangText } from '../../src/core/guidance/hanging/hang-text.ts';
import { hangingWish } from '../../src/core/guidance/hanging/hanging-wish.ts';
import type { Job } from '../../src/core/job/job.ts';
import type { JobPlan } from '../../src/core/plan/plan-job.ts';
import { windFromFigures } from '../../src/core/wire/hanging-figures.ts';
import { crowdSeen, type HungPromise } from '../flight/crowd-seen.ts';
import { drawPolylines } from '../flight/draw-strokes.ts';
import { seenFromBelow } from '../flight/smoke-from-below.ts';
import type { Figure } from './figures.ts';
import { chosenWords, inFlightBrowser } from './flown-words.ts';
import { atLeast, atMost, reported } from './limits.ts';

const READ_OF_TWENTY = 19;

/**
 * So many words by three pages of the built app each, from anywhere within 8 km, no link, hands up to 2 s apart, 10 kt off; hung by
 * the lead's figures on the radio, and read from where the crowd stands.
 */
export async function pageFigures(words: number): Promise<Figure[]> {
  return inFlightBrowser(async ({ browser, reader, scripts }) => {
    let read = 0;
    let readFromBelow = 0;
    let level = 0;
    let alike = 0;
    let under = 0;
    let nearest = Infinity;
    let leastMetres = 0;
    for (const [index, word] of chosenWords(words, 15).entries()) {
      const job = formationJob(word);
      leastMetres = metresFromFeet(job.options.separationFeet);
      const flight = await flyFormationInPages(browser, scripts, job, index + 1, 10);
      const trails = flight.reports.flatMap((report) => report.trails);
      const [lead] = flight.reports;
      const seen = await crowdSeen({ trails, driftTrack: lead!.driftTrack }, job, flight.planned, promiseOf(job, flight.planned, flight.figures), reader);
      const picture = { letterHeightMetres: metresFromFeet(job.letters.heightFeet) };
      const { text } = trails.length === 0 ? { text: '' } : await reader.read(drawPolylines(seenFromBelow(trails, job.facingDegreesTrue), picture));
      console.log(
        `${word} read ${seen.readSlantOff || '-'}, from below ${text || '-'}, lean ${seen.middle.leanDegrees.toFixed(1)}, bearing ${seen.bearingOffDegrees.toFixed(1)}, ${flight.hungByFigures} by the figures, nearest ${flight.nearestMetres.toFixed(0)} m, ${flight.reports.map(({ atSeconds }) => atSeconds.toFixed(0)).join(', ')} s`,
      );
      if (seen.readSlantOff === word) read += 1;
      if (text === word) readFromBelow += 1;
      if (Math.abs(seen.middle.leanDegrees) <= 6) level += 1;
      if (flight.hungByFigures === flight.reports.length) alike += 1;
      if (flight.nearestMetres < leastMetres) under += 1;
      nearest = Math.min(nearest, flight.nearestMetres);
    }
    return [
      atLeast(
        `of ${words} words by three pages from anywhere, no link: read from where the crowd stands`,
        read,
        Math.ceil((READ_OF_TWENTY / 20) * words),
        '',
        0,
      ),
      reported('of them, read from straight below', `${readFromBelow}`),
      reported('of them, lean at most 6 degrees', `${level}`),
      reported('of them, hung by the lead’s figures on every ship', `${alike}`),
      atMost(`of them, with two ships under ${leastMetres.toFixed(0)} m at one height`, under, 0, '', 0),
      atLeast('nearest of all', nearest, leastMetres, 'm', 0),
    ];
  });
}

/** What all ships hung the word for, by the lead's figures: where it was to stand, and when to be level. */
export function promiseOf(job: Job, { plan, air }: JobPlan, figures: string | null): HungPromise | null {
  const read = figures === null ? null : windFromFigures(figures);
  if (read?.ok !== true) return null;
  const { atLastSmoke, levelAfterSeconds } = hangText(hangingWish(job, plan, air), read.wind);
  return { ...atLastSmoke, levelAfterSeconds };
}
