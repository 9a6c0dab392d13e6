import { PEN_NIB, PEN_NIB_SLIT } from '../drawing/pen-nib.ts';
import { airMomentAt } from '../../core/debrief/air-track.ts';
import { type PictureView, pictureDirection, picturePoint } from '../drawing/picture-view.ts';
import { drawPlanePath, planePathFromAir } from '../drawing/plane-path.ts';
import { createPolylineSink } from '../drawing/polyline-sink.ts';
import { type FlownScene, lineUntil, type SceneShip, type TimedLine } from './flown-scene.ts';

/** The colours of the drawing, as CSS writes them. */
export interface FlownColours {
  readonly ground: string;
  readonly mark: string;
  readonly quiet: string;
  readonly smoke: string;
  readonly planned: string;
  readonly way: string;
  readonly raised: string;
}

/** A picture of a given size on a given view. */
export interface FlownPicture {
  readonly widthPixels: number;
  readonly heightPixels: number;
  readonly view: PictureView;
  /** Places are over the ground, and the smoke drifts; else in the air, and it stands still. */
  readonly overGround: boolean;
  readonly colours: FlownColours;
}

const PLANNED_PIXELS = 7;
const SMOKE_PIXELS = 3.4;
/** The last minute of the way stands out of the rest. */
const RECENT_MILLISECONDS = 60_000;
/** The second and third ship by the stroke's texture, never by colour alone. */
const DASHES: readonly (readonly number[])[] = [[], [10, 4], [3, 5]];

/** What does not change while time goes by: planned strokes, the whole way, the site. Drawn once for a view. */
export function paintStill(context: CanvasRenderingContext2D, scene: FlownScene, picture: FlownPicture): void {
  const { colours, view, widthPixels, heightPixels, overGround } = picture;
  context.clearRect(0, 0, widthPixels, heightPixels);
  context.lineCap = 'round';
  context.lineJoin = 'round';
  if (!overGround) {
    context.strokeStyle = colours.planned;
    context.lineWidth = PLANNED_PIXELS;
    for (const ship of scene.ships) {
      for (const path of ship.planned) {
        const line = createPolylineSink(20);
        drawPlanePath(planePathFromAir(path), line);
        trace(
          context,
          line.points().flatMap(({ xPixels, upPixels }) => [xPixels, upPixels]),
          picture,
        );
        context.stroke();
      }
    }
  }
  context.strokeStyle = colours.way;
  context.lineWidth = 0.9;
  for (const ship of scene.ships) {
    for (const line of overGround ? ship.groundLines : ship.airLines) {
      trace(context, line.xy, picture);
      context.stroke();
    }
  }
  if (!overGround) return;
  const site = picturePoint(0, 0, view);
  context.fillStyle = colours.mark;
  context.beginPath();
  // The crowd: three heads.
  for (const [x, y, r] of [
    [-6, 0, 3.2],
    [0, -3, 3.8],
    [6, 0, 3.2],
  ] as const) {
    context.moveTo(site.xPixels + x + r, heightPixels - site.upPixels + y);
    context.arc(site.xPixels + x, heightPixels - site.upPixels + y, r, 0, 2 * Math.PI);
  }
  context.fill();
}

/** What a moment adds: smoke so far, the way of the last minute, the ships. */
export function paintMoment(context: CanvasRenderingContext2D, scene: FlownScene, picture: FlownPicture, atMilliseconds: number): void {
  const { colours, overGround } = picture;
  const shift = overGround ? scene.groundOffsetAt(atMilliseconds) : { eastMetres: 0, northMetres: 0 };
  context.lineCap = 'round';
  context.lineJoin = 'round';
  scene.ships.forEach((ship, index) => {
    context.setLineDash([...(DASHES[index % DASHES.length] ?? [])]);
    context.strokeStyle = colours.smoke;
    context.lineWidth = SMOKE_PIXELS;
    for (const line of ship.smoke) {
      traceUntil(context, line, atMilliseconds, picture, shift.eastMetres, shift.northMetres);
      context.stroke();
    }
    context.setLineDash([]);
    context.strokeStyle = colours.quiet;
    context.lineWidth = 1.4;
    for (const line of overGround ? ship.groundLines : ship.airLines) {
      traceBetween(context, line, atMilliseconds - RECENT_MILLISECONDS, atMilliseconds, picture);
      context.stroke();
    }
  });
  for (const ship of scene.ships) paintShip(context, ship, picture, atMilliseconds, scene.ships.length > 1);
}

