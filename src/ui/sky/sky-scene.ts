import type { SkyDirection } from '../../core/earth/sun.ts';
import { type Camera, type ImagePoint, imageOf } from '../../core/sky/camera.ts';
import { horizonPixels, type SkyMoment, uprightPixels } from '../../core/sky/sky-picture.ts';
import type { Trail } from '../../core/sky/trail.ts';
import { paintSmoke } from './smoke-layer.ts';

/** The colours of a sky picture, as CSS writes them. */
export interface SkyColours {
  readonly high: string;
  readonly low: string;
  readonly smoke: string;
  readonly sun: string;
  readonly land: string;
  readonly figure: string;
}

/** Where people stand before the eye, metres ahead and aside, and how tall: a crowd for scale. */
const FIGURES: readonly { readonly aheadMetres: number; readonly asideMetres: number; readonly tallMetres: number }[] = [
  { aheadMetres: 22, asideMetres: -7.5, tallMetres: 1.74 },
  { aheadMetres: 23, asideMetres: -6.4, tallMetres: 1.15 },
  { aheadMetres: 30, asideMetres: 3.5, tallMetres: 1.68 },
  { aheadMetres: 27, asideMetres: 7.4, tallMetres: 1.8 },
  { aheadMetres: 28, asideMetres: 8.7, tallMetres: 1.62 },
  { aheadMetres: 44, asideMetres: -15, tallMetres: 1.7 },
  { aheadMetres: 55, asideMetres: 16, tallMetres: 1.75 },
  { aheadMetres: 58, asideMetres: 18, tallMetres: 1.7 },
];

const EYE_HEIGHT_METRES = 1.6;
/** The sun's disc as seen, half a degree across, drawn a little larger so that it is found. */
const SUN_RADIANS = (0.6 * Math.PI) / 180;

/** Paints the sky at a moment: air, sun, smoke, land and people, back to front. */
export function paintSky(context: CanvasRenderingContext2D, trails: readonly Trail[], moment: SkyMoment, sun: SkyDirection, colours: SkyColours): void {
  const { camera } = moment;
  const { widthPixels, heightPixels } = camera;
  const horizon = horizonPixels(camera);
  const ground = Math.min(heightPixels, Math.max(0, horizon ?? heightPixels));
  const air = context.createLinearGradient(0, 0, 0, horizon === null ? heightPixels : Math.max(1, horizon));
  air.addColorStop(0, colours.high);
  air.addColorStop(1, colours.low);
  context.fillStyle = air;
  // Beyond the edge: with one and a half pixels to each of the picture's, its last row is half a pixel.
  context.fillRect(0, 0, widthPixels + 1, heightPixels + 1);
  paintSun(context, imageOf(sun, camera), sun, camera, colours.sun);
  paintSmoke(context, trails, moment, colours.smoke);
  if (ground < heightPixels) paintLand(context, camera, ground, colours);
}

function paintSun(context: CanvasRenderingContext2D, at: ImagePoint | null, sun: SkyDirection, camera: Camera, colour: string): void {
  if (at === null || sun.elevationRadians < -0.01) return;
  const radius = Math.max(4, (uprightPixels(1, 1, camera) * SUN_RADIANS) / 2);
  const glow = context.createRadialGradient(at.xPixels, at.yPixels, 0, at.xPixels, at.yPixels, radius * 14);
  glow.addColorStop(0, colour);
  glow.addColorStop(1, 'rgb(255 255 255 / 0%)');
  context.globalAlpha = 0.5;
  context.fillStyle = glow;
  context.fillRect(at.xPixels - radius * 14, at.yPixels - radius * 14, radius * 28, radius * 28);
  context.globalAlpha = 1;
  context.fillStyle = colour;
  context.beginPath();
  context.arc(at.xPixels, at.yPixels, radius, 0, 2 * Math.PI);
  context.fill();
}

function paintLand(context: CanvasRenderingContext2D, camera: Camera, horizon: number, { land, figure }: SkyColours): void {
  const { widthPixels, heightPixels } = camera;
  // A far shore of low hills, the same in every picture of the same direction.
  const perRadian = uprightPixels(1, 1, camera);
  context.fillStyle = land;
  context.beginPath();
  context.moveTo(-4, heightPixels + 1);
  for (let x = -4; x <= widthPixels + 4; x += 4) {
    const azimuth = camera.azimuthRadians + (x - widthPixels / 2) / perRadian;
    const rise = 0.012 + 0.007 * Math.sin(azimuth * 9) + 0.004 * Math.sin(azimuth * 23 + 1);
    context.lineTo(x, horizon - rise * perRadian);
  }
  context.strokeStyle = figure;
  context.globalAlpha = 0.45;
  context.lineWidth = 1.2;
  context.stroke();
  context.globalAlpha = 1;
  context.lineTo(widthPixels + 4, heightPixels + 1);
  context.fill();
  context.fillStyle = figure;
  for (const { aheadMetres, asideMetres, tallMetres } of FIGURES) {
    const feet = horizon + uprightPixels(EYE_HEIGHT_METRES, aheadMetres, camera);
    paintPerson(context, widthPixels / 2 + uprightPixels(asideMetres, aheadMetres, camera), feet, uprightPixels(tallMetres, aheadMetres, camera));
  }
}

function paintPerson(context: CanvasRenderingContext2D, x: number, feet: number, tall: number): void {
  context.beginPath();
  context.ellipse(x, feet - tall * 0.91, tall * 0.07, tall * 0.085, 0, 0, 2 * Math.PI);
  context.fill();
  context.beginPath();
  context.moveTo(x - tall * 0.13, feet - tall * 0.78);
  context.quadraticCurveTo(x, feet - tall * 0.88, x + tall * 0.13, feet - tall * 0.78);
  context.lineTo(x + tall * 0.1, feet - tall * 0.42);
  context.lineTo(x + tall * 0.085, feet);
  context.lineTo(x + tall * 0.015, feet);
  context.lineTo(x, feet - tall * 0.4);
  context.lineTo(x - tall * 0.015, feet);
  context.lineTo(x - tall * 0.085, feet);
  context.lineTo(x - tall * 0.1, feet - tall * 0.42);
  context.closePath();
  context.fill();
}
