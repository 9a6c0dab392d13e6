import type { VNode } from 'preact';

/** The list of bookings. */
export function JobsScreen(): VNode {
  return <h1>Jobs</h1>;
}
