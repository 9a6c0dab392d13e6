import type { Signal } from '@preact/signals';
import type { InstallProgress } from './follow-install.ts';

/** What following the service worker tells. */
export interface UpdateSignals {
  readonly waiting: Signal<boolean>;
  readonly shell: Signal<'storing' | 'complete' | 'unsupported' | 'failed'>;
  readonly progress: Signal<InstallProgress | null>;
  readonly installFault: Signal<string | null>;
}
