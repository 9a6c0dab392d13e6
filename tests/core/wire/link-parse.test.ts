import { fc } from '../../property.ts';
import { describe, expect, it } from 'vitest';
import { linkMessageFrom } from '../../../src/core/wire/link-parse.ts';

const AT = 1_800_000_000_000;
const SENDER = { v: 1, device: 'lead', boot: 'b1', sentAtMilliseconds: AT };
const STATE = {
  ...SENDER,
  eventCount: 4,
  shipIndex: 0,
  fix: { ageSeconds: 0.4, latitudeDegrees: 43.9, longitudeDegrees: -74.4, altitudeMetres: null, trackDegreesTrue: 360, groundSpeedMetresPerSecond: 55 },
  phase: 'stroke',
  smoke: 'on',
  strokeNumber: 1,
  strokeCount: 9,
  character: 'S',
  windFromDegreesTrue: null,
  windSpeedMetresPerSecond: null,
};
const EVENT = { ...SENDER, sequence: 3, atMilliseconds: AT };
const LAID = {
  ...EVENT,
  kind: 'laid',
  letterIndex: 0,
  character: 'S',
  fromMilliseconds: AT,
  secondsAfter: [0, 1, 2],
  latitudesDegrees: [43.9, 43.9, 43.9],
  longitudesDegrees: [-74.4, -74.39, -74.38],
};
const ship = (kind: string): string => `quillwind/1/j/ship/lead/${kind}`;
const read = (topic: string, value: unknown) => linkMessageFrom(topic, typeof value === 'string' ? value : JSON.stringify(value));

describe('messages of the link', () => {
  it('are taken with their known fields and no others', () => {
    const reading = read(ship('state'), { ...STATE, extra: '<b>', fix: { ...STATE.fix, more: 1 } });
    expect(reading).toEqual({
      ok: true,
      value: { topic: expect.anything(), kind: 'state', state: { ...STATE, fix: { ...STATE.fix, trackDegreesTrue: 0 }, formation: null } },
    });
  });

  it.each([
    { ...EVENT, kind: 'began', flightKind: 'rehearsal', shipIndex: 1, shipName: 'Two' },
    { ...EVENT, kind: 'datum', datumMilliseconds: AT },
    { ...EVENT, kind: 'smoke', smoke: 'off', letterIndex: null, character: null },
    LAID,
    { ...EVENT, kind: 'phase', phase: 'hold' },
    { ...EVENT, kind: 'touched', touch: 'knockedOff' },
    { ...EVENT, kind: 'ended' },
  ])('of a ship: $kind', (event) => {
    expect(read(ship('event'), event)).toEqual({ ok: true, value: { topic: expect.anything(), kind: 'event', event } });
  });

  it('clean every name and character that is shown', () => {
    const presence = { ...SENDER, state: 'up', shipIndex: 0, name: 'Le\u202Ead\u0000  1', jobDigest: null, boots: [] };
    expect(read(ship('link'), presence)).toMatchObject({ ok: true, value: { presence: { name: 'Lead 1' } } });
    expect(read(ship('event'), { ...EVENT, kind: 'smoke', smoke: 'on', letterIndex: 0, character: '\u202ESX' })).toMatchObject({
      ok: true,
      value: { event: { character: 'S' } },
    });
  });

  it('say that something kept was cleared', () => {
    expect(read(ship('state'), '')).toMatchObject({ ok: true, value: { kind: 'cleared' } });
    expect(read(ship('event'), '').ok).toBe(false);
  });

  it.each([
    ['another device than the topic\u2019s', ship('state'), { ...STATE, device: 'two' }],
    ['a ship\u2019s event from the ground', 'quillwind/1/j/ground/lead/event', LAID],
    ['a call from a ship', ship('event'), { ...EVENT, kind: 'call', call: 'stop', letterIndex: null, character: null }],
    ['an unknown call', 'quillwind/1/j/ground/lead/event', { ...EVENT, kind: 'call', call: 'smoke-on', letterIndex: null, character: null }],
    ['no number', ship('state'), { ...STATE, eventCount: 'many' }],
    ['a number that JSON cannot hold', ship('state'), JSON.stringify(STATE).replace('43.9', '1e999')],
    ['a latitude that is none', ship('state'), { ...STATE, fix: { ...STATE.fix, latitudeDegrees: 91 } }],
    ['a clock of 1970', ship('state'), { ...STATE, sentAtMilliseconds: 5 }],
    ['a negative sequence', ship('event'), { ...LAID, sequence: -1 }],
    ['lists of unequal length', ship('event'), { ...LAID, secondsAfter: [0, 1] }],
    ['smoke laid backwards in time', ship('event'), { ...LAID, secondsAfter: [0, 2, 1] }],
    ['too many points', ship('event'), { ...LAID, secondsAfter: Array(65).fill(0), latitudesDegrees: Array(65).fill(0), longitudesDegrees: Array(65).fill(0) }],
    ['another version', ship('state'), { ...STATE, v: 2 }],
    ['a list', ship('state'), [STATE]],
    ['null', ship('state'), null],
    ['no JSON', ship('state'), '{"v":1'],
    ['deep nesting', ship('state'), '['.repeat(4000)],
    ['9 kB', ship('state'), { ...STATE, extra: 'x'.repeat(9000) }],
    ['a prototype', ship('state'), `{"__proto__":${JSON.stringify(STATE)}}`],
    ['a foreign topic', 'home/temperature', STATE],
  ])('are refused whole with %s', (_name, topic, payload) => {
    expect(read(topic, payload)).toMatchObject({ ok: false, reason: expect.any(String) });
  });

  it('never throw', () => {
    fc.assert(
      fc.property(
        fc.constantFrom('state', 'link', 'event', 'ask/x', 'answer/x'),
        fc.oneof(fc.string(), fc.json()),
        (kind, text) => void linkMessageFrom(ship(kind), text),
      ),
    );
  });
});
