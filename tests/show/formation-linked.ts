import { flyFormationInPages, formationJob } from '../../e2e/flight/fly-formation.ts';
import { startHubBroker } from '../../e2e/ground-brokers.ts';
import { startGroundWire } from '../../e2e/ground-wire.ts';
import { metresFromFeet } from '../../src/core/units/quantity.ts';
import { crowdSeen } from '../flight/crowd-seen.ts';
import type { Figure } from './figures.ts';
import { chosenWords, inFlightBrowser } from './flown-words.ts';
import { promiseOf } from './formation-pages.ts';
import { atLeast, atMost, reported } from './limits.ts';

const LATE_SECONDS = 25;
const FLIGHTS = 5;
/** In the first of them nobody does anything about it. */
const UNANSWERED = 2;
const NAMES = ['lead', 'two', 'three'];

/**
 * Three linked pages of the built app, one of which takes the time hack 25 s late: told on it and on the lead, nobody near; where
 * its pilot takes the lead's time the word is written whole.
 */
export async function linkedFigures(): Promise<Figure[]> {
  return inFlightBrowser(async ({ browser, reader, scripts }) => {
    let told = 0;
    let under = 0;
    let smoked = 0;
    let read = 0;
    let nearest = Infinity;
    let leastMetres = 0;
    for (const [index, word] of chosenWords(FLIGHTS, 15).entries()) {
      const job = formationJob(word);
      leastMetres = metresFromFeet(job.options.separationFeet);
      const broker = await startHubBroker();
      const wires = await Promise.all(NAMES.map(async (name) => ({ name, wire: await startGroundWire(broker.address) })));
      const lateHack = { shipIndex: 1 + (index % 2), seconds: LATE_SECONDS };
      const takesLeadsTime = index >= UNANSWERED;
      try {
        const flight = await flyFormationInPages(browser, scripts, job, index + 1, 10, { wires, lateHack, takesLeadsTime });
        const [lead] = flight.reports;
        const trails = flight.reports.flatMap((report) => report.trails);
        const lateSmokes = flight.reports[lateHack.shipIndex]!.trails.length;
        const seen = await crowdSeen({ trails, driftTrack: lead!.driftTrack }, job, flight.planned, promiseOf(job, flight.planned, flight.figures), reader);
        console.log(
          `${word}, ${NAMES[lateHack.shipIndex]} ${LATE_SECONDS} s late, ${takesLeadsTime ? 'takes the lead’s time' : 'nobody answers'}: told on ${flight.toldOfAnotherTime.map((ship) => NAMES[ship]).join(', ')}, ${lateSmokes} strokes of it, read ${seen.readSlantOff || '-'}, nearest ${flight.nearestMetres.toFixed(0)} m`,
        );
        if ([0, lateHack.shipIndex].every((ship) => flight.toldOfAnotherTime.includes(ship))) told += 1;
        if (flight.nearestMetres < leastMetres) under += 1;
        if (!takesLeadsTime) smoked += lateSmokes;
        else if (seen.readSlantOff === word) read += 1;
        nearest = Math.min(nearest, flight.nearestMetres);
      } finally {
        await Promise.all(wires.map(({ wire }) => wire.close()));
        await broker.stop();
      }
    }
    return [
      atLeast(`of ${FLIGHTS} words by three linked pages, one hack ${LATE_SECONDS} s late: told on that ship and on the lead`, told, FLIGHTS, '', 0),
      atMost(`of them, with two ships under ${leastMetres.toFixed(0)} m at one height`, under, 0, '', 0),
      reported('nearest of them', `${nearest.toFixed(0)} m`),
      atMost(`of ${UNANSWERED} that nobody answers: strokes begun by the late ship`, smoked, 0, '', 0),
      atLeast(`of ${FLIGHTS - UNANSWERED} where it takes the lead’s time: read from where the crowd stands`, read, FLIGHTS - UNANSWERED - 1, '', 0),
    ];
  });
}
