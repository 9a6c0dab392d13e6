import type { DeskShip } from '../../app/debrief/desk-types.ts';
import { type AirTrack, airMomentAt, airTrack, driftSince, indexAt } from '../../core/debrief/air-track.ts';
import type { SmokeInterval } from '../../core/debrief/smoke-intervals.ts';
import type { SmoothTrack } from '../../core/debrief/smooth-track.ts';
import { thinLine } from '../../core/debrief/thin-line.ts';
import type { WindHistory } from '../../core/debrief/wind-history.ts';
import type { Trail } from '../../core/sky/trail.ts';
import type { AirPath } from '../../core/paths/air-path.ts';

/** A line of points in metres with the time of each, UTC: x and y in turn. */
export interface TimedLine {
  readonly xy: Float64Array;
  readonly atMilliseconds: Float64Array;
}

/** A stretch of smoke in the air-mass frame. */
export interface SmokeLine extends TimedLine {
  readonly interval: SmokeInterval;
  readonly letterIndex: number;
  readonly character: string;
}

/** A ship made ready to draw. */
export interface SceneShip {
  readonly key: string;
  readonly name: string;
  readonly zeroMilliseconds: number;
  /** In the scene's air-mass frame, laid over the planned strokes; every point that was believed. */
  readonly air: AirTrack;
  /** Few enough points to draw, one line for each stretch of reception. */
  readonly airLines: readonly TimedLine[];
  readonly groundLines: readonly TimedLine[];
  readonly smoke: readonly SmokeLine[];
  readonly planned: readonly AirPath[];
}

/** Everything the pictures need, worked out once for a set of ships. */
export interface FlownScene {
  readonly ships: readonly SceneShip[];
  readonly fromMilliseconds: number;
  /** End of the tracks; smoke may be looked at for longer. */
  readonly toMilliseconds: number;
  readonly firstSmokeMilliseconds: number | null;
  readonly lastSmokeMilliseconds: number | null;
  readonly datumMilliseconds: number;
  /** From a place laid over the plan back to its place in the air, and on to the ground at a time. */
  groundOffsetAt(atMilliseconds: number): { readonly eastMetres: number; readonly northMetres: number };
}

/** A line may leave the flown one by this much when drawn: under a pixel in any picture of a text. */
const TOLERANCE_METRES = 4;
/** Smoke is drawn thick and its curves are looked at: half a second apart, along the curve between the positions. */
const SMOKE_STEP_SECONDS = 0.5;
const SMOKE_TOLERANCE_METRES = 0.6;

/**
 * All ships in one frame, the first one's: its wind, its datum, its text laid over the plan. What the others wrote
 * then stands where it truly stood against the lead's.
 *
 * @returns null when no ship ever flew
 */
export function flownScene(ships: readonly DeskShip[]): FlownScene | null {
  const lead = ships.find(({ log }) => log.wind !== null);
  if (lead === undefined || lead.log.wind === null) return null;
  const wind = lead.log.wind;
  const laid = lead.debrief?.laid ?? { eastMetres: 0, northMetres: 0 };
  const leadDatum = lead.debrief?.datumSeconds ?? lead.log.track.atSeconds[0] ?? 0;
  const datumMilliseconds = lead.log.zeroMilliseconds + leadDatum * 1000;
  const scene = ships
    .filter(({ log }) => log.track.atSeconds.length > 1)
    .map((ship) => sceneShip(ship, wind, lead.log.zeroMilliseconds, datumMilliseconds, laid));
  if (scene.length === 0) return null;
  const bounds = scene.map(({ air, zeroMilliseconds }) => ({
    from: zeroMilliseconds + (air.atSeconds[0] ?? 0) * 1000,
    to: zeroMilliseconds + (air.atSeconds.at(-1) ?? 0) * 1000,
  }));
  const smoke = scene.flatMap((ship) =>
    ship.smoke.map(({ interval }) => ({ on: ship.zeroMilliseconds + interval.onSeconds * 1000, off: ship.zeroMilliseconds + interval.offSeconds * 1000 })),
  );
  return {
    ships: scene,
    fromMilliseconds: Math.min(...bounds.map(({ from }) => from)),
    toMilliseconds: Math.max(...bounds.map(({ to }) => to)),
    firstSmokeMilliseconds: smoke.length === 0 ? null : Math.min(...smoke.map(({ on }) => on)),
    lastSmokeMilliseconds: smoke.length === 0 ? null : Math.max(...smoke.map(({ off }) => off)),
    datumMilliseconds,
    groundOffsetAt(atMilliseconds) {
      const drift = driftSince(wind, leadDatum, (atMilliseconds - lead.log.zeroMilliseconds) / 1000);
      return { eastMetres: drift.eastMetres + laid.eastMetres, northMetres: drift.northMetres + laid.northMetres };
    },
  };
}

