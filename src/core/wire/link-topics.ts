import { isLinkId } from './link-id.ts';

/**
 * Where messages of the link go. Every device writes below a topic of its own and nowhere else, so that a broker can
 * hold it to that by its name:
 *
 * ```
 * quillwind/1/JOB/ROLE/DEVICE/state          newest only, QoS 0, retained    ship
 * quillwind/1/JOB/ROLE/DEVICE/link           QoS 1, retained, the will       ship, ground
 * quillwind/1/JOB/ROLE/DEVICE/event          QoS 1                           ship, ground
 * quillwind/1/JOB/ROLE/DEVICE/ask/OTHER      QoS 0                           ship, ground
 * quillwind/1/JOB/ROLE/DEVICE/answer/OTHER   QoS 0                           ship, ground
 * ```
 *
 * JOB is the job file's id, DEVICE and OTHER are the names devices connect under; nothing is built from a job's name.
 */
export interface LinkTopic {
  readonly jobId: string;
  readonly role: LinkRole;
  /** Who writes. */
  readonly device: string;
  readonly kind: LinkTopicKind;
  /** Who is asked or answered; null for the other kinds. */
  readonly other: string | null;
}

export type LinkRole = 'ship' | 'ground';

export type LinkTopicKind = 'state' | 'link' | 'event' | 'ask' | 'answer';

/** First levels of every topic; the number is this specification's version. */
export const LINK_TOPIC_ROOT = 'quillwind/1';

/** What each role may write. */
export const LINK_KINDS: Readonly<Record<LinkRole, readonly LinkTopicKind[]>> = {
  ship: ['state', 'link', 'event', 'ask', 'answer'],
  ground: ['link', 'event', 'ask', 'answer'],
};

/**
 * The topic's text. Inverse: {@link linkTopicFromText}.
 *
 * @throws RangeError for an id that is none, or a kind that the role does not write
 */
export function textFromLinkTopic({ jobId, role, device, kind, other }: LinkTopic): string {
  for (const [name, id] of Object.entries({ jobId, device, ...(other === null ? {} : { other }) })) {
    if (!isLinkId(id)) throw new RangeError(`${name} must match [A-Za-z0-9_-]{1,32}, not ${JSON.stringify(id)}`);
  }
  if (!LINK_KINDS[role].includes(kind)) throw new RangeError(`${role} writes no ${kind}`);
  if ((other !== null) !== (kind === 'ask' || kind === 'answer')) throw new RangeError(`other is ${other} for ${kind}`);
  return [LINK_TOPIC_ROOT, jobId, role, device, kind, ...(other === null ? [] : [other])].join('/');
}

/** The topic that a text is, or null for any other text, wildcards included. */
export function linkTopicFromText(text: string): LinkTopic | null {
  if (!text.startsWith(`${LINK_TOPIC_ROOT}/`)) return null;
  const [jobId = '', role = '', device = '', kind = '', other, ...rest] = text.slice(LINK_TOPIC_ROOT.length + 1).split('/');
  if (!isLinkId(jobId) || !isLinkId(device) || rest.length > 0) return null;
  if (role !== 'ship' && role !== 'ground') return null;
  const known = LINK_KINDS[role].find((each) => each === kind);
  if (known === undefined) return null;
  const personal = known === 'ask' || known === 'answer';
  if (personal !== (other !== undefined) || (other !== undefined && !isLinkId(other))) return null;
  return { jobId, role, device, kind: known, other: other ?? null };
}

/** What a device of a role listens to, its own presence among it, with the quality of service it asks for. */
export function linkSubscriptions(jobId: string, role: LinkRole, device: string): Readonly<Record<string, 0 | 1>> {
  if (!isLinkId(jobId) || !isLinkId(device)) throw new RangeError(`jobId ${JSON.stringify(jobId)} or device ${JSON.stringify(device)} is no id`);
  const all = `${LINK_TOPIC_ROOT}/${jobId}`;
  if (role === 'ship') {
    return {
      [`${all}/ship/+/state`]: 0,
      [`${all}/ship/+/link`]: 1,
      [`${all}/ground/+/link`]: 1,
      [`${all}/ground/+/event`]: 1,
      [`${all}/ground/+/ask/${device}`]: 0,
      [`${all}/ground/+/answer/${device}`]: 0,
    };
  }
  return {
    [`${all}/ship/+/state`]: 0,
    [`${all}/ship/+/link`]: 1,
    [`${all}/ship/+/event`]: 1,
    [`${all}/ship/+/ask/${device}`]: 0,
    [`${all}/ship/+/answer/${device}`]: 0,
    [`${all}/ground/+/link`]: 1,
    [`${all}/ground/+/event`]: 1,
    // An observer who was away asks the others for what they said meanwhile.
    [`${all}/ground/+/ask/${device}`]: 0,
    [`${all}/ground/+/answer/${device}`]: 0,
  };
}
