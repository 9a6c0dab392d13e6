// Draws the bitmap icons from public/icons/*.svg; run by hand after a change of the drawing: node --import tsx .ci/draw-icons.ts
import { readFileSync, writeFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { createCanvas, loadImage } from '@napi-rs/canvas';

const folder = fileURLToPath(new URL('../public/icons/', import.meta.url));

async function draw(source: string, target: string, pixels: number): Promise<void> {
  const canvas = createCanvas(pixels, pixels);
  const svg = readFileSync(`${folder}${source}`, 'utf8').replace('<svg ', `<svg width="${pixels}" height="${pixels}" `);
  canvas.getContext('2d').drawImage(await loadImage(Buffer.from(svg)), 0, 0, pixels, pixels);
  writeFileSync(`${folder}${target}`, canvas.toBuffer('image/png'));
}

await draw('quillwind-maskable.svg', 'quillwind-180.png', 180);
await draw('quillwind.svg', 'quillwind-192.png', 192);
await draw('quillwind.svg', 'quillwind-512.png', 512);
await draw('quillwind-maskable.svg', 'quillwind-maskable-512.png', 512);
