import { readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { describe, expect, it } from 'vitest';

const css = readFileSync(fileURLToPath(new URL('../../../src/ui/style/tokens.css', import.meta.url)), 'utf8');

function block(selector: string): ReadonlyMap<string, string> {
  const start = css.indexOf(`${selector} {`);
  const body = css.slice(start, css.indexOf('\n}', start));
  return new Map([...body.matchAll(/--([\w-]+):\s*(#[0-9a-f]{6})/g)].map(([, name = '', value = '']) => [name, value]));
}

/** Relative luminance (WCAG 2.2, definitions). */
function luminance(hex: string): number {
  const [red = 0, green = 0, blue = 0] = [1, 3, 5].map((at) => {
    const share = Number.parseInt(hex.slice(at, at + 2), 16) / 255;
    return share <= 0.040_45 ? share / 12.92 : ((share + 0.055) / 1.055) ** 2.4;
  });
  return 0.2126 * red + 0.7152 * green + 0.0722 * blue;
}

/** Contrast ratio (WCAG 2.2, definitions), 1 to 21. */
function contrast(first: string, second: string): number {
  const [high = 0, low = 0] = [luminance(first), luminance(second)].sort((a, b) => b - a);
  return (high + 0.05) / (low + 0.05);
}

const GROUNDS = ['ground', 'raised', 'sunken', 'sky'];
const PAIRS: readonly (readonly [string, string])[] = [
  ...GROUNDS.flatMap((ground) => [['mark', ground] as const, ['mark-quiet', ground] as const]),
  ['smoke', 'sky'],
  ['on-press', 'press'],
  ['on-caution', 'caution'],
  ['on-warning', 'warning'],
];

describe('contrast of the design tokens', () => {
  it('measures black on white as 21 and #777777 on white as 4.48 (WCAG 2.2)', () => {
    expect(contrast('#000000', '#ffffff')).toBeCloseTo(21, 6);
    expect(contrast('#777777', '#ffffff')).toBeCloseTo(4.48, 2);
  });

  it.each([':root', ":root[data-appearance='night']"])('is at least 7:1 for text, %s (WCAG 2.2, 1.4.6)', (selector) => {
    const tokens = block(selector);
    const low = PAIRS.map(([mark, ground]) => ({ pair: `${mark} on ${ground}`, ratio: contrast(tokens.get(mark) ?? '', tokens.get(ground) ?? '') })).filter(
      ({ ratio }) => !(ratio >= 7),
    );
    expect(low).toEqual([]);
  });

  it.each([':root', ":root[data-appearance='night']"])('is at least 3:1 for what a control is known by, %s (WCAG 2.2, 1.4.11)', (selector) => {
    const tokens = block(selector);
    for (const ground of GROUNDS) expect(contrast(tokens.get('rule-strong') ?? '', tokens.get(ground) ?? '')).toBeGreaterThanOrEqual(3);
  });
});
