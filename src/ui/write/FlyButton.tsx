import type { VNode } from 'preact';

export interface FlyButtonProps {
  readonly words: readonly [string, string];
  readonly onPress: () => void;
  readonly undo?: boolean;
  readonly disabled?: boolean;
}

/** A touch of a flight: its word, and beneath it what it acts on. */
export function FlyButton({ words, onPress, undo = false, disabled = false }: FlyButtonProps): VNode {
  return (
    <button type="button" class={undo ? 'write-touch undo' : 'write-touch'} onClick={onPress} disabled={disabled}>
      <strong>{words[0]}</strong>
      <span>{words[1]}</span>
    </button>
  );
}
