/**
 * How letters are drawn: `capitals` with every corner crisp; `round-capitals`, the same letters with the corners
 * rounded where they stay themselves at a glance; `quickest`, whatever drawing saves most time and is still read;
 * `joined`, a running hand of small letters after each word's capital, the smoke staying on where letters join.
 */
export type Hand = (typeof HANDS)[number];

/** All hands, the one proposed for a new job second. */
export const HANDS = ['capitals', 'round-capitals', 'quickest', 'joined'] as const;
