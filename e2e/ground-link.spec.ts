import { type Browser, expect, test } from '@playwright/test';
import mqtt from 'mqtt';
import { passwordOf, type RunningBroker, startHubBroker, startMosquitto } from './ground-brokers.ts';
import { type Device, flyShip, freshnessOf, GROUND_JOB, heardBy, linkOf, observe, openDevice, run, runUntil, toldBy } from './ground-pages.ts';
import { startGroundWire } from './ground-wire.ts';

/** Seconds after which a silent ship may not be called live or ageing any more: ten, a message under way, and a tick. */
const NOT_LIVE_SECONDS = 13;
const CUT_SECONDS = 300;
/** While nothing is waited for the clocks run in longer steps. */
const STEP_SECONDS = 5;

for (const [name, start] of [['the embedded hub', startHubBroker], ['Mosquitto', startMosquitto]] as const) {
  test(`two ships and two observers over ${name}: cut for five minutes, nothing lost, nothing doubled, nothing stale called live`, async ({ browser }) => {
    test.setTimeout(540_000);
    const broker = await start();
    try {
      await observedFlight(browser, broker);
    } finally {
      await broker.stop();
    }
  });
}

async function observedFlight(browser: Browser, broker: RunningBroker): Promise<void> {
  const [shipWire, annaWire] = [await startGroundWire(broker.address), await startGroundWire(broker.address)];
  const lead = await openDevice(browser, 'lead');
  const two = await openDevice(browser, 'two');
  const anna = await openDevice(browser, 'anna');
  // A clock that is five minutes wrong.
  const ben = await openDevice(browser, 'ben', 300_000);
  const devices = [lead, two, anna, ben];
  try {
    await Promise.all([observe(anna, annaWire.address), observe(ben, broker.address)]);
    await flyShip(lead, shipWire.address, 0);
    await flyShip(two, broker.address, 1);
    const bothLive = async (observer: Device): Promise<boolean> => {
      const fresh = await freshnessOf(observer);
      return fresh['lead'] === 'live' && fresh['two'] === 'live';
    };
    await runUntil(devices, 60, 'both observers see both ships live', async () => (await bothLive(anna)) && (await bothLive(ben)));
    await runUntil(devices, 120, 'smoke that was told is in the sky', async () => (await anna.page.locator('.sky-watch').getAttribute('data-smoke')) === 'told');

    await callsReachTheCueScreen(devices, anna, [lead, two]);
    await strangersLearnAndChangeNothing(broker, devices, anna);

    // Five minutes without the lead's link, and the last two of them without the observer's.
    shipWire.cut();
    annaWire.doubleEverything();
    await run(
      devices,
      CUT_SECONDS,
      async (passed) => {
        if (passed === CUT_SECONDS - 120) annaWire.stall();
        if (passed <= NOT_LIVE_SECONDS) return;
        for (const observer of [anna, ben]) {
          const fresh = await freshnessOf(observer);
          expect.soft(['live', 'ageing'], `${observer.name}, ${passed} s after the cut`).not.toContain(fresh['lead']);
          if (observer === anna && passed > CUT_SECONDS - 120 + NOT_LIVE_SECONDS) expect.soft(['live', 'ageing'], `${passed} s`).not.toContain(fresh['two']);
        }
      },
      STEP_SECONDS,
    );
    expect(['waiting', 'connecting']).toContain(await linkOf(anna));
    await expect(lead.page.locator('.fly-calls')).toContainText('LINK LOST');

    shipWire.heal();
    annaWire.heal();
    const told = async (): Promise<Record<string, number>> => ({ ...(await toldBy(lead)), ...(await toldBy(two)) });
    const healed = await runUntil(devices, 180, 'every event that the ships told is heard by both observers', async () => {
      const [wanted, byAnna, byBen] = [await told(), await heardBy(anna), await heardBy(ben)];
      return Object.entries(wanted).every(([boot, count]) => byAnna.boots[boot] === count && byBen.boots[boot] === count);
    });
    expect(healed).toBeLessThan(120);
    // What the network carried is carried again, all of it.
    annaWire.replay();
    await run(devices, 5);
    for (const observer of [anna, ben]) {
      const { boots, beyond, eventCount } = await heardBy(observer);
      const wanted = await told();
      expect(beyond).toBe(0);
      expect(Object.keys(wanted).length).toBeGreaterThanOrEqual(2);
      for (const [boot, count] of Object.entries(wanted)) expect(boots[boot]).toBe(count);
      // Passed on once each, however often they came.
      expect(eventCount).toBe(Object.values(boots).reduce((sum, count) => sum + count, 0));
    }
    expect((await heardBy(anna)).eventCount).toBeGreaterThan(20);
  } finally {
    await Promise.all(devices.map(({ context }) => context.close()));
    await Promise.all([shipWire.close(), annaWire.close()]);
  }
}

