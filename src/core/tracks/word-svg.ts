import { letterFromAir } from '../paths/letter-frame.ts';
import type { Trail } from '../sky/trail.ts';
import { xmlText } from './xml-text.ts';

/** How a word is drawn as a picture. */
export interface WordPictureStyle {
  readonly title: string;
  readonly facingRadians: number;
  /** How wide the smoke is drawn. */
  readonly strokeMetres: number;
  /** CSS colours. */
  readonly sky: string;
  readonly smoke: string;
  /** Written across the picture, such as REHEARSAL; empty for nothing. */
  readonly across: string;
}

export interface WordPicture {
  readonly svg: string;
  /** The smoke as one path of the SVG, in its pixels. */
  readonly pathData: string;
  readonly strokePixels: number;
  readonly widthPixels: number;
  readonly heightPixels: number;
}

const WIDTH_PIXELS = 1600;
const MARGIN_SHARE = 0.06;

/** A written or planned word as the crowd reads it, seen straight from below, as an SVG 1.1 picture. Null without smoke. */
export function wordPicture(trails: readonly Pick<Trail, 'points'>[], style: WordPictureStyle): WordPicture | null {
  const frame = { facingRadians: style.facingRadians, middle: { airEastMetres: 0, airNorthMetres: 0 } };
  const lines = trails.map(({ points }) => points.map((point) => letterFromAir(point, frame))).filter((line) => line.length > 1);
  if (lines.length === 0) return null;
  const all = lines.flat();
  const half = style.strokeMetres / 2;
  const [low, high] = [
    { x: Math.min(...all.map(({ xMetres }) => xMetres)) - half, y: Math.min(...all.map(({ yMetres }) => yMetres)) - half },
    { x: Math.max(...all.map(({ xMetres }) => xMetres)) + half, y: Math.max(...all.map(({ yMetres }) => yMetres)) + half },
  ];
  const margin = MARGIN_SHARE * WIDTH_PIXELS;
  const scale = (WIDTH_PIXELS - 2 * margin) / (high.x - low.x);
  const heightPixels = Math.ceil((high.y - low.y) * scale + 2 * margin);
  const at = ({ xMetres, yMetres }: { readonly xMetres: number; readonly yMetres: number }): string =>
    `${(margin + (xMetres - low.x) * scale).toFixed(1)} ${(margin + (high.y - yMetres) * scale).toFixed(1)}`;
  const pathData = lines.map((line) => `M${line.map(at).join('L')}`).join('');
  const strokePixels = Number((style.strokeMetres * scale).toFixed(1));
  const across =
    style.across === ''
      ? ''
      : `<text x="${WIDTH_PIXELS / 2}" y="${heightPixels / 2}" text-anchor="middle" font-family="sans-serif" font-weight="700" font-size="${Math.round(heightPixels / 4)}" fill="${xmlText(style.smoke)}" fill-opacity="0.35">${xmlText(style.across)}</text>`;
  const svg =
    `<?xml version="1.0" encoding="UTF-8"?>\n<svg xmlns="http://www.w3.org/2000/svg" width="${WIDTH_PIXELS}" height="${heightPixels}" viewBox="0 0 ${WIDTH_PIXELS} ${heightPixels}">` +
    `<title>${xmlText(style.title)}</title><rect width="100%" height="100%" fill="${xmlText(style.sky)}"/>` +
    `<path d="${pathData}" fill="none" stroke="${xmlText(style.smoke)}" stroke-width="${strokePixels}" stroke-linecap="round" stroke-linejoin="round"/>${across}</svg>\n`;
  return { svg, pathData, strokePixels, widthPixels: WIDTH_PIXELS, heightPixels };
}
