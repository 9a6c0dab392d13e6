import { lookTo } from '../../src/core/sky/look-to.ts';
import { degreesFromRadians, signedDegrees } from '../../src/core/units/angle.ts';
import { passwordOf, type RunningBroker, startHubBroker, startMosquitto } from '../../e2e/ground-brokers.ts';
import { compareBrokers, type HubComparison, JOBS_LOAD, WHOLE_LOAD } from '../bench/hub.ts';
import { type CutOutcome, cutScenario } from '../link/cut-scenario.ts';
import geodesy from '../reference/geodesy.json' with { type: 'json' };
import type { Figure, Shown } from './figures.ts';
import { atLeast, atMost, reported } from './limits.ts';

/** The ground: where to look, what a bad link does to it, and how many it carries. */
export async function showGround(): Promise<Shown> {
  const angles = worstAngleDegrees();
  const cuts: readonly (readonly [string, CutOutcome])[] = [
    ['hub', await onBroker(startHubBroker)],
    ['Mosquitto', await onBroker(startMosquitto)],
  ];
  const loads = [await compareBrokers(JOBS_LOAD), await compareBrokers(WHOLE_LOAD)];
  const lost = cuts.reduce((sum, [, outcome]) => sum + outcome.lost + outcome.doubled + outcome.staleShownLive, 0);
  const whole = loads.at(-1);
  return {
    figures: [
      atMost(`where to look, worst of ${angles.count} against GeographicLib and PROJ`, angles.worst, 1e-6, 'degrees', 9),
      ...cuts.flatMap(([name, outcome]) => cutFigures(name, outcome)),
      ...loads.flatMap(loadFigures),
    ],
    headline: `Over two brokers, with every link cut in turn, ${lost === 0 ? 'no event was lost or doubled and nothing stale was called live' : `${lost} events or places were wrong`}; the hub brings ${WHOLE_LOAD.ships} ships to ${WHOLE_LOAD.observers} observers with 99 of 100 in ${whole?.hub.p99Milliseconds.toFixed(0) ?? '?'} ms.`,
  };
}

async function onBroker(start: () => Promise<RunningBroker>): Promise<CutOutcome> {
  const broker = await start();
  try {
    return await cutScenario(broker.address, passwordOf);
  } finally {
    await broker.stop();
  }
}

function worstAngleDegrees(): { readonly worst: number; readonly count: number } {
  let worst = 0;
  let count = 0;
  for (const { lat0, lon0, h0, lat, lon, h, east, north, up } of geodesy.enu.rows) {
    const flat = Math.hypot(east, north);
    const seen = lookTo({ latitudeDegrees: lat, longitudeDegrees: lon }, h, { latitudeDegrees: lat0, longitudeDegrees: lon0, elevationMetres: h0 });
    worst = Math.max(worst, Math.abs(degreesFromRadians(seen.elevationRadians) - (Math.atan2(up, flat) * 180) / Math.PI));
    count += 1;
    if (flat > 0) worst = Math.max(worst, Math.abs(signedDegrees(degreesFromRadians(seen.azimuthRadians) - (Math.atan2(east, north) * 180) / Math.PI)));
  }
  return { worst, count };
}

function cutFigures(name: string, { lost, doubled, told, staleShownLive, healedSeconds }: CutOutcome): Figure[] {
  return [
    atMost(`${name}: events lost of ${2 * told}`, lost, 0, '', 0),
    atMost(`${name}: events doubled`, doubled, 0, '', 0),
    atMost(`${name}: stale places shown live`, staleShownLive, 0, 'times', 0),
    atMost(`${name}: all heard after healing`, healedSeconds, 60, 's', 1),
  ];
}

function loadFigures({ plan, hub, mosquitto }: HubComparison): Figure[] {
  const name = `${plan.ships} ships, ${plan.observers} observers, ${plan.jobs} ${plan.jobs === 1 ? 'job' : 'jobs'}`;
  return [
    atLeast(`${name}: hub delivers`, (100 * hub.delivered) / hub.wanted, 99, '%', 1),
    // A place counts as live up to three seconds.
    atMost(`${name}: hub p99`, hub.p99Milliseconds, 1000, 'ms', 1),
    atMost(`${name}: hub memory at its highest`, hub.peakMegabytes, 400, 'MB', 0),
    reported(`${name}: Mosquitto beside it`, `${((100 * mosquitto.delivered) / mosquitto.wanted).toFixed(1)} %, p99 ${mosquitto.p99Milliseconds.toFixed(1)} ms, ${mosquitto.peakMegabytes.toFixed(0)} MB`),
  ];
}
