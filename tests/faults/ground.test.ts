import { readdirSync, readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { describe, expect, it } from 'vitest';

/**
 * Nothing received can act on a flight, because no code that receives has a hand on one: everything that could start,
 * change or stop a flight, a job or the smoke goes by these names.
 */
const HANDS =
  /\b(?:flightDesk|flyFlight|flying|flight)\.(?:begin|leave|touch|smokeSwitched|datumTimed|end)\b|(?<!\.)\breduce\(|\bsmokeSwitched\(|\.touch\(|\b(?:saveJob|saveFlight|deleteJob|deleteFlight|addJobs)\b/;
const root = fileURLToPath(new URL('../../src/', import.meta.url));
const receiving = readdirSync(root, { recursive: true, encoding: 'utf8' }).filter((name) => /^(link|app\/link|ui\/ground)\/.*\.tsx?$/.test(name));

describe('what the ground sends', () => {
  it('reaches no code that could start, change or stop a flight, a job or the smoke', () => {
    expect(receiving.length).toBeGreaterThan(30);
    const hands = receiving.filter((name) => HANDS.test(readFileSync(root + name, 'utf8')));
    expect(hands).toEqual([]);
  });

  it('is looked for with names that the code of a flight has', () => {
    const flight = ['app/flight/fly-flight.ts', 'app/flight/flight-desk.ts', 'ui/write/FlightCues.tsx', 'app/jobs/open-shelf.ts'];
    expect(flight.filter((name) => HANDS.test(readFileSync(root + name, 'utf8')))).toEqual(flight);
  });
});
