import { spawnSync } from 'node:child_process';
import { hasNats } from '../../e2e/nats-cluster.ts';
import { compareBrokers, type HubComparison, JOBS_LOAD, MANY_JOBS_LOAD, ONE_JOB_LOAD, WHOLE_LOAD } from '../bench/hub.ts';
import type { LoadMeasure } from '../bench/hub-load.ts';
import { attackHub } from '../hub/hub-attack.ts';
import type { CampaignFigures } from '../link/cluster-campaign.ts';
import { flyOverSecureCluster } from '../link/secure-cluster.ts';
import type { Figure, Shown } from './figures.ts';
import { played, root } from './played.ts';
import { atLeast, atMost, reported } from './limits.ts';

/** `cluster`, `load`, `attack`, `typing`, `tabs`, `database`; all when nothing is asked for. */
const PARTS = process.env['QUILLWIND_PARTS']?.split(';') ?? null;
const CAMPAIGNS = Number(process.env['QUILLWIND_CAMPAIGNS'] ?? 5);
const CUT_SECONDS = Number(process.env['QUILLWIND_CUT_SECONDS'] ?? 60);
const KILLS = process.env['QUILLWIND_KILLS'] ?? '100';
const SEED = Number(process.env['QUILLWIND_SEED'] ?? 21);

/** Beyond one field: a clustered broker, its load beside the others, attacks on the hub, typing, tabs and a database that fails. */
export async function showField(): Promise<Shown> {
  const parts: readonly (readonly [string, () => Promise<Figure[]>])[] = [
    ['cluster', clusterFigures],
    ['load', loadFigures],
    ['attack', attackFigures],
    ['typing', async () => typingFigures()],
    ['tabs', async () => tabFigures()],
    ['database', async () => databaseFigures()],
  ];
  const figures: Figure[] = [];
  for (const [name, find] of parts) if (PARTS === null || PARTS.includes(name)) figures.push(...(await find()));
  const short = figures.filter(({ ok }) => !ok).length;
  return {
    figures,
    headline: `${PARTS === null ? `Over ${CAMPAIGNS} campaigns on three nodes, under attack, under kills, with two tabs and without a database` : `Of ${PARTS.join(', ')}`}: ${short === 0 ? 'nothing was lost, doubled or called live when old, and every figure holds' : 'not all holds'}.`,
  };
}

async function clusterFigures(): Promise<Figure[]> {
  if (!hasNats()) return [{ name: 'cluster', value: 'nats-server is not installed', limit: 'flown', ok: false }];
  const flown: CampaignFigures[] = [];
  for (let campaign = 0; campaign < CAMPAIGNS; campaign += 1)
    flown.push(await flyOverSecureCluster({ seed: SEED + campaign, killedSeconds: 6, cutSeconds: CUT_SECONDS }));
  const sum = (of: (figures: CampaignFigures) => number): number => flown.reduce((total, each) => total + of(each), 0);
  return [
    reported(`cluster: ${CAMPAIGNS} campaigns by TLS alone, a node killed for 6 s, one cut off for ${CUT_SECONDS} s`, `${sum(({ sent }) => sent)} events sent`),
    atLeast(
      '  to be heard by two observers',
      sum(({ wanted }) => wanted),
      1,
      '',
      0,
    ),
    atMost(
      '  lost',
      sum(({ lost }) => lost),
      0,
      '',
      0,
    ),
    atMost(
      '  doubled',
      sum(({ doubled }) => doubled),
      0,
      '',
      0,
    ),
    atMost(
      '  forged',
      sum(({ forged }) => forged),
      0,
      '',
      0,
    ),
    atMost(
      `  stale called live, of ${sum(({ liveLooks }) => liveLooks)} looks at a live place`,
      sum(({ staleLive }) => staleLive),
      0,
      '',
      0,
    ),
    atMost('  everything heard after the last healing', Math.max(...flown.map(({ healedSeconds }) => healedSeconds)), 60, 's', 0),
  ];
}

