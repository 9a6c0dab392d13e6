import { expose } from 'comlink';
import { afterEach, describe, expect, test } from 'vitest';
import { createReplay } from '../../src/core/debrief/replay.ts';
import { offPageOn } from '../../src/workers/off-page.ts';
import { type ReplayClient, startReplay } from '../../src/workers/replay-client.ts';
import { createReplayService } from '../../src/workers/replay-service.ts';
import { flyWord, worldFor } from '../core/debrief/flown-word.ts';

const { events } = flyWord('I', worldFor(51));

// The service behind a message channel: everything crosses by structured clone, as between page and worker.
const channels: MessageChannel[] = [];
function connected(): ReplayClient {
  const channel = new MessageChannel();
  channels.push(channel);
  expose({ replay: createReplayService() }, channel.port1);
  return startReplay(offPageOn(channel.port2, 'replay'));
}
afterEach(() => {
  for (const { port1, port2 } of channels.splice(0)) {
    port1.close();
    port2.close();
  }
});

describe('a replay off the page', () => {
  test('gives what a replay on the page gives, at the end and at any time', async () => {
    const here = createReplay(events);
    here.advance(events.length);
    const there = connected();
    const fractions: number[] = [];
    expect(await there.run(events, (fraction) => fractions.push(fraction))).toEqual(here.replayed());
    const reported = fractions.length;
    await new Promise((resolve) => setTimeout(resolve, 50));
    // Nothing is reported once the answer is there.
    expect(fractions).toHaveLength(reported);
    expect(reported).toBeGreaterThan(3);
    expect(fractions).toEqual(fractions.toSorted((one, other) => one - other));
    for (const share of [0.9, 0.1, 0.5]) {
      const at = here.startSeconds + share * (here.endSeconds - here.startSeconds);
      expect(await there.cuesAt(at)).toEqual(here.cuesAt(at));
    }
  });

  test('answers while it runs, and not after it is disposed of', async () => {
    const there = connected();
    const running = there.run(events, () => {});
    expect(await there.cuesAt(1e9)).toBeNull();
    there.dispose();
    expect(await there.cuesAt(0)).toBeNull();
    await Promise.race([running, new Promise((resolve) => setTimeout(resolve, 200))]);
  });

  test('an empty log is an empty replay', async () => {
    expect(await connected().run([], () => {})).toMatchObject({ changes: [], datumSeconds: null });
  });
});
