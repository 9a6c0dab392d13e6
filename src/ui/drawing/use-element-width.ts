import type { RefObject } from 'preact';
import { useLayoutEffect, useRef, useState } from 'preact/hooks';

/** The width an element was given, in whole CSS pixels; 0 before it stands on the page. */
export function useElementWidth<Kind extends Element>(): { readonly element: RefObject<Kind | null>; readonly widthPixels: number } {
  const element = useRef<Kind>(null);
  const [widthPixels, setWidthPixels] = useState(0);
  useLayoutEffect(() => {
    const watched = element.current;
    if (watched === null) return undefined;
    setWidthPixels(Math.floor(watched.getBoundingClientRect().width));
    const observer = new ResizeObserver(([entry]) => {
      if (entry !== undefined) setWidthPixels(Math.floor(entry.contentRect.width));
    });
    observer.observe(watched);
    return () => observer.disconnect();
  }, []);
  return { element, widthPixels };
}
