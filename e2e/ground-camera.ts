import { encode } from 'uqr';

const WIDTH = 640;
const HEIGHT = 480;
const PAPER = 235;
const INK = 20;

/**
 * A film for Chromium's false camera, of codes shown one after another, each for half a second: YUV4MPEG2, whose
 * frames are plain brightness followed by two planes of colour.
 */
export function filmOfCodes(texts: readonly string[]): Buffer {
  const parts: Buffer[] = [Buffer.from(`YUV4MPEG2 W${WIDTH} H${HEIGHT} F10:1 Ip A1:1 C420jpeg\n`)];
  const colour = Buffer.alloc((WIDTH * HEIGHT) / 2, 128);
  for (const text of texts) {
    const { data, size } = encode(text, { ecc: 'L', border: 4 });
    // Held a little off the middle, as a hand does.
    const scale = Math.floor((HEIGHT - 20) / size);
    const [left, top] = [Math.floor((WIDTH - size * scale) / 2) + 13, 7];
    const light = Buffer.alloc(WIDTH * HEIGHT, 150);
    for (let y = 0; y < size * scale; y += 1) {
      for (let x = 0; x < size * scale; x += 1) {
        light[(top + y) * WIDTH + left + x] = data[Math.floor(y / scale)]?.[Math.floor(x / scale)] === true ? INK : PAPER;
      }
    }
    for (let frame = 0; frame < 5; frame += 1) parts.push(Buffer.from('FRAME\n'), light, colour);
  }
  return Buffer.concat(parts);
}
