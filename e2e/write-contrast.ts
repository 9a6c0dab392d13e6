import type { Page } from '@playwright/test';

export interface Seen {
  readonly what: string;
  readonly ratio: number;
}

/**
 * Contrast (WCAG 2.2, relative luminance) of every word and drawn line in sight against the ground it stands on: the
 * nearest ancestor that is painted. What only repaints the ground inside a line, the paper of a hollow
 * stroke and the streaks of the ink, is left out.
 */
export function contrasts(page: Page, root: string): Promise<Seen[]> {
  return page.evaluate((selector) => {
    type Colour = readonly [number, number, number, number];
    const parse = (text: string): Colour => {
      const [r = 0, g = 0, b = 0, a = 1] = (/rgba?\(([^)]+)\)/.exec(text)?.[1] ?? '').split(/[ ,/]+/).map(Number);
      return [r, g, b, a];
    };
    const linear = (channel: number): number => (channel / 255 <= 0.040_45 ? channel / 255 / 12.92 : ((channel / 255 + 0.055) / 1.055) ** 2.4);
    const luminance = ([r, g, b]: Colour): number => 0.2126 * linear(r) + 0.7152 * linear(g) + 0.0722 * linear(b);
    const ratio = (one: Colour, other: Colour): number => {
      const [light, dark] = [luminance(one), luminance(other)].sort((a, b) => b - a) as [number, number];
      return (light + 0.05) / (dark + 0.05);
    };
    const groundOf = (element: Element): Colour => {
      for (let at: Element | null = element; at !== null; at = at.parentElement) {
        const colour = parse(getComputedStyle(at).backgroundColor);
        if (colour[3] === 1) return colour;
      }
      return [255, 255, 255, 1];
    };
    const inSight = (element: Element): boolean => {
      const box = element.getBoundingClientRect();
      return (
        box.width > 1 &&
        box.height > 1 &&
        element.checkVisibility({ visibilityProperty: true, opacityProperty: true }) &&
        element.closest('.visually-hidden') === null
      );
    };
    const seen: { what: string; ratio: number }[] = [];
    for (const element of document.querySelectorAll(`${selector} *`)) {
      if (!inSight(element)) continue;
      const style = getComputedStyle(element);
      if (element instanceof SVGGeometryElement) {
        if (element.matches('.write-stroke-paper, .write-own *, .write-line-own *, .ink-streak')) continue;
        const host = element.closest('svg')!;
        if (style.stroke !== 'none')
          seen.push({ what: `line of ${element.closest('svg')!.classList.value || 'drawing'}`, ratio: ratio(parse(style.stroke), groundOf(host)) });
        continue;
      }
      const words = [...element.childNodes]
        .filter((node) => node.nodeType === Node.TEXT_NODE)
        .map((node) => node.textContent?.trim() ?? '')
        .join(' ')
        .trim();
      // Words in outline alone are drawn by their stroke.
      const colour = parse(style.color)[3] === 0 ? style.webkitTextStrokeColor : style.color;
      if (words !== '') seen.push({ what: words, ratio: ratio(parse(colour), groundOf(element)) });
    }
    return seen;
  }, root);
}
