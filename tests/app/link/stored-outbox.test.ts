import 'fake-indexeddb/auto';
import { describe, expect, it } from 'vitest';
import { createStoredOutbox } from '../../../src/app/link/stored-outbox.ts';
import { createDatabase } from '../../../src/store/database.ts';
import { readMessages } from '../../../src/store/outbox.ts';

const HOUR = 3_600_000;
let count = 0;

function outboxAt() {
  const database = createDatabase({ name: `outbox-${(count += 1)}` });
  const clock = { now: 1_800_000_000_000 };
  return { database, clock, outbox: createStoredOutbox(database, () => clock.now) };
}
const message = (boot: string, sequence: number, topic = 't') => ({ boot, sequence, topic, payloadText: `${boot}${sequence}`, acknowledged: false });

describe('the stored outbox', () => {
  it('keeps what was told, in order, told or not', async () => {
    const { outbox, clock } = outboxAt();
    for (const each of [message('zz', 0), message('zz', 1)]) await outbox.put(each);
    clock.now += 1000;
    await outbox.put(message('aa', 0));
    await outbox.put(message('aa', 0, 'other'));
    await outbox.acknowledge({ boot: 'zz', sequence: 1 });
    expect((await outbox.read('t')).map(({ boot, sequence, acknowledged }) => [boot, sequence, acknowledged])).toEqual([
      ['zz', 0, false],
      ['zz', 1, true],
      ['aa', 0, false],
    ]);
  });

  it('forgets what was told after twelve hours and what was not after a week', async () => {
    const { outbox, clock, database } = outboxAt();
    await outbox.put(message('a', 0));
    await outbox.put(message('a', 1));
    await outbox.acknowledge({ boot: 'a', sequence: 0 });
    clock.now += 13 * HOUR;
    expect((await outbox.read('t')).map(({ sequence }) => sequence)).toEqual([1]);
    clock.now += 7 * 24 * HOUR;
    expect(await outbox.read('t')).toEqual([]);
    await new Promise((resolve) => setTimeout(resolve, 50));
    expect(await readMessages(database)).toEqual([]);
  });
});
