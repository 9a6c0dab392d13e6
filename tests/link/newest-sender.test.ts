import { describe, expect, it } from 'vitest';
import type { Connection } from '../../src/link/connection.ts';
import { createNewestSender } from '../../src/link/newest-sender.ts';

/** A connection whose publishing ends when the test says so. */
function heldConnection() {
  const sent: string[] = [];
  const ends: { readonly arrive: () => void; readonly fail: () => void }[] = [];
  const publish: Connection['publish'] = (_topic, payloadText) => {
    sent.push(payloadText);
    return new Promise((resolve, reject) => ends.push({ arrive: () => resolve(), fail: () => reject(new Error('gone')) }));
  };
  return { sent, ends, connection: { publish } as Connection };
}
const settled = (): Promise<void> => new Promise((resolve) => setTimeout(resolve));

describe('createNewestSender', () => {
  it('sends at once, and of what comes meanwhile only the newest', async () => {
    const { sent, ends, connection } = heldConnection();
    const sender = createNewestSender(() => 'state');
    for (const payload of ['one', 'two', 'three']) sender.tell(connection, payload);
    expect(sent).toEqual(['one']);
    ends[0]!.arrive();
    await settled();
    expect(sent).toEqual(['one', 'three']);
    ends[1]!.arrive();
    await settled();
    expect(sent).toHaveLength(2);
  });

  it('goes on after a failure with what comes next, and forgets what waited for a lost connection', async () => {
    const first = heldConnection();
    const sender = createNewestSender(() => 'state');
    sender.tell(first.connection, 'one');
    first.ends[0]!.fail();
    await settled();
    sender.tell(first.connection, 'two');
    sender.tell(first.connection, 'three');
    expect(first.sent).toEqual(['one', 'two']);
    sender.lost();
    const second = heldConnection();
    sender.tell(second.connection, 'four');
    first.ends[1]!.arrive();
    await settled();
    expect(first.sent).toEqual(['one', 'two']);
    expect(second.sent).toEqual(['four']);
  });
});
