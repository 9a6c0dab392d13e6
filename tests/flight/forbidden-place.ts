import type { Job } from '../../src/core/job/job.ts';
import { type Overlay, parseOverlayText } from '../../src/core/place/overlay.ts';
import { unitText } from '../../src/core/text/unit-text.ts';
import { crowdCaution } from '../../src/app/flight/crowd-caution.ts';
import { wordStanding } from '../../src/core/guidance/hanging/word-standing.ts';
import type { Hanging } from '../../src/core/guidance/hanging/hanging.ts';
import { driftAtOf, flyJob, type JobFlight } from './job-flight.ts';
import { placeOnEarth } from './place-on-earth.ts';

/** What came of a word whose best place was not allowed. */
export interface ForbiddenFlight {
  readonly finished: boolean;
  /** Strokes with a puff truly laid inside the area, or outside the area that the controller was told. */
  readonly strokesOutside: number;
  /** The choice as the pilot saw it before the first smoke; null when it was not shown. */
  readonly choice: string | null;
  /** Where it hung. */
  readonly hung: Hanging | null;
}

const METRES_PER_FOOT = 0.3048;

/** An area from ground to sky round a spot over the ground, in metres from the site. */
export function areaRound(job: Job, eastMetres: number, northMetres: number, halfMetres: number): Overlay {
  const site = { ...job.site, elevationMetres: job.site.elevationFeet * METRES_PER_FOOT };
  const ring = [
    [-1, -1],
    [1, -1],
    [1, 1],
    [-1, 1],
    [-1, -1],
  ].map(([east, north]) => {
    const at = placeOnEarth(eastMetres + east! * halfMetres, northMetres + north! * halfMetres, job.layer.altitudeFeet * METRES_PER_FOOT, site);
    return [at.longitudeDegrees, at.latitudeDegrees];
  });
  const read = parseOverlayText(JSON.stringify({ type: 'Feature', properties: { name: 'Bird reserve' }, geometry: { type: 'Polygon', coordinates: [ring] } }));
  if (!read.ok) throw new Error(read.reason);
  return read.overlay;
}

type Puffs = readonly { readonly eastMetres: number; readonly northMetres: number }[];

/** Where the smoke was truly laid over the ground, stroke for stroke. */
function laidBy({ simulation }: JobFlight): Puffs[] {
  const driftAt = driftAtOf(simulation.driftTrack);
  return simulation.trails.map((trail) =>
    trail.map(({ atSeconds, airEastMetres, airNorthMetres }) => {
      const { eastMetres, northMetres } = driftAt(atSeconds);
      return { eastMetres: airEastMetres + eastMetres, northMetres: airNorthMetres + northMetres };
    }),
  );
}

/** Of a ring that is convex and goes round anticlockwise, as the told area does. */
function isWithin(ring: Puffs, { eastMetres, northMetres }: Puffs[number]): boolean {
  return ring.every((from, index) => {
    const to = ring[(index + 1) % ring.length]!;
    return (to.eastMetres - from.eastMetres) * (northMetres - from.northMetres) >= (to.northMetres - from.northMetres) * (eastMetres - from.eastMetres);
  });
}

/**
 * Flies a word whose best place is not allowed: one that was flown before, with an area of 1.6 km from ground to sky where its
 * first stroke lay; or, with `told`, one in a wind so far off the forecast that its best place lies beyond what the controller was told.
 */
export function flyForbidden(job: Job, seed: number, forecastErrorKnots: number, told = false): ForbiddenFlight {
  const half = 800;
  const first = told ? null : laidBy(flyJob(job, seed, forecastErrorKnots))[0]!;
  const middle = first?.[Math.floor(first.length / 2)];
  let choice: string | null = null;
  let hung: Hanging | null = null;
  const flight = flyJob(
    job,
    seed,
    forecastErrorKnots,
    {},
    {
      ...(middle === undefined ? {} : { overlay: areaRound(job, middle.eastMetres, middle.northMetres, half) }),
      watch: (state) => {
        if (state.phase === 'idle') return;
        hung = state.flight.hanging ?? hung;
        const standing = wordStanding(state);
        const caution = standing?.beforeSmoke === true ? crowdCaution(standing, unitText()) : null;
        if (caution?.includes('HOLD OR KNOCK IT OFF') === true) choice = caution;
      },
    },
  );
  const inside = flight.setup.hanging?.limits?.inside ?? [];
  const isOutside = (puff: Puffs[number]): boolean =>
    !isWithin(inside, puff) ||
    (middle !== undefined && Math.abs(puff.eastMetres - middle.eastMetres) < half && Math.abs(puff.northMetres - middle.northMetres) < half);
  const strokesOutside = laidBy(flight).filter((puffs) => puffs.some(isOutside)).length;
  return { finished: flight.finalState.phase === 'finished', strokesOutside, choice, hung };
}
