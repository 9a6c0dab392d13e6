/** Resolves when what was changed is on the screen: a frame is drawn, and the task after it begins. */
export function nextPicture(): Promise<void> {
  return new Promise((resolve) => requestAnimationFrame(() => setTimeout(resolve)));
}
