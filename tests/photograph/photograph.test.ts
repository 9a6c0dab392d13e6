import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { pictureKind } from '../../src/core/photograph/picture-kind.ts';
import { inverseOf } from '../../src/core/photograph/least-squares.ts';
import { fitProfile } from '../../src/core/photograph/profile-width.ts';
import { projector } from '../../src/core/photograph/photo-camera.ts';
import { type Pointed, priorFor } from '../../src/core/photograph/pose-prior.ts';
import type { WordSample } from '../../src/core/photograph/word-samples.ts';
import { spreadingFrom } from '../../src/core/photograph/spreading.ts';
import { strokeWidths } from '../../src/core/photograph/stroke-widths.ts';
import { openTextReader, type TextReader } from '../flight/read-text.ts';
import { layPhotograph } from './lay-photograph.ts';
import { DIFFUSIVITY, FIRST_SIGMA_METRES, photographedWord } from './photographed-word.ts';
import { rectifiedWord } from '../../src/core/photograph/rectify.ts';
import { rectifiedPng } from './rectified-png.ts';
import { smokeSigma, takePhotograph, trulySeen } from './render-photograph.ts';

let reader: TextReader;
beforeAll(async () => {
  reader = await openTextReader();
}, 30_000);
afterAll(() => reader.close());

describe('a camera', () => {
  test('shows points where a renderer that shares no code shows them', () => {
    const { order } = photographedWord({ word: 'SKY', afterSeconds: 60, seed: 4, sky: 'clear' });
    const degree = Math.PI / 180;
    const project = projector({
      bearingRadians: order.bearingDegrees * degree,
      tiltRadians: order.tiltDegrees * degree,
      rollRadians: order.rollDegrees * degree,
      focalPixels: order.focalPixels,
      distortion: order.distortion,
      widthPixels: order.widthPixels,
      heightPixels: order.heightPixels,
    });
    for (const bit of order.smoke.filter((_, index) => index % 97 === 0)) {
      const here = project({ eastMetres: bit.east, northMetres: bit.north, upMetres: order.layerMetres })!;
      const there = trulySeen(order, bit.east, bit.north);
      expect(Math.hypot(here.x - there.x, here.y - there.y)).toBeLessThan(1e-6);
    }
  });
});

describe('what is believed of a picture beforehand', () => {
  // A word to the north-east, as high as it is far.
  const samples = [{ at: { eastMetres: 1000, northMetres: 1000, upMetres: 1414 }, ageSeconds: 100 }] as unknown as readonly WordSample[];
  const size = { widthPixels: 1400, heightPixels: 1050 };
  const believed = (pointed: Pointed | null): readonly number[] => {
    const { mean, sigma } = priorFor(samples, { focal35Millimetres: null, pointed }, size);
    return [mean.bearing, mean.tilt, sigma.bearing].map((radians) => Math.round((radians * 180) / Math.PI));
  };

  test('is where the device pointed, where it was asked', () => {
    expect(believed(null)).toEqual([45, 45, 23]);
    expect(believed({ bearingDegreesTrue: 57, tiltDegrees: 40 })).toEqual([57, 40, 11]);
    // The short way round.
    expect(believed({ bearingDegreesTrue: 45 + 360, tiltDegrees: 45 })).toEqual([45, 45, 11]);
  });

  test('is the word\u2019s own place where the device was lowered already, or its compass is of no use', () => {
    expect(believed({ bearingDegreesTrue: 225, tiltDegrees: 45 })).toEqual([45, 45, 23]);
    expect(believed({ bearingDegreesTrue: 45, tiltDegrees: -30 })).toEqual([45, 45, 23]);
  });
});

