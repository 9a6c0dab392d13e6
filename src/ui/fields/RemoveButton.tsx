import type { VNode } from 'preact';

export interface RemoveButtonProps {
  /** What is taken out, in words: the cross alone says it to nobody who only hears it. */
  readonly label: string;
  readonly onPress: () => void;
}

/** Takes one row out of a list. */
export function RemoveButton({ label, onPress }: RemoveButtonProps): VNode {
  return (
    <button type="button" class="plain" aria-label={label} onClick={onPress}>
      {'\u00d7'}
    </button>
  );
}
