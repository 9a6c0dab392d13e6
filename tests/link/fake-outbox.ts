import type { LinkOutbox, OutboxMessage } from '../../src/link/event-sender.ts';

/** An outbox in memory; its writes can be made to fail. */
export function createFakeOutbox(kept: readonly OutboxMessage[] = []): LinkOutbox & { readonly messages: Map<string, OutboxMessage>; failing: boolean } {
  const messages = new Map(kept.map((message) => [`${message.boot}/${message.sequence}`, message]));
  return {
    messages,
    failing: false,
    async put(message) {
      if (this.failing) throw new Error('no room');
      messages.set(`${message.boot}/${message.sequence}`, message);
    },
    async acknowledge({ boot, sequence }) {
      const key = `${boot}/${sequence}`;
      const message = messages.get(key);
      if (message !== undefined) messages.set(key, { ...message, acknowledged: true });
    },
    read: async (topic) => [...messages.values()].filter((message) => message.topic === topic),
  };
}
