import type { MqttClient } from 'mqtt';
import type { Connect, Connection, ConnectionEnd, ConnectionListener } from './connection.ts';

/** A socket that holds more than this unsent is not asked to hold newer positions. */
const UNSENT_BYTES = 4096;

/**
 * Connects by MQTT 3.1.1 over WebSocket. The library is fetched when first needed, from the precache when offline.
 * The session is clean: what was missed is asked of its sender, so no broker has to keep it. The library neither
 * reconnects, nor resubscribes, nor keeps unsent messages: this project does, where it can show it.
 */
export const connectByMqtt: Connect = async (options, listener) => {
  // The library's build for browsers exports nothing by name.
  const { default: mqtt } = await import('mqtt');
  const client = mqtt.connect(options.address, {
    protocolVersion: 4,
    clientId: options.user,
    username: options.user,
    password: options.password,
    clean: true,
    keepalive: options.keepaliveSeconds,
    reconnectPeriod: 0,
    resubscribe: false,
    queueQoSZero: false,
    connectTimeout: 30_000,
    browserBufferSize: UNSENT_BYTES,
    will: { topic: options.will.topic, payload: options.will.payloadText as unknown as Buffer, qos: 1, retain: true },
  });
  listen(client, listener);
  return connectionOf(client);
};

function listen(client: MqttClient, listener: ConnectionListener): void {
  let opened = false;
  let over = false;
  let fault: ConnectionEnd | null = null;
  client.on('connect', () => {
    opened = true;
    if (!over) listener.opened();
  });
  client.on('packetreceive', () => {
    if (!over) listener.heard();
  });
  client.on('message', (topic, payload, packet) => {
    if (!over) listener.received(topic, payload, packet.retain);
  });
  client.on('error', (error) => {
    fault ??= endFrom(error);
  });
  client.on('close', () => {
    if (over) return;
    over = true;
    listener.ended(fault ?? { kind: opened ? 'broken' : 'unreachable', detail: '' });
    // Without this the client keeps its timers.
    client.end(true);
  });
}

/** CONNACK return codes 2, 4 and 5 (MQTT 3.1.1, table 3.1): identifier, user or password, authorization. */
const REFUSALS: readonly unknown[] = [2, 4, 5];

function endFrom(error: Error): ConnectionEnd {
  const code: unknown = 'code' in error ? error.code : undefined;
  return REFUSALS.includes(code) ? { kind: 'refused', detail: error.message } : { kind: 'unreachable', detail: error.message };
}

function connectionOf(client: MqttClient): Connection {
  return {
    async publish(topic, payloadText, { qos, retain }) {
      await client.publishAsync(topic, payloadText, { qos, retain });
    },
    async subscribe(topics) {
      const wanted = Object.fromEntries(Object.entries(topics).map(([topic, qos]) => [topic, { qos }]));
      // Some versions of the library reject when a single topic is refused.
      const granted = await new Promise<readonly { readonly topic: string; readonly qos: number }[]>((resolve, reject) => {
        client.subscribe(wanted, (error, grants, packet) => {
          const codes = packet?.granted;
          if (Array.isArray(codes)) resolve(Object.keys(topics).map((topic, index) => ({ topic, qos: Number(codes[index]) })));
          else if (error !== null) reject(error);
          else resolve(grants ?? []);
        });
      });
      return granted.filter(({ qos }) => qos >= 128).map(({ topic }) => topic);
    },
    ping() {
      if (client.connected) client.sendPing();
    },
    async leave() {
      await client.endAsync();
    },
    drop() {
      client.end(true);
    },
  };
}
