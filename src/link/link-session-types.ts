import type { LinkAnswer, LinkAsk, LinkFact, LinkPresence, ShipState } from '../core/wire/link-messages.ts';
import type { LinkMessage } from '../core/wire/link-parse.ts';
import type { LinkRole } from '../core/wire/link-topics.ts';
import type { Connect, ConnectionEnd } from './connection.ts';
import type { LinkOutbox } from './event-sender.ts';
import type { LinkInstant, LinkTime } from './link-clock.ts';

/** How the link stands. */
export type LinkStatus =
  | { readonly kind: 'connecting' }
  | { readonly kind: 'linked' }
  /** Between two attempts. */
  | { readonly kind: 'waiting'; readonly reason: ConnectionEnd; readonly retryInSeconds: number }
  /** User or password are wrong: nothing is tried until they change. */
  | { readonly kind: 'refused'; readonly reason: ConnectionEnd }
  /** The broker lets this user in, but not listen to this job. */
  | { readonly kind: 'no-rights' }
  | { readonly kind: 'ended' };

/** What a session needs. */
export interface LinkSessionOptions {
  readonly connect: Connect;
  /** One, or those of all nodes, tried in turn; see `link-addresses.ts`. */
  readonly address: string;
  /** The device's name with the broker: user, client id and topic. */
  readonly user: string;
  readonly password: string;
  readonly jobId: string;
  readonly role: LinkRole;
  readonly boot: string;
  readonly presence: Pick<LinkPresence, 'shipIndex' | 'name' | 'jobDigest'>;
  readonly outbox: LinkOutbox;
  readonly time: LinkTime;
  /** From 0 to 1. */
  readonly random: () => number;
  /** Tells when the page is shown again and when the device is online; null outside of a page. */
  readonly page: LinkPage | null;
  onMessage(message: LinkMessage, arrival: LinkArrival): void;
  onStatus(status: LinkStatus): void;
  /** Something changed in what waits to be told. */
  onOutbox(waitingCount: number, storing: boolean): void;
}

export interface LinkPage {
  /** Calls back when the page is shown after having been hidden for some seconds; the returned function ends it. */
  onShown(listener: (hiddenSeconds: number) => void): () => void;
  onOnline(listener: () => void): () => void;
}

export interface LinkArrival {
  /** Kept by the broker: last known, at any age. */
  readonly retained: boolean;
  readonly at: LinkInstant;
}

/** A link to one job's topics, kept up for as long as it is wanted. */
export interface LinkSession {
  /** The ship's place now; what is not sent at once is replaced by the next. */
  tellState(state: Omit<ShipState, 'v' | 'device' | 'boot' | 'sentAtMilliseconds' | 'eventCount'>): void;
  tellEvent(fact: LinkFact, atMilliseconds: number): void;
  ask(device: string, question: AskBody): void;
  answer(device: string, answer: AnswerBody): void;
  tellAgain(boot: string, fromSequence: number, toSequence: number): void;
  /** Gives this node up for the next one, where there are several: it lets in and brings nothing. */
  moveOn(): void;
  /** Tries at once. */
  retry(): void;
  /** Says that this device has ended, clears what the broker keeps of it, and leaves. */
  end(): Promise<void>;
}

type Body<Message> = Message extends unknown ? Omit<Message, 'v' | 'device' | 'boot' | 'sentAtMilliseconds'> : never;
export type AskBody = Body<LinkAsk>;
export type AnswerBody = Body<LinkAnswer>;