/** A call is shown in words on every cue screen; the flight goes on as if nobody had said anything (P16). */
async function callsReachTheCueScreen(devices: readonly Device[], observer: Device, ships: readonly Device[]): Promise<void> {
  const cuesOf = ({ page }: Device): Promise<string[]> =>
    page.locator('[data-cue]').evaluateAll((cues) => cues.filter((cue) => ['phase', 'letter', 'stroke', 'ship'].includes(cue.getAttribute('data-cue') ?? '')).map((cue) => cue.getAttribute('data-value') ?? ''));
  const before = await Promise.all(ships.map(cuesOf));
  await observer.page.getByRole('button', { name: 'Stop', exact: true }).click();
  await observer.page.getByRole('button', { name: 'Letter broken' }).click();
  await observer.page.getByRole('group', { name: 'Which letter is broken' }).getByRole('button', { name: 'K' }).click();
  await runUntil(devices, 8, 'the calls are on both cue screens', async () => {
    const texts = await Promise.all(ships.map(({ page }) => page.locator('.fly-calls').innerText()));
    return texts.every((text) => text.includes('STOP') && text.includes('LETTER K BROKEN'));
  });
  const after = await Promise.all(ships.map(cuesOf));
  for (const [index, cues] of after.entries()) {
    // Standing on "stop" the flight would hold or be finished.
    expect(['hold', 'finished', 'no-cue']).not.toContain(cues[0]);
    expect(cues[3]).toBe(before[index]?.[3]);
  }
  await expect(ships[0]!.page.locator('.fly-calls').getByRole('button')).toHaveCount(0);
}

/** A user without a part in anything, one who is let in as an observer and means ill, and one with a wrong password. */
async function strangersLearnAndChangeNothing(broker: RunningBroker, devices: readonly Device[], anna: Device): Promise<void> {
  const heard: string[] = [];
  const all = `quillwind/1/${GROUND_JOB.id}`;
  const connectAs = async (user: string, password = passwordOf(user)): Promise<mqtt.MqttClient | null> => {
    const client = mqtt.connect(broker.address, { clientId: user, username: user, password, protocolVersion: 4, reconnectPeriod: 0 });
    client.on('error', () => {});
    return new Promise((resolve) => {
      client.on('connect', () => resolve(client));
      client.on('close', () => resolve(null));
    });
  };
  expect(await connectAs('evil', 'wrong')).toBeNull();
  const before = await freshnessOf(anna);
  const events = (await heardBy(anna)).boots;
  const state = { v: 1, device: 'lead', boot: 'forged', sentAtMilliseconds: Date.parse(GROUND_JOB.readTime), eventCount: 500, shipIndex: 0, fix: null, phase: 'finished', smoke: 'off', strokeNumber: 9, strokeCount: 9, character: null, windFromDegreesTrue: null, windSpeedMetresPerSecond: null };
  const forged: readonly (readonly [string, string])[] = [
    [`${all}/ship/lead/state`, JSON.stringify(state)],
    [`${all}/ship/lead/state`, ''],
    [`${all}/ship/lead/link`, ''],
    [`${all}/ship/lead/event`, JSON.stringify({ v: 1, device: 'lead', boot: 'forged', sentAtMilliseconds: state.sentAtMilliseconds, sequence: 0, atMilliseconds: state.sentAtMilliseconds, kind: 'ended' })],
    [`${all}/ground/anna/event`, '{}'],
  ];
  for (const user of ['spy', 'evil']) {
    for (const [topic, payload] of forged) {
      const client = await connectAs(user);
      expect(client).not.toBeNull();
      if (user === 'spy') {
        client?.on('message', (at, data) => heard.push(`${at} ${data.toString()}`));
        client?.subscribe(['#', 'quillwind/#', `${all}/ship/+/state`, `${all}/ship/+/event`], { qos: 1 }, () => {});
      }
      client?.publish(topic, payload, { qos: 1, retain: true }, () => {});
      await run(devices, 1);
      client?.end(true);
    }
  }
  // As an observer it may speak for itself, and says what nobody should have to read.
  for (const payload of ['\u0000', '['.repeat(5000), '{"v":1,"__proto__":{}}', JSON.stringify({ v: 1, device: 'evil', boot: 'b', sentAtMilliseconds: state.sentAtMilliseconds, sequence: 0, atMilliseconds: state.sentAtMilliseconds, kind: 'call', call: 'smoke-on', letterIndex: null, character: null })]) {
    const client = await connectAs('evil');
    client?.publish(`${all}/ground/evil/event`, payload, { qos: 1 }, () => {});
    await run(devices, 1);
    client?.end(true);
  }
  expect(heard).toEqual([]);
  const after = (await heardBy(anna)).boots;
  expect(Object.keys(after).filter((boot) => !(boot in events) && /forged/.test(boot))).toEqual([]);
  expect((await freshnessOf(anna))['lead']).toBe(before['lead']);
}
