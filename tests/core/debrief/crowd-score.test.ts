import { expect, it } from 'vitest';
import { wordJob } from '../../../e2e/flight/fly-word.ts';
import { createReplay } from '../../../src/core/debrief/replay.ts';
import { debriefShip } from '../../../src/core/debrief/ship-debrief.ts';
import { shipLog } from '../../../src/core/debrief/ship-log.ts';
import type { FlightEvent } from '../../../src/core/guidance/flight-event.ts';
import { wordPose, wordSeen } from '../../flight/crowd-eye.ts';
import { driftAtOf, flyJob } from '../../flight/job-flight.ts';
import { plannedInk } from '../../flight/planned-ink.ts';

it('judges what the crowd saw as an eye at the site did: place, lean, elevation', () => {
  const flight = flyJob(wordJob('OPEN'), 12, 10);
  const events = JSON.parse(JSON.stringify(flight.events)) as FlightEvent[];
  const replay = createReplay(events);
  replay.advance(events.length);
  const { crowd } = debriefShip(shipLog(events)!, replay.replayed(), []);
  if (crowd === null) throw new Error('no judgement');
  const { simulation, planned } = flight;
  const lastSeconds = simulation.trails.at(-1)!.at(-1)!.atSeconds;
  const truth = wordSeen(
    wordPose(simulation.trails, plannedInk(planned.plan)),
    driftAtOf(simulation.driftTrack),
    lastSeconds,
    planned.air.layerAboveSiteMetres,
  );
  const { seen, leanRadians } = crowd.atLastSmoke;
  const degrees = 180 / Math.PI;
  expect(crowd.hung).toBe('found-wind');
  expect(Math.abs(leanRadians * degrees - truth.leanDegrees)).toBeLessThan(2);
  expect(Math.abs(seen.elevationRadians * degrees - truth.elevationDegrees)).toBeLessThan(1);
  expect(Math.abs(((((seen.azimuthRadians * degrees - truth.bearingDegrees + 180) % 360) + 360) % 360) - 180)).toBeLessThan(2);
  expect(crowd.offMetres).toBeLessThan(1500);
  // The regatta's crowd has its back to the sun: 17:30 UTC in June, looking 340.
  expect((crowd.middle.sunRadians ?? 0) * degrees).toBeGreaterThan(60);
});