function sceneShip(
  ship: DeskShip,
  leadWind: WindHistory,
  leadZeroMilliseconds: number,
  datumMilliseconds: number,
  laid: { readonly eastMetres: number; readonly northMetres: number },
): SceneShip {
  const { log, debrief } = ship;
  // The lead's wind, read on this ship's own clock.
  const shiftSeconds = (leadZeroMilliseconds - log.zeroMilliseconds) / 1000;
  const wind: WindHistory = { ...leadWind, atSeconds: leadWind.atSeconds.map((at) => at + shiftSeconds) };
  const air = airTrack(log.track, wind, (datumMilliseconds - log.zeroMilliseconds) / 1000, laid);
  const toUtc = (seconds: number): number => log.zeroMilliseconds + seconds * 1000;
  return {
    key: ship.key,
    name: ship.name,
    zeroMilliseconds: log.zeroMilliseconds,
    air,
    airLines: thinLines(log, air.airEastMetres, air.airNorthMetres),
    groundLines: groundLines(log),
    smoke: (debrief?.intervals ?? []).flatMap((interval) => smokeLine(interval, air, log, toUtc)),
    planned: log.setup.strokes.map(({ path }) => path),
  };
}

/** A log's lines over the ground depend on nothing else, and the scene is worked out anew for each ship that is judged. */
const knownGroundLines = new WeakMap<SmoothTrack, readonly TimedLine[]>();

function groundLines(log: DeskShip['log']): readonly TimedLine[] {
  const known = knownGroundLines.get(log.track);
  if (known !== undefined) return known;
  const lines = thinLines(log, log.track.eastMetres, log.track.northMetres);
  knownGroundLines.set(log.track, lines);
  return lines;
}

function thinLines({ track, zeroMilliseconds }: DeskShip['log'], xs: Float64Array, ys: Float64Array): TimedLine[] {
  const starts = [...track.segmentStarts, track.atSeconds.length];
  return starts.slice(0, -1).map((from, index) => {
    const kept = thinLine(xs, ys, from, (starts[index + 1] ?? from) - 1, TOLERANCE_METRES);
    return {
      xy: Float64Array.from(kept.flatMap((at) => [xs[at] ?? 0, ys[at] ?? 0])),
      atMilliseconds: Float64Array.from(kept, (at) => zeroMilliseconds + (track.atSeconds[at] ?? 0) * 1000),
    };
  });
}

function smokeLine(interval: SmokeInterval, air: AirTrack, { setup }: DeskShip['log'], toUtc: (seconds: number) => number): SmokeLine[] {
  const count = Math.max(1, Math.ceil((interval.offSeconds - interval.onSeconds) / SMOKE_STEP_SECONDS));
  const points = Array.from({ length: count + 1 }, (_, step) => interval.onSeconds + ((interval.offSeconds - interval.onSeconds) * step) / count).flatMap(
    (at) => {
      const moment = airMomentAt(air, at);
      return moment === null ? [] : [{ x: moment.airEastMetres, y: moment.airNorthMetres, at }];
    },
  );
  if (points.length < 2) return [];
  const xs = Float64Array.from(points, ({ x }) => x);
  const ys = Float64Array.from(points, ({ y }) => y);
  const kept = thinLine(xs, ys, 0, points.length - 1, SMOKE_TOLERANCE_METRES).flatMap((index) => points[index] ?? []);
  const stroke = interval.strokeIndex === null ? undefined : setup.strokes[interval.strokeIndex];
  return [
    {
      interval,
      letterIndex: stroke?.letterIndex ?? -1,
      character: stroke?.character ?? '',
      xy: Float64Array.from(kept.flatMap(({ x, y }) => [x, y])),
      atMilliseconds: Float64Array.from(kept, ({ at }) => toUtc(at)),
    },
  ];
}

/** How many points of a line were passed by a time, and the place reached between the last of them and the next; null before the line begins. */
export function lineUntil(
  { xy, atMilliseconds }: TimedLine,
  untilMilliseconds: number,
): { readonly count: number; readonly x: number; readonly y: number } | null {
  const index = indexAt(atMilliseconds, untilMilliseconds);
  if (index < 0) return null;
  const next = Math.min(index + 1, atMilliseconds.length - 1);
  const from = atMilliseconds[index] ?? 0;
  const span = (atMilliseconds[next] ?? from) - from;
  const share = span > 0 ? Math.min(1, (untilMilliseconds - from) / span) : 0;
  const mixed = (offset: number): number => (xy[2 * index + offset] ?? 0) * (1 - share) + (xy[2 * next + offset] ?? 0) * share;
  return { count: index + 1, x: mixed(0), y: mixed(1) };
}

/** The smoke of a scene as the sky's picture takes it: true places in the air of the datum, times since the datum. */
export function sceneTrails({ ships, datumMilliseconds, groundOffsetAt }: FlownScene, kilogramsPerMetre: number): Trail[] {
  const laid = groundOffsetAt(datumMilliseconds);
  return ships.flatMap((ship, shipIndex) =>
    ship.smoke.map(({ xy, atMilliseconds, letterIndex, character }): Trail => ({
      shipIndex,
      letterIndex,
      character,
      kilogramsPerMetre,
      heightStepMetres: 0,
      points: Array.from(atMilliseconds, (at, index) => ({
        airEastMetres: (xy[2 * index] ?? 0) + laid.eastMetres,
        airNorthMetres: (xy[2 * index + 1] ?? 0) + laid.northMetres,
        laidAtSeconds: (at - datumMilliseconds) / 1000,
      })),
    })),
  );
}
