import { deflateSync } from 'fflate';
import { fc } from '../../property.ts';
import { encode } from 'uqr';
import decodeQR from 'qr/decode.js';
import { describe, expect, it } from 'vitest';
import { DEMO_JOB } from '../../../src/core/job/demo-job.ts';
import { type FrameCollection, frameFromText, framesFromText, textFromFrames, withFrame } from '../../../src/core/wire/link-frames.ts';
import { writeJob } from '../../../src/core/job/write-job.ts';
import { processorMilliseconds } from '../../processor-time.ts';

const collect = (texts: readonly string[]): FrameCollection =>
  texts.reduce<FrameCollection | null>((collection, text) => withFrame(collection, frameFromText(text)!), null)!;

describe('a job as a row of codes', () => {
  it('comes together again from its frames, in any order and some of them twice', () => {
    fc.assert(
      fc.property(
        fc.string({ unit: 'grapheme', minLength: 0, maxLength: 4000 }).filter((text) => text.isWellFormed()),
        fc.nat(),
        (text, seed) => {
          const frames = framesFromText(text, 'abc1');
          const shuffled = [...frames, ...frames.slice(0, seed % (frames.length + 1))].sort(
            (one, other) => ((one.length * 31 + seed) % 7) - ((other.length * 17 + seed) % 7),
          );
          expect(textFromFrames(collect(shuffled))).toEqual({ ok: true, value: text });
        },
      ),
    );
  });

  it('fits the demo job into a handful of codes that a scanner reads', () => {
    const frames = framesFromText(writeJob(DEMO_JOB), '0123abcd');
    expect(frames.length).toBeLessThanOrEqual(5);
    const read = frames.map((frame) => {
      const { data, size } = encode(frame, { ecc: 'L', border: 4 });
      const scale = 4;
      const pixels = new Uint8Array(size * size * scale * scale * 4).fill(255);
      data.forEach((row, y) =>
        row.forEach((dark, x) => {
          if (!dark) return;
          for (let dy = 0; dy < scale; dy += 1)
            for (let dx = 0; dx < scale; dx += 1) pixels.set([0, 0, 0, 255], ((y * scale + dy) * size * scale + x * scale + dx) * 4);
        }),
      );
      return decodeQR({ width: size * scale, height: size * scale, data: pixels }, { timeLimit: 5000 });
    });
    expect(read).toEqual(frames);
    expect(textFromFrames(collect(read))).toEqual({ ok: true, value: writeJob(DEMO_JOB) });
  });

  it('says that frames are missing, and begins anew with another file\u2019s', () => {
    const frames = framesFromText(writeJob(DEMO_JOB), 'a');
    expect(textFromFrames(collect(frames.slice(1)))).toEqual({ ok: false, reason: 'incomplete' });
    const other = framesFromText('x', 'b');
    expect(collect([...frames, ...other])).toMatchObject({ set: 'b', count: 1 });
  });

  it.each([
    '',
    'https://example.org/',
    'QWJ1:a:0/2:AA',
    'QWJ1:a:3/2:AA',
    'QWJ1:a:1/121:AA',
    'QWJ1:A:1/1:AA',
    'QWJ1:a:1/1:A A',
    'QWJ2:a:1/1:AA',
    `QWJ1:a:1/1:${'A'.repeat(1001)}`,
  ])('takes no other text for a frame: %j', (text) => {
    expect(frameFromText(text)).toBeNull();
  });

  it('is damaged when its bytes are, and when it grows without bound', () => {
    const [first = ''] = framesFromText('hello hello hello', 'a');
    expect(textFromFrames(collect([first.slice(0, -3)]))).toEqual({ ok: false, reason: 'damaged' });
    const bomb = Buffer.from(deflateSync(new Uint8Array(60_000_000))).toString('base64url');
    const pieces = bomb.match(/.{1,1000}/g)!;
    expect(pieces.length).toBeLessThan(120);
    const begunAt = processorMilliseconds();
    expect(textFromFrames(collect(pieces.map((data, index) => `QWJ1:a:${index + 1}/${pieces.length}:${data}`)))).toEqual({ ok: false, reason: 'damaged' });
    expect(processorMilliseconds() - begunAt).toBeLessThan(2000);
  });

  it('agrees with the platform\u2019s own base64url and UTF-8', () => {
    const text = 'Été à l\u2019Ondine \u{1F60A}';
    const [frame = ''] = framesFromText(text, 'a');
    expect(frame.split(':')[3]).toBe(Buffer.from(deflateSync(new TextEncoder().encode(text), { level: 9 })).toString('base64url'));
  });
});
