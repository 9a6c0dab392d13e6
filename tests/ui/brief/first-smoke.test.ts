import { expect, it } from 'vitest';
import { bearingDistance } from '../../../src/core/earth/bearing-distance.ts';
import { DEMO_JOB } from '../../../src/core/job/demo-job.ts';
import { planJob } from '../../../src/core/plan/plan-job.ts';
import { unitText } from '../../../src/core/text/unit-text.ts';
import { briefingOf, compassDegrees, firstSmokeText } from '../../../src/ui/brief/briefing.ts';

it('gives every ship of a formation the place of its own first stroke', () => {
  const job = { ...DEMO_JOB, namedPoints: [], ships: ['Red', 'Blue'].map((name) => ({ ...DEMO_JOB.ships[0]!, name })) };
  const planned = planJob(job);
  if (!planned.ok) throw new Error(JSON.stringify(planned.problem));
  const briefing = briefingOf({ job, ...planned.value }, null);
  const [red, blue] = planned.value.plan.ships;
  const { eastMetresPerSecond, northMetresPerSecond } = planned.value.air.wind;
  for (const ship of [red!, blue!]) {
    const first = ship.legs.find(({ kind }) => kind === 'smoke')!;
    // Where the air of that stroke has drifted by the time it begins.
    const place = briefing.geodetic({
      eastMetres: first.path.start.airEastMetres + eastMetresPerSecond * first.startSeconds,
      northMetres: first.path.start.airNorthMetres + northMetresPerSecond * first.startSeconds,
    });
    const text = firstSmokeText(briefing, ship, unitText());
    const { bearingRadians, distanceMetres } = bearingDistance(job.site, place);
    const bearing = String(Math.round(compassDegrees(briefing, bearingRadians)) % 360).padStart(3, '0');
    expect(text).toContain(`${bearing}°M ${(distanceMetres / 1852).toFixed(1)} NM from ${job.site.name}`);
    const minutes = ((Math.abs(place.latitudeDegrees) % 1) * 60).toFixed(2).padStart(5, '0');
    expect(text).toContain(`°\u00a0${minutes}′`);
  }
  expect(firstSmokeText(briefing, blue!, unitText())).not.toBe(firstSmokeText(briefing, red!, unitText()));
});
