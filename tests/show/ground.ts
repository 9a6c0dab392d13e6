import { spawnSync } from 'node:child_process';
import { existsSync, mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { availableParallelism, loadavg, tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import type { GroundFigures } from '../../e2e/ground-figures.ts';
import { lookTo } from '../core/sky/look-to.ts';
import { degreesFromRadians, signedDegrees } from '../../src/core/units/angle.ts';
import { compareBrokers, type HubComparison, JOBS_LOAD, WHOLE_LOAD } from '../bench/hub.ts';
import geodesy from '../reference/geodesy.json' with { type: 'json' };
import type { Figure, Shown } from './figures.ts';
import { atLeast, atMost, reported } from './limits.ts';

const BROKERS = [
  ['hub', 'hub'],
  ['mosquitto', 'Mosquitto'],
] as const;

/** The ground: where to look, what a bad link does to the built app in a browser, and how many the hub carries. */
export async function showGround(): Promise<Shown> {
  const angles = worstAngleDegrees();
  const campaigns = flownCampaigns();
  const [busy = 0] = loadavg();
  const loads = [await compareBrokers(JOBS_LOAD), await compareBrokers(WHOLE_LOAD)];
  const whole = loads.at(-1);
  const wrong = campaigns.reduce(
    (sum, [, found]) => sum + (found === null ? 0 : found.lost + found.doubled + found.staleShown + found.overheard + found.forged),
    0,
  );
  const ended = campaigns.filter(([, found]) => found !== null).map(([name]) => name);
  const sent = campaigns.reduce((sum, [, found]) => sum + (found?.sent ?? 0), 0);
  return {
    figures: [
      atMost(`where to look, worst of ${angles.count} against GeographicLib and PROJ`, angles.worst, 1e-6, 'degrees', 9),
      ...campaigns.flatMap(([name, found]) => campaignFigures(name, found)),
      // Times mean little on a machine that does other work.
      reported('this machine, before the load', `${busy.toFixed(1)} processes wanted its ${availableParallelism()} cores`),
      ...loads.flatMap(loadFigures),
    ],
    headline: `Over ${ended.length === 0 ? 'no broker' : ended.join(' and ')}, links cut for five minutes and healed, ${wrong === 0 ? `all ${sent} events arrived, each once, and nothing stale was called live` : `${wrong} events, places or messages were wrong of ${sent}`}; the hub brings ${WHOLE_LOAD.ships} ships to ${WHOLE_LOAD.observers} observers, 99 of 100 places within ${whole?.hub.p99Milliseconds.toFixed(0) ?? '?'} ms.`,
  };
}

/** Runs the browser campaign over both brokers; null for one that did not come to its end. */
function flownCampaigns(): readonly (readonly [string, GroundFigures | null])[] {
  const root = fileURLToPath(new URL('../..', import.meta.url));
  const folder = mkdtempSync(join(tmpdir(), 'quillwind-ground-'));
  try {
    spawnSync('npx', ['playwright', 'test', '--config', 'e2e/playwright.config.ts', 'e2e/ground-link.spec.ts'], {
      cwd: root,
      stdio: 'inherit',
      env: { ...process.env, QUILLWIND_FIGURES: folder },
    });
    return BROKERS.map(([file, name]) => {
      const path = join(folder, `${file}.json`);
      return [name, existsSync(path) ? (JSON.parse(readFileSync(path, 'utf8')) as GroundFigures) : null] as const;
    });
  } finally {
    rmSync(folder, { recursive: true, force: true });
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

function campaignFigures(name: string, found: GroundFigures | null): Figure[] {
  if (found === null) return [{ name: `${name}: the campaign in the browser`, value: 'did not end', limit: 'ends', ok: false }];
  const { sent, received, lost, doubled, staleShown, overheard, forged, healedSeconds } = found;
  return [
    atLeast(`${name}: events sent, over two ships and two observers`, sent, 60, '', 0),
    atLeast(`${name}: events received of these`, received, sent, '', 0),
    atMost(`${name}: events lost`, lost, 0, '', 0),
    atMost(`${name}: events doubled, though the network repeats`, doubled, 0, '', 0),
    atMost(`${name}: stale places shown live`, staleShown, 0, 'times', 0),
    atMost(`${name}: messages that strangers learned`, overheard, 0, '', 0),
    atMost(`${name}: what strangers changed`, forged, 0, '', 0),
    // Thirty seconds at most between two attempts, and some for asking what was missed.
    atMost(`${name}: everything heard after healing`, healedSeconds, 60, 's', 0),
  ];
}

function loadFigures({ plan, hub, mosquitto }: HubComparison): Figure[] {
  const name = `${plan.ships} ships, ${plan.observers} observers, ${plan.jobs === 1 ? 'each hears all' : `${plan.jobs} jobs, each hears its own`}`;
  const rate = plan.ships * (plan.observers / plan.jobs);
  const ratio = (of: (measure: HubComparison['hub']) => number): string => `${(of(hub) / of(mosquitto)).toFixed(1)} times`;
  return [
    reported(name, `1 place a second a ship, ${Math.round(rate).toLocaleString('en-US')} deliveries a second`),
    atLeast('  hub delivers', (100 * hub.delivered) / hub.wanted, 99.9, '%', 2),
    // Ages are shown in whole seconds, and a place is live up to three of them.
    atMost('  hub p99', hub.p99Milliseconds, 1000, 'ms', 1),
    atMost('  hub memory at its highest', hub.peakMegabytes, 400, 'MB', 0),
    reported(
      '  Mosquitto beside it',
      `${((100 * mosquitto.delivered) / mosquitto.wanted).toFixed(2)} %, p99 ${mosquitto.p99Milliseconds.toFixed(1)} ms, ${mosquitto.peakMegabytes.toFixed(0)} MB`,
    ),
    reported('  hub over Mosquitto', `p99 ${ratio(({ p99Milliseconds }) => p99Milliseconds)}, memory ${ratio(({ peakMegabytes }) => peakMegabytes)}`),
  ];
}
