/** What is wrong on a page as it is laid out. */
export interface PageFaults {
  readonly sideways: string[];
  readonly cut: string[];
  readonly overlapping: string[];
  readonly small: string[];
}

/** Looks at the page it is evaluated in; it may use nothing from outside itself. */
export function pageFaults(): PageFaults {
  const least = 44;
  const name = (element: Element): string =>
    `${element.tagName.toLowerCase()}.${element.classList.value.replaceAll(' ', '.')} "${(element.textContent ?? '').trim().slice(0, 40)}"`;
  const inSight = (element: Element): boolean => {
    const box = element.getBoundingClientRect();
    return box.width > 1 && box.height > 1 && element.checkVisibility({ visibilityProperty: true, opacityProperty: true });
  };
  const sideways = document.documentElement.scrollWidth > document.documentElement.clientWidth ? [`${document.documentElement.scrollWidth} pixels`] : [];
  const cut: string[] = [];
  for (const element of document.body.querySelectorAll('*')) {
    if (element.closest('.visually-hidden, svg, canvas, select, .scrolls') !== null || !inSight(element)) continue;
    const hasWords = [...element.childNodes].some((node) => node.nodeType === Node.TEXT_NODE && node.textContent?.trim() !== '');
    if (!hasWords) continue;
    const { overflowX, overflowY } = getComputedStyle(element);
    const isClipped = [overflowX, overflowY].some((overflow) => overflow === 'hidden' || overflow === 'clip');
    if (isClipped && (element.scrollWidth > element.clientWidth + 1 || element.scrollHeight > element.clientHeight + 1)) cut.push(name(element));
  }
  // A radio or a box is as large as its label.
  const controls = [...document.querySelectorAll('button, a[href], select, textarea, summary, input:not([type=radio], [type=checkbox], [type=file])')].filter(
    inSight,
  );
  const isOverlay = (element: Element): boolean => {
    for (let at: Element | null = element; at !== null; at = at.parentElement) if (['sticky', 'fixed'].includes(getComputedStyle(at).position)) return true;
    return false;
  };
  const inLine = (element: Element): boolean =>
    element.tagName === 'A' && element.closest('p, li, td') !== null && getComputedStyle(element).display === 'inline';
  const small = controls.flatMap((control) => {
    const { width, height } = control.getBoundingClientRect();
    // A link in a sentence is exempt (WCAG 2.2, 2.5.8).
    return (width < least - 0.5 || height < least - 0.5) && !inLine(control) ? [`${name(control)} ${width.toFixed(0)} x ${height.toFixed(0)}`] : [];
  });
  const overlapping: string[] = [];
  const free = controls.filter((control) => !isOverlay(control));
  for (const [index, one] of free.entries()) {
    const a = one.getBoundingClientRect();
    for (const other of free.slice(index + 1)) {
      if (one.contains(other) || other.contains(one)) continue;
      const b = other.getBoundingClientRect();
      const [across, down] = [Math.min(a.right, b.right) - Math.max(a.left, b.left), Math.min(a.bottom, b.bottom) - Math.max(a.top, b.top)];
      if (across > 2 && down > 2) overlapping.push(`${name(one)} and ${name(other)}`);
    }
  }
  return { sideways, cut, overlapping, small };
}
