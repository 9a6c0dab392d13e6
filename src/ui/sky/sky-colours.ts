import type { SkyColours } from './sky-scene.ts';

/** The colours of the sky's pictures as the page has them now, read from a mark that is of their class. */
export function skyColoursOf(element: Element): SkyColours {
  const style = getComputedStyle(element);
  const read = (name: string): string => style.getPropertyValue(name).trim();
  return {
    high: read('--sky-high'),
    low: read('--sky-low'),
    smoke: read('--sky-smoke'),
    sun: read('--sky-sun'),
    land: read('--sky-land'),
    figure: read('--sky-figure'),
  };
}

/** The same where no picture of the sky stands on the page: read from a mark that stands there for a moment. */
export function skyColours(): SkyColours {
  const probe = document.createElement('div');
  probe.className = 'sky-picture';
  document.body.append(probe);
  const colours = skyColoursOf(probe);
  probe.remove();
  return colours;
}
