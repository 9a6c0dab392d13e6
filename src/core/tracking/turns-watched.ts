/** What turns out of straight flight say of the time that is believed of the fixes. */
export interface WatchedTurns {
  /** The cue of the last one that was looked at. */
  readonly lastCuedAtSeconds: number;
  /** From their cues to their traces, beyond what hand and roll take: the last ones, newest last. */
  readonly beyonds: readonly number[];
  /** What they say together. */
  readonly beyondSeconds: number;
  /** `doubted`: no smoke until one more turn has told; `late`: several told the same, and the pilot is asked, once. */
  readonly verdict: 'in-time' | 'doubted' | 'late';
  /** The doubt has asked for a third turn. */
  readonly doubtedBefore?: boolean;
}
