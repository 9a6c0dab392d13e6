import { fc } from '../../property.ts';
import { describe, expect, it } from 'vitest';
import { LINK_KINDS, linkSubscriptions, type LinkTopic, linkTopicFromText, textFromLinkTopic } from '../../../src/core/wire/link-topics.ts';

const id = fc.stringMatching(/^[A-Za-z0-9_-]{1,32}$/);
const anyTopic: fc.Arbitrary<LinkTopic> = fc
  .record({ jobId: id, role: fc.constantFrom('ship' as const, 'ground' as const), device: id, other: id, pick: fc.nat(10) })
  .map(({ jobId, role, device, other, pick }) => {
    const kind = LINK_KINDS[role][pick % LINK_KINDS[role].length]!;
    return { jobId, role, device, kind, other: kind === 'ask' || kind === 'answer' ? other : null };
  });

describe('topics of the link', () => {
  it('survive the way there and back', () => {
    fc.assert(
      fc.property(anyTopic, (topic) => {
        expect(linkTopicFromText(textFromLinkTopic(topic))).toEqual(topic);
      }),
    );
  });

  it('read as they are specified', () => {
    expect(textFromLinkTopic({ jobId: 'lake-ondine', role: 'ship', device: 'lead', kind: 'state', other: null })).toBe(
      'quillwind/1/lake-ondine/ship/lead/state',
    );
    expect(textFromLinkTopic({ jobId: 'j', role: 'ground', device: 'anna', kind: 'ask', other: 'lead' })).toBe('quillwind/1/j/ground/anna/ask/lead');
  });

  it.each([
    '',
    'quillwind/1',
    'quillwind/2/j/ship/lead/state',
    'quillwind/1/j/ship/lead',
    'quillwind/1/j/ship/lead/state/more',
    'quillwind/1/j/ship/lead/ask',
    'quillwind/1/j/pilot/lead/state',
    'quillwind/1/j/ground/anna/state',
    'quillwind/1/j/ship/+/state',
    'quillwind/1/#',
    'quillwind/1/j/ship/le ad/state',
    'quillwind/1/j/ship/../state',
    `quillwind/1/j/ship/${'x'.repeat(33)}/state`,
    'quillwind/1/j/ship/lead/state\n',
  ])('know no other: %j', (text) => {
    expect(linkTopicFromText(text)).toBeNull();
  });

  it('are never built from a job\u2019s name or any other text', () => {
    expect(() => textFromLinkTopic({ jobId: 'Lake Ondine', role: 'ship', device: 'lead', kind: 'state', other: null })).toThrow(RangeError);
    expect(() => linkSubscriptions('j/#', 'ground', 'anna')).toThrow(RangeError);
    expect(() => textFromLinkTopic({ jobId: 'j', role: 'ground', device: 'anna', kind: 'state', other: null })).toThrow(RangeError);
  });
});
