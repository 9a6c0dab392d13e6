import { LINK_PAYLOAD_BYTES } from '../core/wire/link-schemas.ts';
import { isLinkId } from '../core/wire/link-id.ts';
import { LINK_TOPIC_ROOT, linkTopicFromText, type LinkTopicKind } from '../core/wire/link-topics.ts';
import type { HubUser } from './users.ts';

/** What a client wants to publish. */
export interface WantedPublish {
  readonly topic: string;
  readonly qos: number;
  readonly retain: boolean;
  readonly payloadBytes: number;
}

/** Why a user may not publish this; null when it may. A user writes below its own name, in its role, in its jobs. */
export function publishFault({ name, role, jobs }: HubUser, { topic: text, qos, retain, payloadBytes }: WantedPublish): string | null {
  const topic = linkTopicFromText(text);
  if (topic === null) return 'no topic of the link';
  if (topic.role !== role) return `${name} is no ${topic.role}`;
  if (topic.device !== name) return `${name} may not speak for ${topic.device}`;
  if (!mayJob(jobs, topic.jobId)) return `${name} has no part in this job`;
  if (qos > 1) return 'quality of service 2 is not offered';
  if (payloadBytes > LINK_PAYLOAD_BYTES) return 'a payload that is too long';
  if (retain && topic.kind !== 'state' && topic.kind !== 'link') return `${topic.kind} is not kept`;
  return null;
}

/** What each role may hear of whom; kinds that name a listener are heard by that listener alone. */
const HEARD: Readonly<Record<HubUser['role'], Readonly<Record<'ship' | 'ground', readonly LinkTopicKind[]>>>> = {
  ship: { ship: ['state', 'link', 'event'], ground: ['link', 'event', 'ask', 'answer'] },
  ground: { ship: ['state', 'link', 'event', 'ask', 'answer'], ground: ['link', 'event', 'ask', 'answer'] },
  none: { ship: [], ground: [] },
};

/** The kinds of topics a role may hear, of whom, and whether only those that name the listener. */
export function heardBy(role: HubUser['role']): readonly { readonly whose: 'ship' | 'ground'; readonly kind: LinkTopicKind; readonly isNamed: boolean }[] {
  return (['ship', 'ground'] as const).flatMap((whose) => HEARD[role][whose].map((kind) => ({ whose, kind, isNamed: kind === 'ask' || kind === 'answer' })));
}

/**
 * Whether a user may subscribe to a filter: `quillwind/1/JOB/ROLE/DEVICE/KIND`, where DEVICE may be `+`, and JOB too
 * for users of all jobs; `ask` and `answer` only with its own name behind. No filter with `#`.
 */
export function maySubscribe({ name, role, jobs }: HubUser, filter: string): boolean {
  if (!filter.startsWith(`${LINK_TOPIC_ROOT}/`)) return false;
  const [jobId = '', whose = '', device = '', kind = '', listener, ...rest] = filter.slice(LINK_TOPIC_ROOT.length + 1).split('/');
  if (rest.length > 0 || (whose !== 'ship' && whose !== 'ground')) return false;
  if (jobId === '+' ? !jobs.includes('*') : !isLinkId(jobId) || !mayJob(jobs, jobId)) return false;
  if (device !== '+' && !isLinkId(device)) return false;
  const heard = HEARD[role][whose].find((each) => each === kind);
  if (heard === undefined) return false;
  return heard === 'ask' || heard === 'answer' ? listener === name : listener === undefined;
}

function mayJob(jobs: readonly string[], jobId: string): boolean {
  return jobs.includes('*') || jobs.includes(jobId);
}
