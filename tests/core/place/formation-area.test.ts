import { describe, expect, it } from 'vitest';
import { DEMO_JOB } from '../../../src/core/job/demo-job.ts';
import { commonLimits, shipAsFlown } from '../../../src/core/job/common-limits.ts';
import { airPathLengthMetres, airPoseAt } from '../../../src/core/paths/air-path.ts';
import { siteFromAir } from '../../../src/core/plan/place.ts';
import { heightStepsOf } from '../../../src/core/plan/plan.ts';
import { planJob } from '../../../src/core/plan/plan-job.ts';
import { driftCorridor } from '../../../src/core/place/drift-corridor.ts';
import { degreesFromRadians } from '../../../src/core/units/angle.ts';
import { knotsFromMetresPerSecond } from '../../../src/core/units/quantity.ts';

const [lead] = DEMO_JOB.ships;
const ships = ['Lead', 'Two', 'Three'].map((name, index) => ({
  ...lead!,
  name,
  trueAirspeedKnots: lead!.trueAirspeedKnots + 10 * index,
  writingBankDegrees: lead!.writingBankDegrees - 2 * index,
}));
const job = { ...DEMO_JOB, text: 'SAILOR', ships };
const planned = planJob(job);
if (!planned.ok) throw new Error('three ships have a plan');
const { plan, air } = planned.value;

describe('what three ships need of the sky', () => {
  const { flightArea } = driftCorridor(plan, air.wind, air.layerAboveSiteMetres, plan.durationSeconds, 0);
  const isInside = ({ eastMetres, northMetres }: { readonly eastMetres: number; readonly northMetres: number }): boolean =>
    flightArea.every((one, index) => {
      const next = flightArea[(index + 1) % flightArea.length]!;
      const across =
        (next.eastMetres - one.eastMetres) * (northMetres - one.northMetres) - (next.northMetres - one.northMetres) * (eastMetres - one.eastMetres);
      return across >= -1e-3 * Math.hypot(next.eastMetres - one.eastMetres, next.northMetres - one.northMetres);
    });

  it('holds the circles on which they wait, from the time check until each has left', () => {
    for (const { joinUp } of plan.ships) {
      const { holdCentre, holdRadiusMetres, leg } = joinUp!;
      for (const atSeconds of [-300, leg.startSeconds])
        for (let angle = 0; angle < 2 * Math.PI; angle += 0.1) {
          const point = {
            airEastMetres: holdCentre.airEastMetres + holdRadiusMetres * Math.cos(angle),
            airNorthMetres: holdCentre.airNorthMetres + holdRadiusMetres * Math.sin(angle),
          };
          expect(isInside(siteFromAir(point, air.wind, atSeconds))).toBe(true);
        }
    }
  });

  it('holds their ways from there into the word, and out of it', () => {
    for (const { entries = [], departure } of plan.ships)
      for (const leg of [...entries.map((entry) => entry.leg), departure!])
        for (const share of [0, 0.25, 0.5, 0.75, 1]) {
          const pose = airPoseAt(leg.path, share * airPathLengthMetres(leg.path));
          const atSeconds = leg.startSeconds + share * (leg.endSeconds - leg.startSeconds);
          const { eastMetres, northMetres } = siteFromAir(pose, air.wind, atSeconds);
          // Between two of the points that were looked at a curve stands out a little.
          const middle = flightArea.reduce(
            (sum, each) => ({
              eastMetres: sum.eastMetres + each.eastMetres / flightArea.length,
              northMetres: sum.northMetres + each.northMetres / flightArea.length,
            }),
            { eastMetres: 0, northMetres: 0 },
          );
          const inwards = (from: number, to: number): number => from + 0.002 * (to - from);
          expect(isInside({ eastMetres: inwards(eastMetres, middle.eastMetres), northMetres: inwards(northMetres, middle.northMetres) })).toBe(true);
        }
  });

  it('reaches to the lowest and the highest that any of them waits at', () => {
    const own = plan.ships.map(({ ownHeightStepMetres }) => ownHeightStepMetres!);
    const steps = heightStepsOf(plan);
    expect(steps.lowestMetres).toBe(Math.min(...own));
    expect(steps.highestMetres).toBe(Math.max(...own));
    expect(steps.lowestMetres).toBeLessThan(-250);
  });

  it('is flown by each at the speed and the bank that its strokes are timed for', () => {
    const limits = commonLimits(ships, job.options);
    for (const index of [0, 1, 2]) {
      const flown = shipAsFlown(job, index)!;
      expect(flown.trueAirspeedKnots).toBeCloseTo(knotsFromMetresPerSecond(plan.trueAirspeedMetresPerSecond), 9);
      expect(flown.writingBankDegrees).toBeCloseTo(degreesFromRadians(limits.writingBankRadians), 9);
      expect(flown.turningBankDegrees).toBeCloseTo(degreesFromRadians(limits.turningBankRadians), 9);
    }
    expect(shipAsFlown(job, 1)!.name).toBe('Two');
    expect(shipAsFlown(job, 3)).toBeUndefined();
  });
});
