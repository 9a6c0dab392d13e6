import { at, type BeltSketch, from, loop } from './belt.ts';
import type { DrawingTable } from './character-drawing.ts';

/**
 * Signs, our own drawings; see alphabet-capitals.ts. A dot is a line of 0.12 heights, two to three seconds of smoke,
 * and lies in line with its stem, so that the ship flies straight through.
 */
export const SIGNS: DrawingTable = {
  '!': { widthHeights: 0, styles: { crisp: () => [from(0, 1).to(0, 0.34), from(0, 0.12).to(0, 0)] } },
  '?': {
    widthHeights: 0.56,
    small: ['small'],
    styles: {
      crisp: () => [at(-0.02, 0.84).right(0.28, 0.72, 0.28).left(0.53, 0.25, 0.25).until(0.28, 0.25), from(0.28, 0.12).to(0.28, 0)],
      // For small letters: the hook runs straight into its stem.
      small: (r) => [
        at(-0.02, 0.84)
          .right(0.28, 1 - r, r)
          .to(0.28, 0.26),
        from(0.28, 0.12).to(0.28, 0),
      ],
    },
  },
  '.': { widthHeights: 0.12, styles: { crisp: () => [from(0, 0).to(0.12, 0)] } },
  ',': { widthHeights: 0.12, styles: { crisp: () => [from(0.12, 0.08).to(0, -0.2)] } },
  "'": { widthHeights: 0.06, styles: { crisp: () => [from(0.06, 1).to(0, 0.7)] } },
  '-': { widthHeights: 0.44, styles: { crisp: () => [from(0, 0.5).to(0.44, 0.5)] } },
  '+': { widthHeights: 0.64, styles: { crisp: () => [from(0, 0.5).to(0.64, 0.5), from(0.32, 0.82).to(0.32, 0.18)] } },
  '#': {
    widthHeights: 0.86,
    styles: {
      crisp: () => [from(0.32, 1).to(0.2, 0), from(0.66, 1).to(0.54, 0), from(0, 0.33).to(0.82, 0.33), from(0.04, 0.67).to(0.86, 0.67)],
    },
  },
  '&': {
    widthHeights: 0.84,
    styles: { crisp: () => [from(0.84, 0).right(0.36, 0.75, 0.25).left(0.25, 0.25, 0.25).to(0.8, 0.5)] },
  },
  ':': { widthHeights: 0.12, styles: { crisp: () => [from(0, 0.66).to(0.12, 0.66), from(0, 0.16).to(0.12, 0.16)] } },
  '"': { widthHeights: 0.3, styles: { crisp: () => [from(0.06, 1).to(0, 0.7), from(0.3, 1).to(0.24, 0.7)] } },
  '(': { widthHeights: 0.3, styles: { crisp: () => [at(0.3, 1.1).left(0.72, 0.5, 0.72).until(0.3, -0.1)] } },
  ')': { widthHeights: 0.3, styles: { crisp: () => [at(0, 1.1).right(-0.42, 0.5, 0.72).until(0, -0.1)] } },
  '/': { widthHeights: 0.5, styles: { crisp: () => [from(0.5, 1).to(0, 0)] } },
  '=': { widthHeights: 0.56, styles: { crisp: () => [from(0, 0.66).to(0.56, 0.66), from(0, 0.34).to(0.56, 0.34)] } },
  '*': { widthHeights: 0.52, styles: { crisp: () => [from(0.26, 1).to(0.26, 0.44), from(0, 0.86).to(0.52, 0.58), from(0.52, 0.86).to(0, 0.58)] } },
  '%': {
    widthHeights: 1.2,
    styles: { crisp: () => [loop().left(0.25, 0.75, 0.25).close(), from(0.98, 1).to(0.22, 0), loop().left(0.95, 0.25, 0.25).close()] },
  },
  $: {
    widthHeights: 0.58,
    styles: {
      crisp: () => [
        at(0.58, 0.88).left(0.32, 0.75, 0.25).left(0.25, 0.75, 0.25).right(0.33, 0.25, 0.25).right(0.26, 0.25, 0.25).until(0, 0.12),
        from(0.29, 1.16).to(0.29, -0.16),
      ],
    },
  },
  '€': {
    widthHeights: 0.8,
    styles: {
      crisp: () => [at(0.8, 0.8).left(0.42, 0.6, 0.4).left(0.42, 0.4, 0.4).until(0.8, 0.2), from(-0.14, 0.6).to(0.52, 0.6), from(-0.14, 0.4).to(0.52, 0.4)],
    },
  },
  // A ring that runs on into a wider one.
  '@': { widthHeights: 1, styles: { crisp: () => [at(0.75, 0.53).left(0.5, 0.5, 0.25).left(0.375, 0.5, 0.375).left(0.5, 0.5, 0.5).until(0.86, 0.86)] } },
  '¡': { widthHeights: 0, styles: { crisp: () => [from(0, 0.66).to(0, 0), from(0, 1).to(0, 0.88)] } },
  '¿': {
    widthHeights: 0.56,
    small: ['small'],
    styles: {
      crisp: () => [at(0.58, 0.16).right(0.28, 0.28, 0.28).left(0.03, 0.75, 0.25).until(0.28, 0.75), from(0.28, 1).to(0.28, 0.88)],
      small: (r) => [at(0.58, 0.16).right(0.28, r, r).to(0.28, 0.74), from(0.28, 1).to(0.28, 0.88)],
    },
  },
  '○': { widthHeights: 1, styles: { crisp: () => [loop().left(0.5, 0.5, 0.5).close()] } },
  '☺': {
    widthHeights: 1,
    styles: {
      crisp: () => [
        loop().left(0.5, 0.5, 0.5).close(),
        from(0.34, 0.72).to(0.34, 0.58),
        from(0.66, 0.72).to(0.66, 0.58),
        at(0.24, 0.4).left(0.5, 0.48, 0.28).until(0.76, 0.4),
      ],
    },
  },
  '⚡': { widthHeights: 0.5, styles: { crisp: () => [from(0.42, 1).to(0, 0.44), from(0, 0.44).to(0.5, 0.56), from(0.5, 0.56).to(0.08, 0)] } },
  '♪': { widthHeights: 0.86, styles: { crisp: () => [at(0.5, 0.3).left(0.25, 0.25, 0.25).to(0.5, 1), from(0.5, 1).to(0.86, 0.66)] } },
  // The lobes cross where the cleft is, so that it is a sharp one.
  '♥': {
    widthHeights: 1.12,
    round: ['crisp'],
    styles: {
      crisp: () => [at(0.56, 0.84).left(0.3, 0.7, 0.3).to(0.56, 0), at(0.56, 0.84).right(0.82, 0.7, 0.3).to(0.56, 0)],
      rounded: (r) => [at(0.56, 0.84).right(0.82, 0.7, 0.3).right(0.56, r, r).right(0.3, 0.7, 0.3).until(0.56, 0.84)],
    },
  },
  '→': {
    widthHeights: 1.1,
    styles: {
      crisp: () => [from(0, 0.5).to(1.1, 0.5), from(0.74, 0.84).to(1.1, 0.5), from(0.74, 0.16).to(1.1, 0.5)],
      rounded: (r) => [
        from(0, 0.5).to(1.1, 0.5),
        from(0.72, 0.88)
          .right(1.1 - r, 0.5, r)
          .to(0.72, 0.12),
      ],
    },
  },
  '★': { widthHeights: 1.05, styles: { crisp: () => starLines() } },
};

/** A star of five lines, as one draws it without lifting the pen; its outer circle leaves it one height deep. */
function starLines(): BeltSketch[] {
  const radiusHeights = 1 / (1 + Math.cos(Math.PI / 5));
  const tip = (index: number): readonly [number, number] => {
    const angleRadians = Math.PI / 2 + (index * 4 * Math.PI) / 5;
    return [0.525 + radiusHeights * Math.cos(angleRadians), 1 - radiusHeights + radiusHeights * Math.sin(angleRadians)];
  };
  return [0, 1, 2, 3, 4].map((index) => from(...tip(index)).to(...tip(index + 1)));
}
