/** A page that can be hidden and shown. */
export class FakePage extends EventTarget {
  visibilityState: 'visible' | 'hidden' = 'visible';

  show(visibilityState: 'visible' | 'hidden'): void {
    this.visibilityState = visibilityState;
    this.dispatchEvent(new Event('visibilitychange'));
  }
}
