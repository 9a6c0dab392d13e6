import type { CheckValue } from './check.ts';

/** Marks a limit that pilots keep and nobody has published. */
export const NO_SOURCE = 'common practice, no source';

/** A value that is said, not counted. */
export const words = (text: string): CheckValue => ({ kind: 'words', words: text });
/** Along the ground or through the air. */
export const distance = (metres: number): CheckValue => ({ kind: 'distance', metres });
/** Above the site or the sea, as the check's title says. */
export const height = (metres: number): CheckValue => ({ kind: 'height', metres });
/** Null for what does not come that day. */
export const instant = (epochMilliseconds: number | null): CheckValue | null => (epochMilliseconds === null ? null : { kind: 'instant', epochMilliseconds });
