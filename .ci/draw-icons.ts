// Draws the icons, the share picture and what iOS shows while the app starts by the app's own hand, letters and pen nib; run by hand after a change of either:
// node --import tsx .ci/draw-icons.ts
import { mkdirSync, writeFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { type Canvas, createCanvas, loadImage } from '@napi-rs/canvas';
import { glyphAlternatives } from '../src/core/letters/alphabet.ts';
import { letterPathFromGlyph } from '../src/core/letters/glyph-path.ts';
import { createSvgPathSink, drawLetterPath } from '../src/core/letters/letter-drawing.ts';
import { letterPathEnd, type LetterPath } from '../src/core/letters/letter-path.ts';
import { typeset } from '../src/core/letters/typeset.ts';
import { degreesFromRadians } from '../src/core/units/angle.ts';
import { PEN_NIB, PEN_NIB_SLIT } from '../src/ui/drawing/pen-nib.ts';
import { LAUNCH_PICTURES } from './launch-pictures.ts';
import { palettePng } from './palette-png.ts';

const folder = fileURLToPath(new URL('../public/', import.meta.url));
const DUSK = '#14203a';
const CHALK = '#f6f1e4';
const OLD_SMOKE = '#8d98ad';

function pathData(path: LetterPath): string {
  const sink = createSvgPathSink(1);
  drawLetterPath(path, sink);
  return sink.pathData();
}

/** Smoke strokes as they are flown: wide and thin where they are old, with the pen nib where the one that is written ends. */
function smoke(paths: readonly LetterPath[], widthPixels: number, nibScale: number, writing = paths.at(-1)): string {
  const lines = (colour: string, width: number, opacity: number): string =>
    paths.map((path) => `<path d="${pathData(path)}" stroke="${colour}" stroke-width="${width}" opacity="${opacity}"/>`).join('');
  const end = writing === undefined ? null : letterPathEnd(writing);
  // A letter's frame has y up, a picture's y down; the nib goes on a little beyond its line.
  const nib =
    end === null
      ? ''
      : `<g transform="translate(${(end.xMetres + 10 * nibScale * Math.cos(end.directionRadians)).toFixed(1)} ${(-end.yMetres - 10 * nibScale * Math.sin(end.directionRadians)).toFixed(1)}) rotate(${(-degreesFromRadians(end.directionRadians)).toFixed(1)}) scale(${nibScale})" stroke-linejoin="round">
    <path d="${PEN_NIB}" fill="${CHALK}" stroke="${DUSK}" stroke-width="2.4"/><path d="${PEN_NIB_SLIT}" stroke="${DUSK}" stroke-width="1.4"/></g>`;
  return `<g fill="none" stroke-linecap="round" stroke-linejoin="round">${lines(OLD_SMOKE, widthPixels * 1.8, 0.28)}${lines(CHALK, widthPixels, 1)}${nib}</g>`;
}

/** The letter Q on dusk, its tail being written. */
function icon(letterPixels: number, roundPixels: number): string {
  const [glyph] = glyphAlternatives('Q', 0.25).filter(({ hands }) => hands.includes('round-capitals'));
  if (glyph === undefined) throw new Error('the hand has no Q');
  const paths = glyph.strokes.map((stroke) => letterPathFromGlyph(stroke, letterPixels, 0, 0));
  const left = 256 - (glyph.widthHeights * letterPixels) / 2 - letterPixels * 0.07;
  return `<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 512 512"><rect width="512" height="512" rx="${roundPixels}" fill="${DUSK}"/><g transform="translate(${left.toFixed(1)} ${(256 + letterPixels * 0.43).toFixed(1)})">${smoke(paths, letterPixels * 0.1, letterPixels / 70)}</g></svg>\n`;
}

/** The name as the sky shows it, across so much of the width. */
function namePicture(width: number, height: number, namePixels: number): string {
  const set = typeset('QUILLWIND', { heightMetres: 150, turnRadiusMetres: 37, hand: 'round-capitals' });
  if (!set.ok) throw new Error(set.reason);
  const letters = set.layout.letters.map(({ alternatives }) => alternatives[0]?.strokes.map(({ path }) => path) ?? []);
  const scale = namePixels / set.layout.widthMetres;
  return `<svg xmlns="http://www.w3.org/2000/svg" width="${width}" height="${height}" viewBox="0 0 ${width} ${height}"><rect width="${width}" height="${height}" fill="${DUSK}"/>
  <g transform="translate(${width / 2} ${height / 2}) scale(${scale.toFixed(3)})">${smoke(letters.flat(), 15, 2.2, letters[0]?.at(-1))}</g></svg>`;
}

async function drawn(svg: string, width: number, height: number): Promise<Canvas> {
  const canvas = createCanvas(width, height);
  const sized = /<svg [^>]*width=/.test(svg) ? svg : svg.replace('<svg ', `<svg width="${width}" height="${height}" `);
  canvas.getContext('2d').drawImage(await loadImage(Buffer.from(sized)), 0, 0, width, height);
  return canvas;
}

async function draw(svg: string, target: string, width: number, height = width): Promise<void> {
  writeFileSync(`${folder}${target}`, (await drawn(svg, width, height)).toBuffer('image/png'));
}

// Within the inner four fifths, which every mask leaves whole (W3C Web App Manifest, maskable icons).
const [plain, maskable] = [icon(310, 96), icon(250, 0)];
writeFileSync(`${folder}icons/quillwind.svg`, plain);
writeFileSync(`${folder}icons/quillwind-maskable.svg`, maskable);
await draw(maskable, 'icons/quillwind-180.png', 180);
await draw(plain, 'icons/quillwind-192.png', 192);
await draw(plain, 'icons/quillwind-512.png', 512);
await draw(maskable, 'icons/quillwind-maskable-512.png', 512);
// For whoever is sent the address.
await draw(namePicture(1200, 630, 1000), 'icons/share.png', 1200, 630);
mkdirSync(`${folder}launch`, { recursive: true });
for (const { path, widthPixels, heightPixels } of LAUNCH_PICTURES) {
  const canvas = await drawn(namePicture(widthPixels, heightPixels, 0.6 * Math.min(widthPixels, heightPixels)), widthPixels, heightPixels);
  const { data } = canvas.getContext('2d').getImageData(0, 0, widthPixels, heightPixels);
  writeFileSync(`${folder}${path}`, palettePng(data, widthPixels, heightPixels));
}
