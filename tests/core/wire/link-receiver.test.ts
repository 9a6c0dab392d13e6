import { fc } from '../../property.ts';
import { describe, expect, it } from 'vitest';
import { aircraftFromReceiver, RECEIVER_MAPPING, type ReceiverMapping } from '../../../src/core/wire/link-receiver.ts';

const NESTED: ReceiverMapping = {
  ...RECEIVER_MAPPING,
  list: 'data.seen',
  id: 'name',
  latitudeDegrees: 'position.0',
  longitudeDegrees: 'position.1',
  altitude: 'height',
  altitudeUnit: 'metres',
  ageSeconds: '',
};

describe('a receiver\u2019s JSON', () => {
  it('is read by the names that a person gave', () => {
    const text = JSON.stringify({ aircraft: [{ id: ' N1 ', lat: 43.9, lon: '-74.4', altitude: 10_000, track: 90, age: 1.5 }] });
    expect(aircraftFromReceiver(text, RECEIVER_MAPPING)).toEqual({
      ok: true,
      value: [{ id: 'N1', latitudeDegrees: 43.9, longitudeDegrees: -74.4, altitudeMetres: 3048, trackDegreesTrue: 90, ageSeconds: 1.5 }],
    });
    expect(aircraftFromReceiver(JSON.stringify({ data: { seen: [{ name: 'a', position: [1, 2], height: 300 }] } }), NESTED)).toMatchObject({
      ok: true,
      value: [{ id: 'a', latitudeDegrees: 1, altitudeMetres: 300, ageSeconds: null }],
    });
    expect(aircraftFromReceiver(JSON.stringify([{ id: 'b', lat: 1, lon: 2 }]), { ...RECEIVER_MAPPING, list: '' })).toMatchObject({
      ok: true,
      value: [{ id: 'b' }],
    });
    expect(aircraftFromReceiver(JSON.stringify({ aircraft: { c: { lat: 1, lon: 2 } } }), RECEIVER_MAPPING)).toMatchObject({ ok: true, value: [{ id: 'c' }] });
  });

  it('loses the aircraft that have no place, and no others', () => {
    const list = [
      { id: 'a' },
      { id: 'b', lat: 95, lon: 0 },
      { id: 'c', lat: null, lon: 0 },
      { lat: 1, lon: 1 },
      null,
      7,
      { id: 'd', lat: 1, lon: 1, altitude: 'ground', age: -4 },
    ];
    expect(aircraftFromReceiver(JSON.stringify({ aircraft: list }), RECEIVER_MAPPING)).toEqual({
      ok: true,
      value: [{ id: 'd', latitudeDegrees: 1, longitudeDegrees: 1, altitudeMetres: null, trackDegreesTrue: null, ageSeconds: null }],
    });
  });

  it.each(['', '{', '{"planes":[]}', '"text"'])('is refused in words when it has no list: %j', (text) => {
    expect(aircraftFromReceiver(text, RECEIVER_MAPPING)).toMatchObject({ ok: false, reason: expect.stringContaining('receiver') });
  });

  it('never throws and reaches no prototype', () => {
    const text = '{"__proto__":{"aircraft":[{"id":"x","lat":1,"lon":1}]}}';
    expect(aircraftFromReceiver(text, { ...RECEIVER_MAPPING, list: 'constructor.prototype' }).ok).toBe(false);
    fc.assert(fc.property(fc.json(), fc.string(), (json, list) => void aircraftFromReceiver(json, { ...RECEIVER_MAPPING, list })));
  });
});
