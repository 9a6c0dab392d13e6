/**
 * How old what another device says is, when neither clock can be trusted. A message sent at `s` by the sender's clock
 * and received at `r` by ours took `r - s - offset`, which is never negative: so the least `r - s` bounds the offset
 * from above and, while the clocks agree, is small. Where they do not agree, a clock that is wrong and a message that
 * was long on its way look the same, and only a question and its answer tell them apart (as in NTP, RFC 5905,
 * section 8: offset from four times, error at most half the round trip).
 */
export interface SenderClock {
  /** Least of received minus sent over the messages that came live. */
  readonly leastDelayMilliseconds: number;
  /** Our clock minus the sender's, from its answer; null before one. */
  readonly answered: ClockAnswer | null;
}

export interface ClockAnswer {
  readonly offsetMilliseconds: number;
  /** Half the round trip. */
  readonly errorMilliseconds: number;
}

export type MessageAge =
  | { readonly kind: 'known'; readonly ageMilliseconds: number }
  /** The clocks differ, or the message is old: it is not known which, so it is not live. */
  | { readonly kind: 'unknown'; readonly apartMilliseconds: number };

/** Clocks within this of each other are taken as one; devices set by a network or a receiver are. */
export const AGREE_MILLISECONDS = 2000;

/** An answer slower than this tells too little. */
const ROUND_TRIP_LIMIT_MILLISECONDS = 4000;

/** The sender's clock after a message that came live (not retained by the broker). */
export function heardLive(clock: SenderClock | null, sentAtMilliseconds: number, receivedAtMilliseconds: number): SenderClock {
  const delay = receivedAtMilliseconds - sentAtMilliseconds;
  if (clock === null) return { leastDelayMilliseconds: delay, answered: null };
  const leastDelayMilliseconds = Math.min(clock.leastDelayMilliseconds, delay);
  // Earlier than the answer allows: the sender's clock was set since.
  const contradicted = clock.answered !== null && delay < clock.answered.offsetMilliseconds - clock.answered.errorMilliseconds - 1000;
  return contradicted ? { leastDelayMilliseconds: delay, answered: null } : { leastDelayMilliseconds, answered: clock.answered };
}

/**
 * The sender's clock after its answer to "what time is it with you?".
 *
 * @param askedAtMilliseconds by our clock
 * @param itsReceivedAtMilliseconds by the sender's, as are its times of sending
 */
export function heardAnswer(
  clock: SenderClock | null,
  askedAtMilliseconds: number,
  itsReceivedAtMilliseconds: number,
  itsSentAtMilliseconds: number,
  answeredAtMilliseconds: number,
): SenderClock | null {
  const roundTrip = answeredAtMilliseconds - askedAtMilliseconds - (itsSentAtMilliseconds - itsReceivedAtMilliseconds);
  if (!(roundTrip >= 0 && roundTrip <= ROUND_TRIP_LIMIT_MILLISECONDS)) return clock;
  const offsetMilliseconds = (askedAtMilliseconds - itsReceivedAtMilliseconds + answeredAtMilliseconds - itsSentAtMilliseconds) / 2;
  return {
    leastDelayMilliseconds: clock?.leastDelayMilliseconds ?? answeredAtMilliseconds - itsSentAtMilliseconds,
    answered: { offsetMilliseconds, errorMilliseconds: roundTrip / 2 },
  };
}

/** True while the sender should be asked what time it is: the clocks do not agree and nobody has said which is off. */
export function isClockInDoubt(clock: SenderClock): boolean {
  return clock.answered === null && Math.abs(clock.leastDelayMilliseconds) > AGREE_MILLISECONDS;
}

/**
 * How old a message was when it arrived. Errs towards older, but for two clocks that agree within 2 s, of which the
 * sender's may be ahead by up to that.
 */
export function ageAtArrival(clock: SenderClock | null, sentAtMilliseconds: number, receivedAtMilliseconds: number): MessageAge {
  const delay = receivedAtMilliseconds - sentAtMilliseconds;
  if (clock?.answered != null) {
    const { offsetMilliseconds, errorMilliseconds } = clock.answered;
    return { kind: 'known', ageMilliseconds: Math.max(0, delay - offsetMilliseconds + errorMilliseconds) };
  }
  if (clock === null || isClockInDoubt(clock)) {
    // A retained message before anything came live: old by our clock at face value, if our clock is right.
    return { kind: 'unknown', apartMilliseconds: clock?.leastDelayMilliseconds ?? delay };
  }
  return { kind: 'known', ageMilliseconds: Math.max(0, delay - Math.min(0, clock.leastDelayMilliseconds)) };
}
