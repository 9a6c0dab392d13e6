import { describe, expect, it } from 'vitest';
import { createOneWriter } from '../../src/store/one-writer.ts';

/** Web Locks' queue for one exclusive lock, with the holder's page killed by `release`. */
function fakeLocks(): { readonly locks: LockManager; release(): void } {
  const waiting: (() => void)[] = [];
  let held = false;
  const next = (): void => {
    const grant = held ? undefined : waiting.shift();
    if (grant) {
      held = true;
      grant();
    }
  };
  const request = (_name: string, callback: () => unknown): Promise<unknown> =>
    new Promise((resolve) => {
      waiting.push(() => resolve(callback()));
      queueMicrotask(next);
    });
  return {
    locks: { request, query: () => Promise.resolve({}) } as unknown as LockManager,
    release() {
      held = false;
      next();
    },
  };
}

const wait = (seconds: number): Promise<void> => new Promise((resolve) => setTimeout(resolve, seconds * 1000));

describe('one writer', () => {
  it('lets the first tab write and the second only read', async () => {
    const { locks } = fakeLocks();
    const first = createOneWriter(locks);
    await first.permitWriting();
    const second = createOneWriter(locks);
    expect(second.state()).toBe('asking');
    await expect(second.permitWriting()).rejects.toMatchObject({ reason: 'read-only' });
    expect(first.state()).toBe('writer');
    expect(second.state()).toBe('reader');
  });

  it('makes the second tab the writer when the first dies', async () => {
    const { locks, release } = fakeLocks();
    createOneWriter(locks);
    const second = createOneWriter(locks);
    await expect(second.permitWriting()).rejects.toMatchObject({ reason: 'read-only' });
    const changes: string[] = [];
    second.subscribe(() => changes.push(second.state()));
    release();
    await second.permitWriting();
    expect(changes).toEqual(['writer']);
  });

  it('waits a moment for a page that is being reloaded', async () => {
    const { locks, release } = fakeLocks();
    createOneWriter(locks);
    const reloaded = createOneWriter(locks);
    setTimeout(release, 200);
    await reloaded.permitWriting();
    expect(reloaded.state()).toBe('writer');
    await wait(0.6);
    expect(reloaded.state()).toBe('writer');
  });

  it('says when it cannot notice a second tab', async () => {
    const writer = createOneWriter(undefined);
    await writer.permitWriting();
    expect(writer.state()).toBe('unguarded');
  });
});
