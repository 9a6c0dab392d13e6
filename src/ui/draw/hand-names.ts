import type { Hand } from '../../core/letters/hand.ts';

/** What each hand is called. */
export const HAND_NAMES: Readonly<Record<Hand, string>> = {
  capitals: 'Capitals',
  'round-capitals': 'Round capitals',
  quickest: 'Quickest',
  joined: 'Joined',
};