async function loadFigures(): Promise<Figure[]> {
  const loads = [await compareBrokers(JOBS_LOAD, true), await compareBrokers(WHOLE_LOAD, true)];
  const one = await compareBrokers(ONE_JOB_LOAD, true);
  const many = await compareBrokers(MANY_JOBS_LOAD, true);
  return [
    ...loads.flatMap(oneLoad),
    ...brokersOf(one).flatMap(([name, measure], index) => {
      const other = brokersOf(many)[index]?.[1];
      if (other === undefined) return [];
      const growth = (100 * (other.deliveriesPerObserverSecond - measure.deliveriesPerObserverSecond)) / measure.deliveriesPerObserverSecond;
      return [
        atMost(`${name}: what an observer is brought, 200 jobs over 1`, growth, 2, '% more', 1),
        reported('  p99 with 1 and with 200 jobs', `${measure.p99Milliseconds.toFixed(1)} and ${other.p99Milliseconds.toFixed(1)} ms`),
      ];
    }),
  ];
}

function brokersOf({ hub, mosquitto, cluster }: HubComparison): readonly (readonly [string, LoadMeasure])[] {
  return [['hub', hub], ['Mosquitto', mosquitto], ...(cluster === null ? [] : ([['three nodes', cluster]] as const))];
}

function oneLoad(comparison: HubComparison): Figure[] {
  const { ships, observers, jobs } = comparison.plan;
  return [
    reported(
      `load: ${ships} ships, ${observers} observers, ${jobs === 1 ? 'each hears all' : `${jobs} jobs`}`,
      `${Math.round(ships * (observers / jobs))} deliveries a second`,
    ),
    ...brokersOf(comparison).flatMap(([name, measure]) => [
      atLeast(`  ${name} delivers`, (100 * measure.delivered) / measure.wanted, 99.9, '%', 2),
      atMost(`  ${name} p99`, measure.p99Milliseconds, 1000, 'ms', 1),
      reported(
        `  ${name} cost`,
        `${measure.microsecondsPerDelivery.toFixed(0)} us of processor a delivery, ${measure.kilobytesPerClient.toFixed(0)} kB a client, ${measure.peakMegabytes.toFixed(0)} MB at most`,
      ),
    ]),
  ];
}

async function attackFigures(): Promise<Figure[]> {
  const { strangers, sentMegabytes, grownMegabytes, stillConnected, wrongLogins, goodLoginSeconds, namedLoginSeconds } = await attackHub();
  return [
    reported(`attack: ${strangers} clients without a password`, `${sentMegabytes.toFixed(0)} MB sent`),
    atMost('  the hub’s memory grows by', grownMegabytes, 5, 'MB', 1),
    atMost('  still connected afterwards', stillConnected, 0, '', 0),
    atMost(`  a right first login beside ${wrongLogins} wrong ones`, goodLoginSeconds, 2, 's', 2),
    atMost('  under a name that is being guessed at from elsewhere', namedLoginSeconds, 2, 's', 2),
  ];
}

function typingFigures(): Figure[] {
  const said = played('e2e/faults/typing.spec.ts', 'kills of the browser while somebody types', { QUILLWIND_KILLS: KILLS });
  const [, kills = '0', keys = '0', milliseconds = 'Infinity'] = /(\d+) kills, (\d+) keys: at most the last (\d+) ms/.exec(said.text) ?? [];
  return [
    atLeast('typing: kills of the browser under the fingers', Number(kills), Number(KILLS), '', 0),
    reported('  keys typed', keys),
    atMost('  keys lost: those of the last', Number(milliseconds), 1000, 'ms', 0),
    atMost('  words lost that had been called saved', said.ok ? 0 : 1, 0, '', 0),
  ];
}

function tabFigures(): Figure[] {
  const { status } = spawnSync('npx', ['vitest', 'run', 'tests/app/jobs/two-tabs.test.ts'], {
    cwd: root(),
    stdio: 'ignore',
    env: { ...process.env, QUILLWIND_INTERLEAVINGS: '50', QUILLWIND_SEED: String(SEED) },
  });
  const browser = played('e2e/faults/typing.spec.ts', 'two tabs on one job', {});
  return [
    atMost('two tabs, 50 random interleavings: edits neither standing nor offered', status === 0 ? 0 : 1, 0, '', 0),
    atMost('  the same in the browser', browser.ok ? 0 : 1, 0, '', 0),
  ];
}

function databaseFigures(): Figure[] {
  const { text } = played('e2e/faults/start.spec.ts', 'leaves a way on', {});
  return ['hangs for 12 s', 'hangs for ever', 'is of a newer version', 'is damaged'].map((fault) => {
    const [, seconds = 'Infinity'] = new RegExp(`${fault}: a way on after ([\\d.]+) s`).exec(text) ?? [];
    return atMost(`a database that ${fault}: a way on within`, Number(seconds), 5, 's', 1);
  });
}
