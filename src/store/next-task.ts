/**
 * Resolves in a task of its own, after the one that runs and all its microtasks: what a fact changes on the screen is in
 * the document by then. No timer, so that a page in the background is not held up for a second.
 */
export function nextTask(): Promise<void> {
  const { port1, port2 } = new MessageChannel();
  return new Promise((resolve) => {
    port1.onmessage = () => {
      port1.close();
      resolve();
    };
    port2.postMessage(null);
  });
}