describe('a word in a photograph', { timeout: 120_000 }, () => {
  test.each([
    ['SAIL', 'clear', 20],
    ['FLY', 'cloud', 300],
    ['BRAVE', 'clear', 300],
    ['SKY', 'sun', 300],
  ] as const)('%s in a %s sky, %i s after the last smoke, is laid right, read as from below, and its smoke measured', async (word, sky, afterSeconds) => {
    const truth = photographedWord({ word, afterSeconds, seed: 21, sky, widthPixels: 1400 });
    const { laid, samples, picture, errorHeights } = layPhotograph(truth, await truth.take(), truth, 0.15, 5);
    if (!laid.ok) throw new Error(laid.reason);
    expect(errorHeights).toBeLessThanOrEqual(0.03);
    expect((await reader.read(rectifiedPng(picture, laid.aligned.pose, samples, truth.planned.plan))).text).toBe(word);
    const widths = strokeWidths(picture, samples, laid.aligned);
    const right = widths.filter(({ sigmaMetres, ageSeconds }) => Math.abs(sigmaMetres / smokeSigma(truth.order, ageSeconds) - 1) <= 0.2);
    expect(widths.length).toBeGreaterThan(3);
    expect(right.length / widths.length).toBeGreaterThan(0.7);
  });

  test('drawn out by a wind that was believed 0.45 m/s too weak is laid right, and the wind told', async () => {
    const truth = photographedWord({ word: 'BRAVE', afterSeconds: 20, seed: 21, airSeed: 37, sky: 'clear', widthPixels: 1400 });
    expect(Math.hypot(truth.stretchEast, truth.stretchNorth)).toBeGreaterThan(0.42);
    const { laid, errorHeights } = layPhotograph(truth, await truth.take(), truth, 0.15, 5);
    if (!laid.ok) throw new Error(laid.reason);
    expect(errorHeights).toBeLessThanOrEqual(0.03);
    const { pose, sigma } = laid.aligned;
    for (const name of ['stretchEast', 'stretchNorth'] as const) {
      expect(Math.abs(pose[name] - truth[name]), name).toBeLessThan(0.15);
      expect(Math.abs(pose[name] - truth[name]) / sigma[name], name).toBeLessThan(2.5);
    }
  });

  test.each([
    ['FREEDOM', 'clear', 600, 282, 10],
    ['BIRTHDAY', 'sun', 300, 78, 3],
  ] as const)('%s in a %s sky, %i s after the last smoke, whose first letters are wider than a tenth of their height, is not refused', async (...picture) => {
    const [word, sky, afterSeconds, seed, airSeed] = picture;
    const truth = photographedWord({ word, afterSeconds, seed, airSeed, sky, widthPixels: 1400 });
    const { laid, errorHeights } = layPhotograph(truth, await truth.take(), truth, 0.15, seed);
    if (!laid.ok) throw new Error(laid.reason);
    expect(errorHeights).toBeLessThanOrEqual(0.03);
    expect(laid.aligned.strangeShare).toBeLessThan(0.25);
  });

  test('the sun\u2019s glow beside the last letter is taken off the word as from straight below', async () => {
    const truth = photographedWord({ word: 'QUILT', afterSeconds: 600, seed: 575, airSeed: 19, sky: 'sun', widthPixels: 1400 });
    const { laid, samples, picture } = layPhotograph(truth, await truth.take(), truth, 0.15, 575);
    if (!laid.ok) throw new Error(laid.reason);
    expect((await reader.read(rectifiedPng(picture, laid.aligned.pose, samples, truth.planned.plan))).text).toBe('QUILT');
  });

  test('what lies outside of the picture is dark in the word as from straight below, and makes nothing beside it bright', async () => {
    const truth = photographedWord({ word: 'SAIL', afterSeconds: 60, seed: 21, sky: 'clear', widthPixels: 1000 });
    const { laid, samples, picture } = layPhotograph(truth, await truth.take(), truth, 0.1, 5);
    if (!laid.ok) throw new Error(laid.reason);
    const { frame, letterHeightMetres } = truth.planned.plan;
    const columnMeans = (bearing: number): number[] => {
      const word = rectifiedWord(picture, { ...laid.aligned.pose, bearing }, samples, frame, letterHeightMetres, 40);
      expect(word.values.every((value) => value >= 0 && value <= 1)).toBe(true);
      return Array.from({ length: word.widthPixels }, (_, column) => {
        const own = Array.from({ length: word.heightPixels }, (__, row) => word.values[row * word.widthPixels + column]!);
        return own.reduce((sum, value) => sum + value, 0) / own.length;
      });
    };
    const whole = columnMeans(laid.aligned.pose.bearing);
    // Turned by 25 degrees the picture ends in the word.
    const cut = columnMeans(laid.aligned.pose.bearing - (25 * Math.PI) / 180);
    const outside = cut.filter((mean) => mean === 0).length;
    expect(outside).toBeGreaterThan(20);
    expect(outside).toBeLessThan(cut.length - 40);
    expect(Math.max(...cut)).toBeLessThan(2 * Math.max(...whole));
    // Half a letter of bare sky before the edge.
    const edge = cut.findLastIndex((mean) => mean > 0);
    expect(Math.max(...cut.slice(edge - 20, edge + 1))).toBeLessThan(0.05);
  });

  test('another word of the same length is refused even when its smoke is that wide', async () => {
    const truth = photographedWord({ word: 'LUCK', afterSeconds: 600, seed: 713, sky: 'cloud', widthPixels: 1000 });
    const other = photographedWord({ word: 'JULY', afterSeconds: 600, seed: 713, sky: 'clear', widthPixels: 1000 });
    const { laid } = layPhotograph(truth, await truth.take(), other, 0.15, 13);
    expect(laid.ok).toBe(false);
    expect(laid.aligned?.strangeShare).toBeGreaterThan(0.27);
  });

  test('another word\u2019s picture, and a sky without smoke, are refused', async () => {
    const truth = photographedWord({ word: 'JOY', afterSeconds: 60, seed: 8, sky: 'clear', widthPixels: 1200 });
    const other = photographedWord({ word: 'YES', afterSeconds: 60, seed: 8, sky: 'clear', widthPixels: 1200 });
    const wrong = layPhotograph(truth, await truth.take(), other, 0.1, 5).laid;
    expect(wrong.ok).toBe(false);
    const empty = await takePhotograph({ ...truth.order, smoke: [], cloud: 0.5 });
    const none = layPhotograph(truth, empty, truth, 0.1, 5).laid;
    expect(none.ok).toBe(false);
  });

  test('three ages of smoke tell how fast it spreads', async () => {
    const widths = [];
    for (const [index, afterSeconds] of [20, 200, 400].entries()) {
      const truth = photographedWord({ word: 'SAIL', afterSeconds, seed: 30 + index, sky: 'clear', widthPixels: 1400 });
      const { laid, samples, picture } = layPhotograph(truth, await truth.take(), truth, 0.1, 5);
      if (laid.ok) widths.push(...strokeWidths(picture, samples, laid.aligned));
    }
    const spreading = spreadingFrom(widths)!;
    expect(Math.abs(spreading.horizontalSquareMetresPerSecond / DIFFUSIVITY - 1)).toBeLessThan(0.25);
  });
});

