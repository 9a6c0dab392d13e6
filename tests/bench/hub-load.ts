import { readFileSync } from 'node:fs';
import { type LightClient, lightClient } from './light-client.ts';

/** How many of whom, over how many jobs, for how long. */
export interface LoadPlan {
  readonly jobs: number;
  readonly ships: number;
  readonly observers: number;
  readonly seconds: number;
}

/** What came of a load. */
export interface LoadMeasure {
  readonly sent: number;
  /** What every observer of a job should have had of that job's ships. */
  readonly wanted: number;
  readonly delivered: number;
  readonly medianMilliseconds: number;
  readonly p99Milliseconds: number;
  readonly longestMilliseconds: number;
  /** Processor time of the broker over the load, microseconds for each delivery, and memory for each client that came, kilobytes. */
  readonly microsecondsPerDelivery: number;
  readonly kilobytesPerClient: number;
  /** What one observer was brought in a second. */
  readonly deliveriesPerObserverSecond: number;
  /** Resident memory of the broker's process, before the clients came and at its highest. */
  readonly idleMegabytes: number;
  readonly peakMegabytes: number;
}

/** Names of the load's users; the password of each is its name doubled. */
export const loadUsers = (ships: number, observers: number): { readonly name: string; readonly role: 'ship' | 'ground' }[] => [
  ...Array.from({ length: ships }, (_, index) => ({ name: `ship-${index}`, role: 'ship' as const })),
  ...Array.from({ length: observers }, (_, index) => ({ name: `eye-${index}`, role: 'ground' as const })),
];

/** A position's message is about this long. */
const PAYLOAD_CHARACTERS = 420;
const CONNECTING_AT_ONCE = 25;
const SETTLE_MILLISECONDS = 3000;

/**
 * Each ship tells its place once a second, ships spread evenly over the second; each observer listens to all ships of
 * its job. Senders and receivers are one process with one clock, so a delivery's time is exact, and includes the time
 * that this process takes to look at it.
 */
export async function measureLoad(
  addresses: readonly string[],
  processIds: readonly number[],
  { jobs, ships, observers, seconds }: LoadPlan,
): Promise<LoadMeasure> {
  const resident = (): number => processIds.reduce((sum, processId) => sum + residentMegabytes(processId), 0);
  const idleMegabytes = resident();
  const delays: number[] = [];
  const onPublish = (payload: Buffer): void => {
    // The time of sending stands first: {"t":1234.5,...
    delays.push(performance.now() - Number.parseFloat(payload.subarray(5, 25).toString('latin1')));
  };
  const connected = async (role: string, index: number, heard: (payload: Buffer) => void): Promise<LightClient> =>
    // Ships and observers of one job stand on different nodes.
    lightClient(addresses[(index + (role === 'eye' ? 1 : 0)) % addresses.length] ?? '', `${role}-${index}`, `${role}-${index}`.repeat(2), heard);
  const flying = await inGroups(ships, (index) => connected('ship', index, () => {}));
  const watching = await inGroups(observers, async (index) => {
    const client = await connected('eye', index, onPublish);
    await client.subscribe(`quillwind/1/job-${index % jobs}/ship/+/state`);
    return client;
  });
  let peakMegabytes = resident();
  const kilobytesPerClient = ((peakMegabytes - idleMegabytes) * 1024) / (ships + observers);
  const usedBefore = usedSeconds(processIds);
  let sent = 0;
  let wanted = 0;
  const filler = 'x'.repeat(PAYLOAD_CHARACTERS);
  const timers: NodeJS.Timeout[] = [];
  const observersOf = (job: number): number => Math.floor((observers - 1 - job) / jobs) + 1;
  for (const [index, ship] of flying.entries()) {
    const tell = (): void => {
      sent += 1;
      wanted += observersOf(index % jobs);
      ship.publish(`quillwind/1/job-${index % jobs}/ship/ship-${index}/state`, `{"t":${performance.now().toFixed(3)},"filler":"${filler}"}`);
    };
    timers.push(setTimeout(() => void timers.push(setInterval(tell, 1000)), (1000 * index) / ships));
  }
  for (let passed = 0; passed < seconds; passed += 1) {
    await pause(1000);
    peakMegabytes = Math.max(peakMegabytes, resident());
  }
  for (const timer of timers) clearInterval(timer);
  await pause(SETTLE_MILLISECONDS);
  const microsecondsPerDelivery = ((usedSeconds(processIds) - usedBefore) * 1e6) / Math.max(1, delays.length);
  for (const client of [...flying, ...watching]) client.close();
  delays.sort((one, other) => one - other);
  const at = (share: number): number => delays[Math.min(delays.length - 1, Math.floor(share * delays.length))] ?? Number.NaN;
  return {
    sent,
    wanted,
    delivered: delays.length,
    medianMilliseconds: at(0.5),
    p99Milliseconds: at(0.99),
    longestMilliseconds: at(1),
    microsecondsPerDelivery,
    kilobytesPerClient,
    deliveriesPerObserverSecond: delays.length / observers / seconds,
    idleMegabytes,
    peakMegabytes,
  };
}

async function inGroups<Made>(count: number, make: (index: number) => Promise<Made>): Promise<Made[]> {
  const made: Made[] = [];
  for (let from = 0; from < count; from += CONNECTING_AT_ONCE) {
    made.push(...(await Promise.all(Array.from({ length: Math.min(CONNECTING_AT_ONCE, count - from) }, (_, index) => make(from + index)))));
  }
  return made;
}

function residentMegabytes(processId: number): number {
  const kilobytes = /VmRSS:\s+(\d+) kB/.exec(readFileSync(`/proc/${processId}/status`, 'utf8'))?.[1];
  return Number(kilobytes ?? Number.NaN) / 1024;
}

/** Processor time so far, from fields 14 and 15 of the process's line in hundredths of a second (proc(5)). */
function usedSeconds(processIds: readonly number[]): number {
  return processIds.reduce((sum, processId) => {
    const fields = readFileSync(`/proc/${processId}/stat`, 'utf8')
      .replace(/^.*\) /, '')
      .split(' ');
    return sum + (Number(fields[11]) + Number(fields[12])) / 100;
  }, 0);
}

function pause(milliseconds: number): Promise<void> {
  return new Promise((resolve) => setTimeout(resolve, milliseconds));
}
