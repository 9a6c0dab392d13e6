import type { VNode } from 'preact';

/** The shape that stands beside every caution's colour and word. */
export function CautionMark(): VNode {
  return (
    <svg class="write-caution-mark" viewBox="0 0 24 24" aria-hidden="true">
      <path d="M12 2 23 22H1ZM12 9V15M12 18.2V18.3" />
    </svg>
  );
}
