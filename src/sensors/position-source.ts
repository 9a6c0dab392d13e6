import type { Fix } from '../core/tracking/fix.ts';

/** Why no fixes come: the pilot's permission, the receiver, or a page that is not shown. */
export type LossReason = 'permission' | 'unavailable' | 'hidden';

/** Hears what a source of positions has to say. */
export interface PositionListener {
  fixReceived(fix: Fix): void;
  /** Said once as a silence begins; the next fix ends it. */
  fixesLost(reason: LossReason): void;
}

/** Where positions come from: the device, a rehearsal, or a recording. */
export interface PositionSource {
  /** Begins to report; the returned function ends it, and nothing is heard after that. */
  start(listener: PositionListener): () => void;
}
