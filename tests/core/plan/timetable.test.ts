import { describe, expect, it } from 'vitest';
import { airPathLengthMetres, airPoseAt } from '../../../src/core/paths/air-path.ts';
import type { Leg, Plan } from '../../../src/core/plan/plan.ts';
import { planText } from '../../../src/core/plan/plan-text.ts';
import { drawnText, optionsFor } from '../order/drawn-text.ts';

/** Where a ship is, by a walk of its own along the legs it flies; null before and after. */
function placeOn(legs: readonly Leg[], seconds: number): { readonly x: number; readonly y: number } | null {
  const leg = legs.find(({ startSeconds, endSeconds }) => seconds >= startSeconds && seconds <= endSeconds);
  if (leg === undefined) return null;
  const { airEastMetres, airNorthMetres } = airPoseAt(
    leg.path,
    (airPathLengthMetres(leg.path) * (seconds - leg.startSeconds)) / Math.max(1e-9, leg.endSeconds - leg.startSeconds),
  );
  return { x: airEastMetres, y: airNorthMetres };
}

/** Everything a ship may do: each way in, on to the end, at the ends and middle of each window. */
function choices({ ships }: Plan, ship: number): { readonly legs: readonly Leg[]; readonly lateSeconds: number }[] {
  const { entries = [], legs, departure } = ships[ship]!;
  return entries.flatMap(({ strokeIndex, leg, windows }) => {
    const from = legs.findIndex((one) => one.kind === 'smoke' && one.strokeIndex === strokeIndex);
    const flown = [leg, ...legs.slice(from), departure!];
    return windows.flatMap(({ fromSeconds, toSeconds }) => [fromSeconds, toSeconds].map((lateSeconds) => ({ legs: flown, lateSeconds })));
  });
}

describe('the timetable of a formation', () => {
  const planned = planText(drawnText('BRAVE').letters, optionsFor('BRAVE', { ships: 3, placeKeepingMetres: 0 }));
  if (!planned.ok) throw new Error(planned.problem.kind);
  const { plan } = planned;

  it('gives every ship a way into each stroke that can be reached past the others’ circles, and on time first', () => {
    for (const { entries = [] } of plan.ships) {
      expect(entries[0]).toMatchObject({ strokeIndex: 0, windows: [{ fromSeconds: -3, toSeconds: 5 }, ...(entries[0]?.windows.slice(1) ?? [])] });
      expect(entries.every(({ windows }) => windows.length >= 2)).toBe(true);
    }
  });

  it('keeps any two ships 300 m apart, whichever window each is in', { timeout: 60_000 }, () => {
    let nearest = Infinity;
    for (const [one, other] of [[0, 1] as const, [0, 2] as const, [1, 2] as const]) {
      for (const first of choices(plan, one)) {
        for (const second of choices(plan, other)) {
          const begins = Math.max(first.legs[0]!.startSeconds + first.lateSeconds, second.legs[0]!.startSeconds + second.lateSeconds);
          const ends = Math.min(first.legs.at(-1)!.endSeconds + first.lateSeconds, second.legs.at(-1)!.endSeconds + second.lateSeconds);
          for (let seconds = begins; seconds <= ends; seconds += 2) {
            const here = placeOn(first.legs, seconds - first.lateSeconds);
            const there = placeOn(second.legs, seconds - second.lateSeconds);
            if (here !== null && there !== null) nearest = Math.min(nearest, Math.hypot(here.x - there.x, here.y - there.y));
          }
        }
      }
    }
    expect(nearest).toBeGreaterThan(300);
    expect(nearest).toBeLessThan(Infinity);
  });

  it('lets nobody pass another’s circle, ever', () => {
    for (const { shipIndex, joinUp } of plan.ships) {
      for (const other of plan.ships) {
        if (other.shipIndex === shipIndex) continue;
        for (const { legs } of choices(plan, other.shipIndex)) {
          for (let seconds = legs[0]!.startSeconds; seconds <= legs.at(-1)!.endSeconds; seconds += 1) {
            const place = placeOn(legs, seconds);
            if (place === null) continue;
            const metres = Math.hypot(place.x - joinUp!.holdCentre.airEastMetres, place.y - joinUp!.holdCentre.airNorthMetres);
            expect(metres).toBeGreaterThan(300 + joinUp!.holdRadiusMetres);
          }
        }
      }
    }
  });
});
