/** A change of what the screen asks for. */
export interface CueAt {
  readonly atSeconds: number;
  readonly phase: string;
  readonly turn: string;
  /** Magnetic. */
  readonly heading: number | null;
}

/** How calm a flight's cues were. */
export interface CueCalm {
  readonly turnCues: number;
  /** Turn cues that lived less than 3 s before the opposite turn. */
  readonly oppositeTurns: number;
  /** Changes of the heading by more than 5 degrees within 0.35 s, the turn staying what it was. */
  readonly headingJumps: number;
  /** Seconds in which the figures changed more than twice. */
  readonly restlessSeconds: number;
  readonly seconds: number;
}

const OPPOSITE_SECONDS = 3;
const JUMP_SECONDS = 0.35;
const JUMP_DEGREES = 5;
/** A rise to the next half circle of a long turn is part of that turn: 200 degrees are the most that is shown. */
const HALF_CIRCLE_DEGREES = 170;

const apart = (one: number, other: number): number => Math.abs(((((one - other + 180) % 360) + 360) % 360) - 180);

/** Counts what unsettles a pilot: turns taken back, headings that jump, figures that flicker. */
export function cueCalm(changes: readonly CueAt[], seconds: number): CueCalm {
  let [turnCues, oppositeTurns, headingJumps, restlessSeconds] = [0, 0, 0, 0];
  let turnSince = -Infinity;
  let jumpedAt = -Infinity;
  changes.forEach((cue, index) => {
    const before = changes[index - 1];
    if (cue.turn !== before?.turn) {
      if (cue.turn === 'left' || cue.turn === 'right') turnCues += 1;
      const opposite = (cue.turn === 'left' && before?.turn === 'right') || (cue.turn === 'right' && before?.turn === 'left');
      if (opposite && cue.atSeconds - turnSince < OPPOSITE_SECONDS) oppositeTurns += 1;
      turnSince = cue.atSeconds;
    }
    if (before !== undefined && before.turn === cue.turn && before.phase === cue.phase && before.heading !== null && cue.heading !== null) {
      // Several steps within a third of a second are one jump.
      const from = changes
        .slice(0, index)
        .filter(({ atSeconds, turn, heading }) => turn === cue.turn && heading !== null && cue.atSeconds - atSeconds <= JUMP_SECONDS);
      const jumped = Math.max(...[before, ...from].map(({ heading }) => apart(heading ?? NaN, cue.heading ?? NaN)));
      if (jumped > JUMP_DEGREES && jumped < HALF_CIRCLE_DEGREES && cue.atSeconds - jumpedAt > JUMP_SECONDS) {
        headingJumps += 1;
        jumpedAt = cue.atSeconds;
      }
    }
  });
  for (let second = 0; second < seconds; second += 1) {
    const within = changes.filter(({ atSeconds }) => atSeconds >= second && atSeconds < second + 1).length;
    if (within > 2) restlessSeconds += 1;
  }
  return { turnCues, oppositeTurns, headingJumps, restlessSeconds, seconds };
}
