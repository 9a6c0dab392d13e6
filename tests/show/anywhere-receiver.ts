import { cuesFrom } from '../../src/core/guidance/cues-from.ts';
import { type GuidanceState, initialState } from '../../src/core/guidance/guidance-state.ts';
import { flightSetupFromJob } from '../../src/core/guidance/flight-setup-from-job.ts';
import { planJob } from '../../src/core/plan/plan-job.ts';
import { metresFromFeet } from '../../src/core/units/quantity.ts';
import { wordJob } from '../../e2e/flight/fly-word.ts';
import { reduce } from '../../src/core/guidance/reduce.ts';
import { startRehearsal, stepRehearsal } from '../../src/core/guidance/rehearsal-aircraft.ts';
import type { Fix } from '../../src/core/tracking/fix.ts';
import { type SerialReceiver, serialPosition } from '../../src/sensors/serial-position.ts';
import { drawPolylines } from '../flight/draw-strokes.ts';
import { openTextReader } from '../flight/read-text.ts';
import { seenFromBelow } from '../flight/smoke-from-below.ts';

const START_MILLISECONDS = Date.UTC(2027, 6, 17, 15);
const LONGEST_TICKS = 12_000;

/** A word flown with a receiver of 10 Hz on a serial port, and what it cost. */
export interface ReceiverFlight {
  readonly read: string;
  readonly finished: boolean;
  readonly fixes: number;
  /** From the last byte of a fix's sentences to the fix, real milliseconds. */
  readonly medianMilliseconds: number;
  readonly worstMilliseconds: number;
}

const withSum = (body: string): string =>
  `$${body}*${[...body]
    .reduce((sum, character) => sum ^ character.charCodeAt(0), 0)
    .toString(16)
    .toUpperCase()
    .padStart(2, '0')}\r\n`;

/** A fix as a receiver sends it: GGA and RMC (NMEA 0183, IEC 61162-1). */
function sentences({ latitudeDegrees, longitudeDegrees, altitudeMetres, groundSpeedMetresPerSecond, trackDegrees }: Fix, milliseconds: number): string {
  const time = new Date(milliseconds).toISOString().slice(11, 22).replaceAll(':', '');
  const angle = (degrees: number, digits: number): string => {
    const size = Math.abs(degrees);
    return `${String(Math.floor(size)).padStart(digits, '0')}${((size % 1) * 60).toFixed(6).padStart(9, '0')}`;
  };
  const place = `${angle(latitudeDegrees, 2)},${latitudeDegrees < 0 ? 'S' : 'N'},${angle(longitudeDegrees, 3)},${longitudeDegrees < 0 ? 'W' : 'E'}`;
  const knots = groundSpeedMetresPerSecond === null ? '' : (groundSpeedMetresPerSecond * (3600 / 1852)).toFixed(2);
  return (
    withSum(`GNGGA,${time},${place},1,12,0.7,${(altitudeMetres ?? 0).toFixed(1)},M,0.0,M,,`) +
    withSum(`GNRMC,${time},A,${place},${knots},${trackDegrees === null ? '' : trackDegrees.toFixed(2)},170727,,,A`)
  );
}

/** Flies a word with every position on its way through the sentences of a fake port. */
export async function flyWithReceiver(word: string, { intervalSeconds = 0.1, latencySeconds = 0.15 } = {}): Promise<ReceiverFlight> {
  const job = wordJob(word);
  const planned = planJob(job);
  if (!planned.ok) throw new RangeError(`${word} has no plan`);
  // As the app flies it: a setup without a hanging is one of an older log, and flown as then.
  const made = flightSetupFromJob(job, planned.value.plan, 0, { kind: 'first-smoke' }, Date.parse(job.readTime), null);
  if (!made.ok) throw new RangeError(made.reason);
  const { setup } = made;
  const first = setup.strokes[0]?.path.start;
  if (first === undefined) throw new RangeError(`${word} has no stroke`);
  const settings = {
    seed: 11,
    skill: 'ordinary' as const,
    wind: { eastMetresPerSecond: setup.forecastWind.eastMetresPerSecond - 3, northMetresPerSecond: setup.forecastWind.northMetresPerSecond + 2 },
    startEastMetres: first.airEastMetres - 2500,
    startNorthMetres: first.airNorthMetres - 1500,
    startHeadingDegrees: 40,
    fixIntervalSeconds: intervalSeconds,
    fixNoiseMetres: 1.5,
    fixLatencySeconds: latencySeconds,
  };
  let aircraft = startRehearsal(setup, settings);
  let state: GuidanceState = reduce(initialState, { kind: 'flightStarted', setup, atSeconds: 0, wallMilliseconds: START_MILLISECONDS });
  let push: (text: string) => void = () => {};
  const port: SerialReceiver = {
    readable: new ReadableStream<Uint8Array<ArrayBuffer>>({
      start: (controller) => void (push = (text) => controller.enqueue(new TextEncoder().encode(text))),
    }),
    open: async () => {},
    close: async () => {},
  };
  let heard: Fix[] = [];
  const end = serialPosition(port, 115_200).start({ fixReceived: (fix) => void heard.push(fix), fixesLost: () => {} });
  const late: number[] = [];
  let fixes = 0;
  let [eastDrift, northDrift] = [0, 0];
  const trails: { airEastMetres: number; airNorthMetres: number; laidAtSeconds: number }[][] = [];
  let smoking = false;
  for (let tick = 1; tick < LONGEST_TICKS && cuesFrom(state).phase !== 'finished'; tick += 1) {
    const step = stepRehearsal(aircraft, { kind: 'cues', cues: cuesFrom(state) }, 0.1);
    aircraft = step.aircraft;
    eastDrift += (settings.wind.eastMetresPerSecond + aircraft.windWander.eastMetresPerSecond) * 0.1;
    northDrift += (settings.wind.northMetresPerSecond + aircraft.windWander.northMetresPerSecond) * 0.1;
    if (aircraft.smokeOn) {
      if (!smoking) trails.push([]);
      trails.at(-1)?.push({ airEastMetres: aircraft.eastMetres - eastDrift, airNorthMetres: aircraft.northMetres - northDrift, laidAtSeconds: tick / 10 });
    }
    smoking = aircraft.smokeOn;
    const now = { atSeconds: tick / 10, wallMilliseconds: START_MILLISECONDS + tick * 100 };
    for (const { fix, ageSeconds } of step.fixes) {
      const pushed = performance.now();
      heard = [];
      push(sentences(fix, now.wallMilliseconds - ageSeconds * 1000));
      while (heard.length === 0 && performance.now() - pushed < 50) await new Promise((resolve) => setImmediate(resolve));
      late.push(performance.now() - pushed);
      for (const through of heard) {
        fixes += 1;
        state = reduce(state, { kind: 'fixReceived', fix: through, ...now });
      }
    }
    state = reduce(state, { kind: 'clockAdvanced', ...now });
  }
  end();
  const reader = await openTextReader();
  const picture = drawPolylines(seenFromBelow(trails as never, job.facingDegreesTrue), { letterHeightMetres: metresFromFeet(job.letters.heightFeet) });
  const { text } = await reader.read(picture);
  await reader.close();
  late.sort((one, other) => one - other);
  return {
    read: text,
    finished: cuesFrom(state).phase === 'finished',
    fixes,
    medianMilliseconds: late[late.length >> 1] ?? Number.NaN,
    worstMilliseconds: late.at(-1) ?? Number.NaN,
  };
}
