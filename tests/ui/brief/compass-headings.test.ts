import { expect, it } from 'vitest';
import { flightCard } from '../../../src/core/plan/flight-card.ts';
import { DEMO_JOB } from '../../../src/core/job/demo-job.ts';
import { planJob } from '../../../src/core/plan/plan-job.ts';
import { briefingOf, compassDegrees, compassFromDirection } from '../../../src/ui/brief/briefing.ts';
import { pieceWords } from '../../../src/ui/brief/piece-words.ts';
import wmm from '../../reference/wmm2025.json' with { type: 'json' };

/**
 * A row of the published test values (NOAA NCEI and BGS, WMM2025): at 50 S 103 W, 3 km, 2025.0 the compass points 27.96
 * degrees east of north, so that a ship on a true heading of 090 reads 062 (90 - 27.96 = 62.04).
 */
const ROW = { latitudeDegrees: -50, longitudeDegrees: -103 };
const EAST_DEGREES = 27.96;

it('gives the headings of a kneeboard card by the compass of the place', () => {
  expect(wmm.rows.find(({ lat, lon, alt_km }) => lat === ROW.latitudeDegrees && lon === ROW.longitudeDegrees && alt_km === 3)?.decl).toBe(EAST_DEGREES);
  const job = {
    ...DEMO_JOB,
    text: 'I',
    facingDegreesTrue: 0,
    site: { ...DEMO_JOB.site, ...ROW, elevationFeet: 0 },
    readTime: '2025-01-01T00:10:00Z',
    layer: { ...DEMO_JOB.layer, altitudeFeet: 3000 / 0.3048 },
  };
  const planned = planJob(job);
  if (!planned.ok) throw new Error(JSON.stringify(planned.problem));
  const briefing = briefingOf({ job, ...planned.value }, null);
  const nearest = (degrees: number): number => Math.min(Math.abs(degrees), Math.abs(degrees - 360));
  expect(nearest(compassDegrees(briefing, Math.PI / 2) - 62.04)).toBeLessThan(0.02);
  expect(nearest(compassFromDirection(briefing, 0) - 62.04)).toBeLessThan(0.02);
  // For a crowd that looks north the stem of an I is flown along the meridian: true 000 or 180, by the compass 332 or 152.
  const [step] = flightCard(planned.value.plan.ships[0]!);
  expect(['332', '152']).toContain(Math.round(compassDegrees(briefing, step!.smokeHeadingRadians)).toString());
  const turn = { kind: 'left', headingRadians: Math.PI / 2, turnRadians: Math.PI / 2, seconds: 9 } as const;
  expect(pieceWords([turn], (headingRadians) => compassDegrees(briefing, headingRadians))).toEqual(['L90°→062']);
});
