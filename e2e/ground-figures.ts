/** What a campaign over one broker found, for `npm run show -- ground`. */
export interface GroundFigures {
  /** Events that others told, once for each observer who should have them. */
  readonly sent: number;
  readonly received: number;
  readonly lost: number;
  /** Passed on more than once. */
  readonly doubled: number;
  /** How often a ship of whom nothing can have come was called live or ageing. */
  readonly staleShown: number;
  /** Messages that came to somebody without rights. */
  readonly overheard: number;
  /** Messages of somebody without rights that an observer took for true. */
  readonly forged: number;
  /** From the healing until everybody had heard everything. */
  readonly healedSeconds: number;
}