describe('the width of a line of smoke', () => {
  test('is found under noise, also where the smoke is so deep that its middle is flat', () => {
    for (const depth of [0.2, 1, 3]) {
      const places = Array.from({ length: 41 }, (_, index) => -80 + 4 * index);
      const brightness = places.map(
        (x, index) => 0.3 + 0.0004 * x + 0.5 * (1 - Math.exp(-depth * Math.exp(-((x - 5) ** 2) / (2 * 20 ** 2)))) + 0.002 * Math.sin(index * 12.9898),
      );
      const fit = fitProfile(places, brightness, { sigma: 26, depth: depth * 1.2, depthSigma: 0.35 })!;
      expect(Math.abs(fit.sigma / 20 - 1), String(depth)).toBeLessThan(0.1);
      expect(fit.middle).toBeCloseTo(5, 0);
    }
  });

  test('of a bare sky is none', () => {
    const places = Array.from({ length: 41 }, (_, index) => -80 + 4 * index);
    expect(
      fitProfile(
        places,
        places.map((x, index) => 0.3 + 0.0004 * x + 0.004 * Math.sin(index * 78.233)),
        { sigma: 20, depth: 1, depthSigma: 0.35 },
      ),
    ).toBeNull();
  });

  test('grows with the root of its age: a straight line through squares gives the diffusivity back', () => {
    const widths = [30, 90, 200, 400, 600].map((ageSeconds) => ({
      stroke: 0,
      letterIndex: 0,
      ageSeconds,
      sigmaMetres: smokeSigma({ diffusivity: DIFFUSIVITY, firstSigmaMetres: FIRST_SIGMA_METRES }, ageSeconds),
      errorMetres: 3,
    }));
    const spreading = spreadingFrom(widths)!;
    expect(spreading.horizontalSquareMetresPerSecond).toBeCloseTo(DIFFUSIVITY, 6);
    expect(spreading.initialMetres).toBeCloseTo(FIRST_SIGMA_METRES, 6);
    expect(spreadingFrom(widths.slice(0, 3).map((each) => ({ ...each, ageSeconds: 30 })))).toBeNull();
  });
});

test('a matrix times its inverse is one', () => {
  const matrix = Float64Array.from([4, 1, 0.5, 1, 3, 0.2, 0.5, 0.2, 2]);
  const inverse = inverseOf(matrix, 3)!;
  for (let i = 0; i < 3; i += 1)
    for (let j = 0; j < 3; j += 1) {
      let sum = 0;
      for (let k = 0; k < 3; k += 1) sum += matrix[3 * i + k]! * inverse[3 * k + j]!;
      expect(sum).toBeCloseTo(i === j ? 1 : 0, 12);
    }
  expect(inverseOf(Float64Array.from([1, 2, 2, 1]), 2)).toBeNull();
});

describe('what a file under a picture\u2019s name is', () => {
  const bytes = (text: string): Uint8Array => Uint8Array.from(text.padEnd(64, ' '), (character) => character.charCodeAt(0));
  test.each([
    ['<svg xmlns="http://www.w3.org/2000/svg">', /drawing or a page/],
    ['<!doctype html><html>', /drawing or a page/],
    ['GIF89a', /JPEG, PNG, WebP, HEIC or AVIF/],
    ['%PDF-1.7', /JPEG, PNG, WebP, HEIC or AVIF/],
  ])('%s is refused in plain words', (text, reason) => {
    const kind = pictureKind(bytes(text));
    expect(kind.ok ? '' : kind.reason).toMatch(reason);
  });

  test('nothing, and a picture of 100 megapixels, are refused; usual ones are known', async () => {
    expect(pictureKind(new Uint8Array(3)).ok).toBe(false);
    const png = Uint8Array.from([0x89, 0x50, 0x4e, 0x47, 13, 10, 26, 10, 0, 0, 0, 13, 0x49, 0x48, 0x44, 0x52, 0, 0, 0x27, 0x10, 0, 0, 0x27, 0x10, 8, 2]);
    const large = pictureKind(png);
    expect(large.ok ? '' : large.reason).toMatch(/100 megapixels/);
    const { jpeg } = await takePhotograph({ ...photographedWord({ word: 'I', afterSeconds: 10, seed: 1, sky: 'clear', widthPixels: 200 }).order });
    expect(pictureKind(jpeg)).toEqual({ ok: true, type: 'image/jpeg', pixels: 200 * 150 });
  });
});
