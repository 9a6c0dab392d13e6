import { describe, expect, it } from 'vitest';
import { typedPosition } from '../../../src/core/text/typed-position.ts';

// ISO 6709 Annex D names the three forms (degrees; degrees and minutes; degrees, minutes and seconds) and the letters.
const PLACE = { latitudeDegrees: 43.8721, longitudeDegrees: -74.4318 };

describe('a typed position', () => {
  it.each([
    '43.8721, -74.4318',
    '43.8721,-74.4318',
    '43,8721 -74,4318',
    '43,8721; -74,4318',
    '43,8721, -74,4318',
    'N43.8721 W74.4318',
    '43.8721N 74.4318W',
    '43\u00b0 52.326\u2032 N 074\u00b0 25.908\u2032 W',
    'N 43 52.326 W 074 25.908',
    '43\u00b052\u203219.56\u2033N, 74\u00b025\u203254.48\u2033W',
    '43 52\' 19,56" N 74 25\' 54,48" W',
    'W 074 25 54.48 N 43 52 19.56',
    '43 52 19.56 -74 25 54.48',
    // Without spaces, as aeronautical publications print them (ICAO Annex 15, Appendix 1; tenths from memory).
    '435219.56N0742554.48W',
    '4352.326N 07425.908W',
    'N4352.326 W07425.908',
  ])('%j is read', (text) => {
    const read = typedPosition(text);
    if (!read.ok) throw new Error(read.reason);
    expect(read.latitudeDegrees).toBeCloseTo(PLACE.latitudeDegrees, 4);
    expect(read.longitudeDegrees).toBeCloseTo(PLACE.longitudeDegrees, 4);
  });

  it('lies south and west, also with the O of other languages', () => {
    expect(typedPosition('8\u00b0 03.0\u2032 S 34\u00b0 52.2\u2032 O')).toEqual({ ok: true, latitudeDegrees: -8.05, longitudeDegrees: -34.87 });
    expect(typedPosition('0803S03452W')).toEqual({ ok: true, latitudeDegrees: -8.05, longitudeDegrees: -(34 + 52 / 60) });
    expect(typedPosition('080300S0345212W')).toEqual({ ok: true, latitudeDegrees: -8.05, longitudeDegrees: -34.87 });
    expect(typedPosition('-12.46 130.84')).toEqual({ ok: true, latitudeDegrees: -12.46, longitudeDegrees: 130.84 });
    expect(typedPosition('-0,034; 0,127')).toEqual({ ok: true, latitudeDegrees: -0.034, longitudeDegrees: 0.127 });
  });

  it.each([
    ['', /Two coordinates/],
    ['43.8721', /Two coordinates/],
    ['43.8721 N', /Two coordinates/],
    ['91, 10', /latitude lies between/],
    ['10, 191', /longitude lies between/],
    ['N 43 S 12', /One of them/],
    ['43 61 N 10 0 E', /not a position/],
    ['4361N01000E', /not a position/],
    ['4352N7425W', /not a position/],
    ['438721N 10 E', /not a position/],
    ['-43 N 10 E', /not a position/],
    ['43.5 30 N 10 E', /not a position/],
    ['somewhere near, the lake', /Two coordinates|not a position/],
  ])('says what is wrong with %j', (text, reason) => {
    const read = typedPosition(text);
    expect(read.ok ? JSON.stringify(read) : read.reason).toMatch(reason);
  });
});
