/** One connection to a broker, from its opening to its end; a new one is made for each attempt. */
export interface Connection {
  /** Resolves once the broker has it (QoS 1) or it has left (QoS 0); rejects when the connection ends before. */
  publish(topic: string, payloadText: string, options: { readonly qos: 0 | 1; readonly retain: boolean }): Promise<void>;
  /** Resolves with the topics that the broker refused. */
  subscribe(topics: Readonly<Record<string, 0 | 1>>): Promise<readonly string[]>;
  /** Asks for a sign of life; any answer is heard. */
  ping(): void;
  /** Says good-bye, so that the will is not published. */
  leave(): Promise<void>;
  /** Ends it without a word. */
  drop(): void;
}

/** Why a connection ended or never came about. */
export type ConnectionEnd =
  /** Nobody there, a certificate nobody trusts, or a socket that broke: browsers do not say which. */
  | { readonly kind: 'unreachable'; readonly detail: string }
  /** User, password or client id refused; trying again with the same is of no use. */
  | { readonly kind: 'refused'; readonly detail: string }
  /** It was open, and then ended. */
  | { readonly kind: 'broken'; readonly detail: string };

/** What a connection reports; nothing after `ended`. */
export interface ConnectionListener {
  opened(): void;
  received(topic: string, payload: Uint8Array, retained: boolean): void;
  /** Any packet at all. */
  heard(): void;
  ended(end: ConnectionEnd): void;
}

export interface ConnectionOptions {
  /** `wss://host:port/path`, or `ws://` where the page may. */
  readonly address: string;
  /** The client id too. */
  readonly user: string;
  readonly password: string;
  readonly will: { readonly topic: string; readonly payloadText: string };
  readonly keepaliveSeconds: number;
}

/** Begins a connection. Rejects when the code for it cannot be had. */
export type Connect = (options: ConnectionOptions, listener: ConnectionListener) => Promise<Connection>;
