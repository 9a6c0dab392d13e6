import { createDatabase } from '../src/store/database.ts';
import { openFlightLog } from '../src/store/flight-log.ts';

/**
 * A page that does nothing but write a flight log, faster than any flight, and says on the console which row it
 * counts as saved. Built by the test alone.
 */
const { log, reading } = await openFlightLog(createDatabase(), 'flight-1');
document.title = JSON.stringify({
  rows: reading.rows.length,
  last: reading.rows.at(-1)?.sequence ?? -1,
  gaps: reading.gaps,
  damaged: reading.damagedSequences,
  wrong: reading.rows.filter(({ sequence, event }) => (event as { n: number }).n !== sequence).length,
});
if (location.hash === '#write') {
  let next = reading.nextSequence;
  log.subscribe(() => console.log(`saved ${log.confirmedSequence()}`));
  setInterval(() => {
    log.append({ monotonicSeconds: performance.now() / 1000, wallMilliseconds: Date.now(), event: { n: next, padding: 'x'.repeat(400) } });
    next += 1;
  }, 10);
}
