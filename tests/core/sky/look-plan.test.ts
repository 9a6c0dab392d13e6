import { describe, expect, it } from 'vitest';
import type { WindVector } from '../../../src/core/earth/wind-vector.ts';
import { placeTextMiddle } from '../../../src/core/plan/place.ts';
import { planText } from '../../../src/core/plan/plan-text.ts';
import type { Plan } from '../../../src/core/plan/plan.ts';
import { firstSmokeLook, type LookConditions, skyNow } from '../../../src/core/sky/look-plan.ts';
import { readingWindow } from '../../../src/core/sky/reading-window.ts';
import { trailsFromPlan } from '../../../src/core/sky/trail.ts';
import { degreesFromRadians, radiansFromDegrees } from '../../../src/core/units/angle.ts';
import { drawnText, optionsFor } from '../order/drawn-text.ts';

const WIND: WindVector = { eastMetresPerSecond: 6, northMetresPerSecond: -3 };
const LAYER_METRES = 2700;
const READ_SECONDS = 420;
const conditions: LookConditions = { eye: { eastMetres: 0, northMetres: 0, upMetres: 0 }, wind: WIND, layerAboveSiteMetres: LAYER_METRES };

function planned(text: string): Plan {
  const facingRadians = radiansFromDegrees(340);
  const middle = placeTextMiddle({ facingRadians, viewElevationRadians: radiansFromDegrees(35), layerAboveSiteMetres: LAYER_METRES }, WIND, READ_SECONDS);
  const result = planText(drawnText(text).letters, optionsFor(text, { frame: { facingRadians, middle } }));
  if (!result.ok) throw new Error('this text can be planned');
  return result.plan;
}

const plan = planned('SAIL');
const window = readingWindow(trailsFromPlan(plan, 30), {
  letterHeightMetres: plan.letterHeightMetres,
  wind: WIND,
  shear: null,
  layerAboveSiteMetres: LAYER_METRES,
  visibilityMetres: null,
  facingRadians: plan.frame.facingRadians,
});
const at = (seconds: number) => skyNow(plan, window, seconds, conditions);

describe('what should be in the sky', () => {
  it('shows the first smoke where the first ship is at the datum', () => {
    const first = firstSmokeLook(plan, conditions)!;
    const [ship] = at(0).ships;
    expect(degreesFromRadians(first.azimuthRadians)).toBeCloseTo(degreesFromRadians(ship!.look.azimuthRadians), 6);
    expect(degreesFromRadians(first.elevationRadians)).toBeCloseTo(degreesFromRadians(ship!.look.elevationRadians), 6);
    // Not where the middle of the text hangs.
    expect(Math.abs(degreesFromRadians(first.azimuthRadians - at(0).text.azimuthRadians))).toBeGreaterThan(3);
    // Who waits is looked for there, however long before.
    for (const seconds of [-60, -86_400]) expect(at(seconds).ships[0]!.look).toEqual(first);
    expect(firstSmokeLook({ ...plan, ships: [] }, conditions)).toBeNull();
  });

  it('hangs at the read time where it was placed to hang: 340 degrees, 35 up', () => {
    const { text } = at(READ_SECONDS);
    expect(degreesFromRadians(text.azimuthRadians)).toBeCloseTo(340, 6);
    // The layer bends with the earth: 1.2 m lower at 3.9 km.
    expect(degreesFromRadians(text.elevationRadians)).toBeCloseTo(35, 1);
  });

  it('drifts between two instants by the wind alone', () => {
    const flat = ({ azimuthRadians, elevationRadians, rangeMetres }: ReturnType<typeof at>['text']) => ({
      east: rangeMetres * Math.cos(elevationRadians) * Math.sin(azimuthRadians),
      north: rangeMetres * Math.cos(elevationRadians) * Math.cos(azimuthRadians),
    });
    const [before, after] = [flat(at(100).text), flat(at(200).text)];
    expect(after.east - before.east).toBeCloseTo(600, 6);
    expect(after.north - before.north).toBeCloseTo(-300, 6);
  });

  it('takes every letter through its stages in order and ends with none', () => {
    const order = ['to come', 'being written', 'stands', 'fading', 'gone'];
    const seen = new Map<number, number>();
    for (let seconds = -60; seconds < 6 * 3600; seconds += 20) {
      for (const { letterIndex, stage } of at(seconds).letters) {
        const now = order.indexOf(stage);
        expect(now).toBeGreaterThanOrEqual(seen.get(letterIndex) ?? 0);
        seen.set(letterIndex, now);
      }
    }
    expect([...seen.values()]).toEqual([4, 4, 4, 4]);
  });

  it('counts down to the first smoke, then to its end, and names what comes next', () => {
    const before = at(-30);
    expect(before.ships).toMatchObject([{ doing: 'waiting', smokeChangesInSeconds: 30 }]);
    expect(before.next?.inSeconds).toBe(30);
    const first = plan.ships[0]!.legs[0]!;
    const during = at(first.startSeconds + 2);
    expect(during.ships).toMatchObject([{ doing: 'smoke', smokeChangesInSeconds: first.endSeconds - first.startSeconds - 2 }]);
    const after = at(plan.durationSeconds + 1);
    expect(after.ships).toMatchObject([{ doing: 'finished', character: null, smokeChangesInSeconds: null }]);
    expect(after.next).toBeNull();
  });

  it('shows letters side by side from left to right, as they read', () => {
    const turns = at(READ_SECONDS).letters.map(({ look }) => ((degreesFromRadians(look.azimuthRadians) - 340 + 540) % 360) - 180);
    expect(turns).toHaveLength(4);
    expect(turns).toEqual(turns.toSorted((one, other) => one - other));
  });

  it('stands elsewhere for an eye elsewhere', () => {
    const moved = skyNow(plan, window, READ_SECONDS, { ...conditions, eye: { eastMetres: 0, northMetres: 2000, upMetres: 0 } });
    expect(moved.text.elevationRadians).toBeGreaterThan(at(READ_SECONDS).text.elevationRadians);
  });
});
