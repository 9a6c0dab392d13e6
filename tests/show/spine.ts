import { DEMO_JOB } from '../../src/core/job/demo-job.ts';
import { WORD_AIRSPEED, wordSetup } from '../flight/word-setup.ts';
import type { Figure, Shown } from './figures.ts';
import { atLeast, atMost, reported } from './limits.ts';
import { chosenWords, flyWords, inFlightBrowser } from './flown-words.ts';

const WORDS = 10;
const SEED = 20_270_619;
const FORECAST_ERROR_KNOTS = 10;

/** A word flown end to end in a browser, offline: ten open words chosen by a seed. */
export async function showSpine(): Promise<Shown> {
  const figures: Figure[] = [
    reported('wind', `${FORECAST_ERROR_KNOTS} kt off the forecast, 1.5 kt rms wander; airspeed 3 %; reaction 0.4 s; fixes 1 Hz, 3 m, 0.7 s late`),
  ];
  const words = chosenWords(WORDS, SEED);
  const flown = await inFlightBrowser((opened) =>
    flyWords(opened, words, { forecastErrorKnots: FORECAST_ERROR_KNOTS, seed: 1 }, ({ word, read, readMirrored, readGroundFixed, report }) => {
      process.stdout.write(
        `      ${word.padEnd(10)} read ${(read || '-').padEnd(10)} mirrored ${(readMirrored || '-').padEnd(10)} fixed to the ground ${(readGroundFixed || '-').padEnd(12)} ${Math.round(report.atSeconds)} s\n`,
      );
    }),
  );
  const exact = flown.filter(({ word, read }) => read === word).length;
  figures.push(
    atMost('read though mirrored', flown.filter(({ word, readMirrored }) => readMirrored === word).length, 0, 'words', 0),
    atMost('read though fixed to the ground', flown.filter(({ word, readGroundFixed }) => readGroundFixed === word).length, 0, 'words', 0),
    atMost(
      'smoke ON shown with the position unknown',
      flown.reduce((sum, { report }) => sum + report.wrongOns, 0),
      0,
      'times',
      0,
    ),
    atLeast('flights finished', flown.filter(({ report }) => report.finished).length, WORDS, `of ${WORDS}`, 0),
    reported('demo job', `${DEMO_JOB.text}, ${DEMO_JOB.ships.length} ship`),
    reported(
      'planned for SKY at 120 mph',
      `${wordSetup('SKY').plan.durationSeconds.toFixed(0)} s, ${((wordSetup('SKY').plan.durationSeconds * WORD_AIRSPEED) / 1609.344).toFixed(1)} statute miles`,
    ),
  );
  figures.push(atLeast('words read exactly from below', exact, 9, `of ${WORDS}`, 0));
  return {
    figures,
    headline: `${exact} of ${WORDS} words, flown by their cues in a wind ${FORECAST_ERROR_KNOTS} kt off the forecast, are read exactly from below.`,
  };
}
