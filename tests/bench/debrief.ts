import { createCanvas } from '@napi-rs/canvas';
import type { DeskShip } from '../../src/app/debrief/desk-types.ts';
import { shipLog } from '../../src/core/debrief/ship-log.ts';
import { type FlownPicture, paintMoment, paintStill } from '../../src/ui/debrief/flown-canvas.ts';
import { flownScene } from '../../src/ui/debrief/flown-scene.ts';
import { setupFor } from '../core/debrief/flown-word.ts';
import { uniformFrom } from '../flight/random.ts';
import { benchDebriefPage } from './debrief-page.ts';
import { longLog } from './long-log.ts';
import { median } from './planner-measures.ts';

const SHIPS = 3;
const OPENINGS = 5;
const FRAMES = 300;

/**
 * Opening a log of three hours, three ships and five fixes a second, until it can be drawn and scrubbed: smoothing,
 * wind, the frame of the air, thinned lines. Then what a frame of scrubbing draws, on a real canvas. The replay of the
 * cues runs in a worker beside it and is not part of either.
 */
export async function benchDebrief(): Promise<void> {
  const logs = Array.from({ length: SHIPS }, (_, index) => longLog(index, setupFor('HI', { shipIndex: index, shipName: `Ship ${index + 1}` })));
  console.log(`${logs.reduce((sum, events) => sum + events.length, 0)} events in ${SHIPS} logs`);
  const opened = Array.from({ length: OPENINGS }, () => {
    const begun = performance.now();
    const used = process.cpuUsage();
    const ships = logs.map((events, index): DeskShip => ({
      key: String(index),
      name: `Ship ${index + 1}`,
      kind: 'flight',
      log: shipLog(events)!,
      seen: [],
      debrief: null,
    }));
    const scene = flownScene(ships)!;
    const { user, system } = process.cpuUsage(used);
    return { milliseconds: performance.now() - begun, cpuMilliseconds: (user + system) / 1000, scene };
  });
  const times = opened.map(({ milliseconds }) => milliseconds);
  console.log(
    `opening: median ${median(times).toFixed(0)} ms, first ${times[0]!.toFixed(0)} ms, of processor time ${median(opened.map(({ cpuMilliseconds }) => cpuMilliseconds)).toFixed(0)} ms (aim: under 1000)`,
  );
  const scene = opened.at(-1)!.scene;
  const canvas = createCanvas(1024, 560);
  const context = canvas.getContext('2d') as unknown as CanvasRenderingContext2D;
  const picture: FlownPicture = {
    widthPixels: 1024,
    heightPixels: 560,
    overGround: false,
    view: { pixelsPerMetre: 0.05, turnRadians: 0, mirrored: false, originXPixels: 512, originUpPixels: 280 },
    colours: { ground: '#fff', mark: '#000', quiet: '#333', smoke: '#000', planned: '#bbb', way: '#666', raised: '#fff' },
  };
  const still = performance.now();
  paintStill(context, scene, picture);
  console.log(`still picture, once for a view: ${(performance.now() - still).toFixed(0)} ms`);
  const random = uniformFrom(9);
  const frames = Array.from({ length: FRAMES }, () => {
    const at = scene.fromMilliseconds + random() * (scene.toMilliseconds - scene.fromMilliseconds);
    const begun = performance.now();
    context.clearRect(0, 0, 1024, 560);
    paintMoment(context, scene, picture, at);
    return performance.now() - begun;
  }).toSorted((one, other) => one - other);
  console.log(
    `a frame of scrubbing: median ${median(frames).toFixed(2)} ms, 99th percentile ${frames[Math.floor(0.99 * FRAMES)]!.toFixed(2)} ms (a frame at 60 a second has 16.7 ms)`,
  );
  await benchDebriefPage();
}
