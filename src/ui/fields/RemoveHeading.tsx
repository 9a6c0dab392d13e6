import type { VNode } from 'preact';

/** The heading over a table's column of remove keys: the cross needs no word for those who see it. */
export function RemoveHeading(): VNode {
  return (
    <th scope="col">
      <span class="visually-hidden">Remove</span>
    </th>
  );
}
