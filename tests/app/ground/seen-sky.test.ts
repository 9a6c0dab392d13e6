import { describe, expect, it } from 'vitest';
import { AS_BRIEFED, type GroundHanging } from '../../../src/app/ground/ground-hanging.ts';
import { marksFromShips, trailsFromShips, windFromShips, windSource } from '../../../src/app/ground/seen-sky.ts';
import { geodeticFromSite } from '../../../src/core/earth/geodetic-from-site.ts';
import { siteFromAir } from '../../../src/core/plan/place.ts';
import { newShip, type ShipSeen, withEvent, withState } from '../../../src/link/ship-seen.ts';

const AT = 1_800_000_000_000;
const SITE = { latitudeDegrees: 43.87, longitudeDegrees: -74.43, elevationMetres: 500 };
const LAYER = 3200;
const WIND = { eastMetresPerSecond: 6, northMetresPerSecond: -2 };
const FRAME = { site: SITE, layerHeightMetres: LAYER, wind: WIND, datumMilliseconds: AT, kilogramsPerMetre: () => 0.005 };
const sender = { v: 1, device: 'lead', boot: 'b' } as const;
const instant = (seconds: number) => ({ wallMilliseconds: AT + seconds * 1000, monotonicMilliseconds: seconds * 1000 });

function flown(offMilliseconds = 0): ShipSeen {
  // A straight stroke over the ground from (1000, 2000), 50 m/s east, from 10 s to 40 s after the datum.
  const seconds = [0, 10, 20, 30];
  const points = seconds.map((each) => geodeticFromSite({ eastMetres: 1000 + 50 * each, northMetres: 2000 }, LAYER, SITE));
  const heard = withState(
    newShip('lead'),
    {
      ...sender,
      sentAtMilliseconds: AT + 40_000 + offMilliseconds,
      eventCount: 1,
      shipIndex: 0,
      fix: { ageSeconds: 0.5, ...points[3]!, altitudeMetres: LAYER, trackDegreesTrue: 90, groundSpeedMetresPerSecond: 50 },
      phase: 'stroke',
      smoke: 'off',
      strokeNumber: 1,
      strokeCount: 4,
      character: 'S',
      windFromDegreesTrue: 270,
      formation: null,
      windSpeedMetresPerSecond: 10,
    },
    false,
    instant(40.1),
  );
  return withEvent(heard, {
    ...sender,
    sentAtMilliseconds: AT + offMilliseconds,
    sequence: 0,
    atMilliseconds: AT + offMilliseconds,
    kind: 'laid',
    letterIndex: 0,
    character: 'S',
    fromMilliseconds: AT + 10_000 + offMilliseconds,
    secondsAfter: seconds,
    latitudesDegrees: points.map(({ latitudeDegrees }) => latitudeDegrees),
    longitudesDegrees: points.map(({ longitudeDegrees }) => longitudeDegrees),
  });
}

describe('the sky that ships told of', () => {
  it('has their smoke where it was laid, and then where the wind has taken it', () => {
    const [trail] = trailsFromShips([flown()], FRAME);
    expect(trail?.points.map(({ laidAtSeconds }) => laidAtSeconds)).toEqual([10, 20, 30, 40]);
    const last = trail!.points[3]!;
    const laid = siteFromAir(last, WIND, 40);
    expect(laid.eastMetres).toBeCloseTo(2500, 2);
    expect(laid.northMetres).toBeCloseTo(2000, 2);
    expect(siteFromAir(last, WIND, 140).eastMetres).toBeCloseTo(3100, 2);
  });

  it('has no smoke that nobody knows the time of', () => {
    expect(trailsFromShips([flown(300_000)], FRAME)).toEqual([]);
    const known: ShipSeen = {
      ...flown(300_000),
      clock: { leastDelayMilliseconds: -300_000, answered: { offsetMilliseconds: -300_000, errorMilliseconds: 10 } },
    };
    expect(trailsFromShips([known], FRAME)[0]?.points[0]?.laidAtSeconds).toBe(10);
  });

  it('marks a ship with its place and how far to trust it', () => {
    const [mark] = marksFromShips([flown()], SITE, LAYER, instant(41));
    expect(mark).toMatchObject({ device: 'lead', shipIndex: 0, smoke: 'off', fresh: { kind: 'live' } });
    expect(mark?.place?.eastMetres).toBeCloseTo(2500, 2);
    expect(marksFromShips([flown()], SITE, LAYER, instant(60))[0]?.fresh.kind).toBe('stale');
    expect(marksFromShips([flown()], SITE, LAYER, instant(80))[0]?.fresh.kind).toBe('lost');
  });

  it('goes by the wind of the ships, else by the one that the word is hung for, else by the forecast', () => {
    const hung: GroundHanging = { source: 'radio', wind: WIND, moved: null };
    expect([windSource(WIND, hung), windSource(null, hung), windSource(null, AS_BRIEFED)]).toEqual(['measured', 'found', 'forecast']);
  });

  it('knows a ship that knocked it off until it flies on, in whatever order it is told', () => {
    const event = { ...sender, sentAtMilliseconds: AT, sequence: 0 };
    const off = { ...event, kind: 'touched', touch: 'knockedOff', atMilliseconds: AT + 20 } as const;
    const before = { ...event, kind: 'phase', phase: 'stroke', atMilliseconds: AT + 10 } as const;
    const after = { ...event, kind: 'phase', phase: 'finished', atMilliseconds: AT + 20 } as const;
    const on = { ...event, kind: 'phase', phase: 'run-in', atMilliseconds: AT + 30 } as const;
    const known = (...events: readonly Parameters<typeof withEvent>[1][]) => events.reduce(withEvent, newShip('lead')).knockedOffMilliseconds;
    expect(known(before, off, after)).toBe(AT + 20);
    expect(known(off, after, before)).toBe(AT + 20);
    expect(known(before, off, after, on)).toBeNull();
    expect(known(before, after)).toBeNull();
  });

  it('drifts it with the wind that a ship measures', () => {
    expect(windFromShips([])).toBeNull();
    const wind = windFromShips([flown()])!;
    expect(wind.eastMetresPerSecond).toBeCloseTo(10, 9);
    expect(wind.northMetresPerSecond).toBeCloseTo(0, 9);
  });
});
