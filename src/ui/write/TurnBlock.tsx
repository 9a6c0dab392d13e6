import type { ReadonlySignal } from '@preact/signals';
import type { VNode } from 'preact';
import { Figures } from './Figures.tsx';

export interface TurnBlockProps {
  readonly turn: ReadonlySignal<'left' | 'right' | 'straight' | null>;
  readonly bankText: ReadonlySignal<string>;
}

const WORDS = { left: 'LEFT', right: 'RIGHT', straight: 'STRAIGHT' } as const;

/**
 * Which way to turn: a filled block at the edge of the screen on the side of the turn, its arrow bent that way, with
 * the bank in figures; straight ahead is an open arrow in the middle.
 */
export function TurnBlock({ turn, bankText }: TurnBlockProps): VNode {
  const side = turn.value;
  return (
    <div class="write-turn" data-turn={side ?? 'none'}>
      {(side === 'left' || side === 'right') && (
        <div class="write-turn-block">
          <svg class="write-turn-arrow" viewBox="0 0 100 100" aria-hidden="true">
            <path transform={side === 'right' ? 'translate(100)scale(-1 1)' : undefined} d="M78 96V52A22 22 0 0 0 56 30H30M50 6 24 30 50 54" />
          </svg>
          <strong class="write-turn-word">{WORDS[side]}</strong>
          <span class="write-bank">
            <Figures text={bankText} places={2} />
            <span class="write-bank-word">° bank</span>
          </span>
        </div>
      )}
      {side === 'straight' && (
        <div class="write-straight">
          <svg class="write-straight-arrow" viewBox="0 0 60 60" aria-hidden="true">
            <path d="M30 54V8M12 26 30 8 48 26" />
          </svg>
          <strong class="write-turn-word">{WORDS.straight}</strong>
        </div>
      )}
    </div>
  );
}
