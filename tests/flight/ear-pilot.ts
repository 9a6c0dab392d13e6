import { uniformFrom } from './random.ts';
import type { ShownCue } from './simulated-flight.ts';

/** How quickly a pilot does what was heard, seconds after its last word. */
export interface EarHands {
  readonly seed: number;
  readonly leastSeconds: number;
  readonly mostSeconds: number;
  /** One in so many is done only after `slowSeconds`; 0 for never. */
  readonly slowOneIn: number;
  readonly slowSeconds: number;
}

/** An ordinary pilot: 0.3 to 1.2 s, once in twenty 2 s (the client's figures). */
export const ORDINARY_EARS: Omit<EarHands, 'seed'> = { leastSeconds: 0.3, mostSeconds: 1.2, slowOneIn: 20, slowSeconds: 2 };

const FIGURES = ['zero', 'one', 'two', 'three', 'four', 'five', 'six', 'seven', 'eight', 'nine'];
const BANKS: Readonly<Record<string, number>> = { shallow: 15, medium: 30, steep: 45 };

interface Heard {
  readonly atSeconds: number;
  readonly words: readonly string[];
}

/**
 * A pilot who never looks: everything is done by the words of `data-cue="said"`, each announcement lasting as long as it
 * lasts. Imports nothing of the app.
 */
export class EarPilot {
  /** Seconds in which something was being said. */
  spokenSeconds = 0;
  announcements = 0;
  private lastNumber = 0;
  private readonly pending: Heard[] = [];
  private readonly uniform: () => number;
  private readonly hands: EarHands;
  private cue: ShownCue = { phase: 'standby', turn: '', headingDegrees: null, bankDegrees: null, smoke: 'off' };
  private next: { turn: string; bankDegrees: number; headingDegrees: number } | null = null;
  private circling = false;

  constructor(hands: EarHands) {
    this.hands = hands;
    this.uniform = uniformFrom(hands.seed * 31 + 7);
  }

  /** The element's value as it is now, and how long the announcement in it lasts. */
  hear(value: string, seconds: number, atSeconds: number): void {
    const [number, ...words] = value.split(' ');
    if (value === '' || Number(number) === this.lastNumber) return;
    this.lastNumber = Number(number);
    this.spokenSeconds += seconds;
    this.announcements += 1;
    const { leastSeconds, mostSeconds, slowOneIn, slowSeconds } = this.hands;
    const slow = slowOneIn > 0 && this.uniform() < 1 / slowOneIn;
    const delay = slow ? slowSeconds : leastSeconds + this.uniform() * (mostSeconds - leastSeconds);
    this.pending.push({ atSeconds: atSeconds + seconds + delay, words });
  }

  get isCircling(): boolean {
    return this.circling;
  }

  /** What the hands do now; the compass is the pilot's own, magnetic. */
  wants(atSeconds: number, compassDegrees: number): ShownCue {
    while (this.pending.length > 0 && this.pending[0]!.atSeconds <= atSeconds) this.obey(this.pending.shift()!.words);
    if (!this.circling) return this.cue;
    return { ...this.cue, headingDegrees: (compassDegrees + (this.cue.turn === 'left' ? 210 : 150)) % 360 };
  }

  private obey(words: readonly string[]): void {
    const [first] = words;
    if (words.includes('no-cue')) {
      this.cue = { phase: 'no-cue', turn: '', headingDegrees: null, bankDegrees: null, smoke: words.includes('smoke-off') ? 'off' : this.cue.smoke };
      return;
    }
    const figures = words.map((word) => FIGURES.indexOf(word)).filter((figure) => figure >= 0);
    const heading = figures.length === 3 ? (figures[0]! * 100 + figures[1]! * 10 + figures[2]!) % 360 : null;
    const bank = words.map((word) => BANKS[word]).find((degrees) => degrees !== undefined) ?? null;
    const side = words.find((word) => word === 'left' || word === 'right');
    if (first === 'next') {
      if (side !== undefined && heading !== null) this.next = { turn: side, bankDegrees: bank ?? 30, headingDegrees: heading };
      return;
    }
    if (words.includes('smoke-on')) this.cue = { ...this.cue, smoke: 'on', phase: 'stroke' };
    if (words.includes('smoke-off')) this.cue = { ...this.cue, smoke: 'off', phase: 'reposition' };
    if (first === 'finished' || first === 'hold') this.cue = { ...this.cue, phase: first, smoke: 'off' };
    if (side !== undefined) {
      this.circling = first === 'circle';
      const told = heading === null && bank === null ? this.next : null;
      this.cue = {
        ...this.cue,
        phase: 'reposition',
        turn: side,
        bankDegrees: told?.bankDegrees ?? bank ?? 30,
        headingDegrees: told?.headingDegrees ?? heading ?? this.cue.headingDegrees,
      };
    } else if (first === 'roll-out' || first === 'straight') {
      this.circling = false;
      this.cue = { ...this.cue, phase: 'reposition', turn: 'straight', bankDegrees: 0, headingDegrees: heading ?? this.cue.headingDegrees };
    }
  }
}
