import type { VNode } from 'preact';

/** While the storage has not answered yet. */
export function OpeningStored(): VNode {
  return (
    <p class="quiet" role="status">
      Opening what is stored
    </p>
  );
}