function paintShip(
  context: CanvasRenderingContext2D,
  ship: SceneShip,
  { view, heightPixels, overGround, colours }: FlownPicture,
  atMilliseconds: number,
  named: boolean,
): void {
  const seconds = (atMilliseconds - ship.zeroMilliseconds) / 1000;
  const moment = airMomentAt(ship.air, seconds);
  if (moment === null) return;
  const ground = overGround ? groundPlace(ship, atMilliseconds) : null;
  if (overGround && ground === null) return;
  const { xPixels, upPixels } =
    ground === null ? picturePoint(moment.airEastMetres, moment.airNorthMetres, view) : picturePoint(ground.eastMetres, ground.northMetres, view);
  const smoking = ship.smoke.some(({ interval }) => seconds >= interval.onSeconds && seconds < interval.offSeconds);
  const x = xPixels;
  const y = heightPixels - upPixels;
  context.save();
  context.translate(x, y);
  context.rotate(-pictureDirection(moment.directionRadians, view));
  const nib = new Path2D(PEN_NIB);
  context.fillStyle = smoking ? colours.mark : colours.raised;
  context.strokeStyle = smoking ? colours.raised : colours.mark;
  context.lineWidth = 1.6;
  context.fill(nib);
  context.stroke(nib);
  context.lineWidth = 0.9;
  context.stroke(new Path2D(PEN_NIB_SLIT));
  context.restore();
  if (!named) return;
  context.font = '600 13px system-ui, sans-serif';
  context.lineWidth = 3;
  context.strokeStyle = colours.ground;
  context.fillStyle = colours.mark;
  context.strokeText(ship.name, x + 13, y - 10);
  context.fillText(ship.name, x + 13, y - 10);
}

function groundPlace(ship: SceneShip, atMilliseconds: number): { readonly eastMetres: number; readonly northMetres: number } | null {
  for (const line of ship.groundLines) {
    const last = line.atMilliseconds.at(-1) ?? -Infinity;
    const place = atMilliseconds <= last ? lineUntil(line, atMilliseconds) : null;
    if (place !== null) return { eastMetres: place.x, northMetres: place.y };
  }
  return null;
}

function trace(context: CanvasRenderingContext2D, xy: ArrayLike<number>, { view, heightPixels }: FlownPicture): void {
  context.beginPath();
  for (let index = 0; index + 1 < xy.length; index += 2) {
    const { xPixels, upPixels } = picturePoint(xy[index] ?? 0, xy[index + 1] ?? 0, view);
    if (index === 0) context.moveTo(xPixels, heightPixels - upPixels);
    else context.lineTo(xPixels, heightPixels - upPixels);
  }
}

function traceUntil(
  context: CanvasRenderingContext2D,
  line: TimedLine,
  untilMilliseconds: number,
  picture: FlownPicture,
  shiftX: number,
  shiftY: number,
): void {
  context.beginPath();
  const reached = lineUntil(line, untilMilliseconds);
  if (reached === null) return;
  const { view, heightPixels } = picture;
  for (let index = 0; index < reached.count; index += 1) {
    const { xPixels, upPixels } = picturePoint((line.xy[2 * index] ?? 0) + shiftX, (line.xy[2 * index + 1] ?? 0) + shiftY, view);
    if (index === 0) context.moveTo(xPixels, heightPixels - upPixels);
    else context.lineTo(xPixels, heightPixels - upPixels);
  }
  const end = picturePoint(reached.x + shiftX, reached.y + shiftY, view);
  context.lineTo(end.xPixels, heightPixels - end.upPixels);
}

function traceBetween(
  context: CanvasRenderingContext2D,
  line: TimedLine,
  fromMilliseconds: number,
  toMilliseconds: number,
  { view, heightPixels }: FlownPicture,
): void {
  context.beginPath();
  const last = line.atMilliseconds.at(-1) ?? -Infinity;
  const end = lineUntil(line, toMilliseconds);
  if (end === null || last < fromMilliseconds) return;
  const begin = lineUntil(line, Math.max(fromMilliseconds, line.atMilliseconds[0] ?? 0));
  if (begin === null) return;
  const first = picturePoint(begin.x, begin.y, view);
  context.moveTo(first.xPixels, heightPixels - first.upPixels);
  for (let index = begin.count; index < end.count; index += 1) {
    const { xPixels, upPixels } = picturePoint(line.xy[2 * index] ?? 0, line.xy[2 * index + 1] ?? 0, view);
    context.lineTo(xPixels, heightPixels - upPixels);
  }
  const at = picturePoint(end.x, end.y, view);
  context.lineTo(at.xPixels, heightPixels - at.upPixels);
}
