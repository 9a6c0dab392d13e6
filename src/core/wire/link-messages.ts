/**
 * What the link carries: JSON, one message a payload, at most {@link LINK_PAYLOAD_BYTES}. Clock times are milliseconds
 * since 1970 UTC by the SENDER's clock, which nobody trusts to be right; ages are worked out from them by the receiver.
 */

/** The longest payload anybody sends or takes. */
export const LINK_PAYLOAD_BYTES = 8192;

/** Points of laid smoke in one event. */
export const LINK_POINTS_LIMIT = 64;

/** What every message says of its sender. */
export interface LinkSender {
  readonly v: 1;
  /** The name the device connects under; must be the topic's, or the message is dropped. */
  readonly device: string;
  /** Made anew each time the sender's page starts; events are counted from 0 within it. */
  readonly boot: string;
  readonly sentAtMilliseconds: number;
}

/** Topic `state`: where a ship is now. */
export interface ShipState extends LinkSender {
  /** Events of this boot so far, so that a gap is noticed at once. */
  readonly eventCount: number;
  readonly shipIndex: number;
  /** The last good fix; null when there is none. */
  readonly fix: LinkFix | null;
  readonly phase: LinkPhase;
  readonly smoke: 'on' | 'off' | null;
  readonly strokeNumber: number;
  readonly strokeCount: number;
  readonly character: string | null;
  /** As the ship measures it; null when it does not. */
  readonly windFromDegreesTrue: number | null;
  readonly windSpeedMetresPerSecond: number | null;
}

export interface LinkFix {
  /** Age when the message was sent, by the ship's own count. */
  readonly ageSeconds: number;
  readonly latitudeDegrees: number;
  readonly longitudeDegrees: number;
  readonly altitudeMetres: number | null;
  readonly trackDegreesTrue: number | null;
  readonly groundSpeedMetresPerSecond: number | null;
}

export const LINK_PHASES = ['standby', 'run-in', 'stroke', 'reposition', 'go-around', 'hold', 'finished', 'no-cue'] as const;

export type LinkPhase = (typeof LINK_PHASES)[number];

/** Topic `link`: whether a device is there, and what there is to be had from it. `lost` is the will's. */
export interface LinkPresence extends LinkSender {
  readonly state: 'up' | 'lost' | 'ended';
  /** Null for an observer. */
  readonly shipIndex: number | null;
  /** A ship's name in the job, or an observer's own. */
  readonly name: string;
  /** First 24 hexadecimal digits of the job file's SHA-256; null where it could not be computed. */
  readonly jobDigest: string | null;
  /** Every boot whose events can still be asked for. */
  readonly boots: readonly { readonly boot: string; readonly count: number }[];
}

/** Topic `event`: something that happened, told once and for all. */
export type LinkEvent = LinkSender & {
  /** 0, 1, 2 ... within the boot. */
  readonly sequence: number;
  readonly atMilliseconds: number;
} & LinkFact;

export type LinkFact = ShipFact | GroundFact;

export type ShipFact =
  | {
      readonly kind: 'began';
      readonly flightKind: 'flight' | 'rehearsal' | 'replay';
      readonly shipIndex: number;
      readonly shipName: string;
    }
  /** When the drift is zero: the lead's first smoke. */
  | { readonly kind: 'datum'; readonly datumMilliseconds: number }
  | { readonly kind: 'smoke'; readonly smoke: 'on' | 'off'; readonly letterIndex: number | null; readonly character: string | null }
  /** Smoke laid since the last such event: where, and how many seconds after `fromMilliseconds`. */
  | {
      readonly kind: 'laid';
      readonly letterIndex: number | null;
      readonly character: string | null;
      readonly fromMilliseconds: number;
      readonly secondsAfter: readonly number[];
      readonly latitudesDegrees: readonly number[];
      readonly longitudesDegrees: readonly number[];
    }
  | { readonly kind: 'phase'; readonly phase: LinkPhase }
  | { readonly kind: 'touched'; readonly touch: LinkTouch }
  | { readonly kind: 'ended' };

export const LINK_TOUCHES = ['strokeRedone', 'strokeSkipped', 'held', 'holdReleased', 'datumMovedHere', 'knockedOff', 'lastTouchUndone'] as const;

export type LinkTouch = (typeof LINK_TOUCHES)[number];

/** The few things an observer can say to the ships. They are shown there as words and act on nothing. */
export const GROUND_CALLS = ['reads-well', 'letter-broken', 'cloud-coming', 'traffic', 'stop'] as const;

export type GroundCall = (typeof GROUND_CALLS)[number];

/** How a letter reads, best first. */
export const LETTER_RATINGS = ['reads', 'weak', 'broken', 'not-seen'] as const;

export type LetterRating = (typeof LETTER_RATINGS)[number];

export type GroundFact =
  | { readonly kind: 'call'; readonly call: GroundCall; readonly letterIndex: number | null; readonly character: string | null }
  | {
      readonly kind: 'rated';
      readonly letterIndex: number;
      readonly character: string;
      readonly rating: LetterRating;
      readonly sinceDatumSeconds: number | null;
    };

/** Topic `ask`. */
export type LinkAsk = LinkSender &
  (
    | { readonly kind: 'events'; readonly ofBoot: string; readonly fromSequence: number; readonly toSequence: number }
    /** What time is it with you? */
    | { readonly kind: 'time'; readonly nonce: string }
  );

/** Topic `answer`. */
export type LinkAnswer = LinkSender & { readonly kind: 'time'; readonly nonce: string; readonly receivedAtMilliseconds: number };
