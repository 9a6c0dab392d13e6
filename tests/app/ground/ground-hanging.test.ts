import { describe, expect, it } from 'vitest';
import { wordJob } from '../../../e2e/flight/fly-word.ts';
import type { GroundPlan } from '../../../src/app/ground/ground-plan.ts';
import { AS_BRIEFED, hangingFromLink, hungPlan } from '../../../src/app/ground/ground-hanging.ts';
import { cuesFrom } from '../../../src/core/guidance/cues-from.ts';
import type { FlyingState } from '../../../src/core/guidance/guidance-state.ts';
import { siteFromAir } from '../../../src/core/plan/place.ts';
import { wordStanding } from '../../../src/core/guidance/hanging/word-standing.ts';
import { readingOf } from '../../../src/core/sky/reading-of.ts';
import { figuresFromWind, windFromFigures } from '../../../src/core/wire/hanging-figures.ts';
import { createShipTeller } from '../../../src/link/ship-teller.ts';
import { newShip, withEvent } from '../../../src/link/ship-seen.ts';
import { flyJob, type JobFlight } from '../../flight/job-flight.ts';
import { wordPose, wordSeen } from '../../flight/crowd-eye.ts';
import { driftAtOf } from '../../flight/job-flight.ts';
import { plannedInk } from '../../flight/planned-ink.ts';

let hungState: FlyingState | null = null;
const flight: JobFlight = flyJob(
  wordJob('JULY'),
  9,
  10,
  {},
  {
    watch: (state) => {
      if (state.phase === 'onStroke' && hungState === null) hungState = state;
    },
  },
);
const { hanging } = (hungState as FlyingState | null)!.flight;
const plan = { ...flight.planned, job: flight.job, ...readingOf(flight.planned, null) };

describe('the ground and a word that was hung anew', () => {
  it('looks where the word truly is, by what the lead tells over the link', () => {
    const teller = createShipTeller('flight');
    const fact = teller.look(hungState!, cuesFrom(hungState!), 1_813_425_600_000).facts.find(({ kind }) => kind === 'hung');
    if (fact?.kind !== 'hung') throw new Error('the hanging was not told');
    const sender = { v: 1, device: 'lead', boot: 'b', sentAtMilliseconds: 1_813_425_600_000, sequence: 0, atMilliseconds: 1_813_425_600_000 } as const;
    const { hung } = withEvent(newShip('lead'), { ...sender, ...fact });
    const found = hungPlan(plan, hangingFromLink(hung!), null);
    // When its first letter is begun: both end where the crowd was promised the word, but the briefed plan begins a mile beside it.
    const { simulation, planned } = flight;
    const firstSeconds = simulation.trails[0]![0]!.atSeconds;
    const truth = wordSeen(
      wordPose(simulation.trails, plannedInk(planned.plan)),
      driftAtOf(simulation.driftTrack),
      firstSeconds,
      planned.air.layerAboveSiteMetres,
    );
    const offMetres = (of: GroundPlan): number => {
      const place = siteFromAir(of.plan.frame.middle, of.air.wind, 0);
      return Math.hypot(place.eastMetres - truth.eastMetres, place.northMetres - truth.northMetres);
    };
    expect(offMetres(found)).toBeLessThan(300);
    expect(offMetres(plan)).toBeGreaterThan(1000);
    // And it is carried on by the wind that was found.
    expect(found.air.wind).toEqual(hangingFromLink(hung!).wind);
    expect(found.window.until.likelySeconds).toBeCloseTo(plan.window.until.likelySeconds, 0);
    // Nothing told, nothing moved.
    expect(hungPlan(plan, AS_BRIEFED, null)).toBe(plan);
    expect(teller.look(hungState!, cuesFrom(hungState!), 1_813_425_601_000).facts.some(({ kind }) => kind === 'hung')).toBe(false);
  });

  it('says the same hours as the ship: when its smoke reads, and from when it stands askew', () => {
    const { flight: at } = hungState!;
    const standing = wordStanding({ ...hungState!, flight: { ...at, setup: { ...at.setup, readsUntil: plan.window.until } } })!;
    const { window } = hungPlan(
      plan,
      { source: 'link', wind: hanging!.wind, moved: { eastMetres: hanging!.movedEastMetres, northMetres: hanging!.movedNorthMetres } },
      null,
    );
    const since = (seconds: number): number => seconds - at.datumAtSeconds!;
    expect(Math.round(since(standing.readsUntil.lowSeconds))).toBe(Math.round(window.until.lowSeconds));
    expect(Math.round(since(standing.readsUntil.highSeconds))).toBe(Math.round(window.until.highSeconds));
    // The ship goes on learning the wind; the ground keeps the wind that the text was hung for.
    expect(standing.stands?.endedBy).toBe(window.stands?.endedBy);
    expect(Math.abs(since(standing.stands!.untilSeconds) - window.stands!.untilSeconds)).toBeLessThan(45);
    expect(window.stands!.untilSeconds).toBeLessThan(window.until.highSeconds);
  });

  it('hangs it within a house of where the lead did, by three figures from the radio', () => {
    const read = windFromFigures(figuresFromWind(hanging!.wind));
    if (!read.ok) throw new Error(read.reason);
    const { middle } = hungPlan(plan, { source: 'radio', wind: read.wind, moved: null }, null).plan.frame;
    const briefed = plan.plan.frame.middle;
    const off = Math.hypot(
      middle.airEastMetres - briefed.airEastMetres - hanging!.movedEastMetres,
      middle.airNorthMetres - briefed.airNorthMetres - hanging!.movedNorthMetres,
    );
    expect(off).toBeLessThan(60);
  });
});
