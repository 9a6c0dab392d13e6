import type { Job } from '../../src/core/job/job.ts';
import { type Overlay, parseOverlayText } from '../../src/core/place/overlay.ts';
import { crowdCaution } from '../../src/app/flight/flight-cautions.ts';
import { wordStanding } from '../../src/core/guidance/hanging/word-standing.ts';
import { driftAtOf, flyJob } from './job-flight.ts';
import { placeOnEarth } from './place-on-earth.ts';

/** What came of a word whose best place lay in an area of the overlay. */
export interface ForbiddenFlight {
  readonly finished: boolean;
  /** Puffs that were truly laid inside the area. */
  readonly puffsInside: number;
  /** Whether the pilot saw the choice with its figures before the first smoke. */
  readonly choiceShown: boolean;
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

/** Flies a word once to see where its first strokes would be, puts an area of 1.6 km there, and flies it again. */
export function flyForbidden(job: Job, seed: number, forecastErrorKnots: number): ForbiddenFlight {
  const free = flyJob(job, seed, forecastErrorKnots);
  const drift = driftAtOf(free.simulation.driftTrack);
  const first = free.simulation.trails[0]!;
  const middle = first[Math.floor(first.length / 2)]!;
  const at = drift(middle.atSeconds);
  const [east, north] = [middle.airEastMetres + at.eastMetres, middle.airNorthMetres + at.northMetres];
  const half = 800;
  let choiceShown = false;
  const flight = flyJob(
    job,
    seed,
    forecastErrorKnots,
    {},
    {
      overlay: areaRound(job, east, north, half),
      watch: (state) => {
        if (choiceShown || state.phase === 'idle') return;
        const standing = wordStanding(state);
        if (standing?.beforeSmoke === true && (crowdCaution(standing) ?? '').includes('HOLD OR KNOCK IT OFF')) choiceShown = true;
      },
    },
  );
  const moved = driftAtOf(flight.simulation.driftTrack);
  const puffsInside = flight.simulation.trails.flat().filter((puff) => {
    const by = moved(puff.atSeconds);
    return Math.abs(puff.airEastMetres + by.eastMetres - east) < half && Math.abs(puff.airNorthMetres + by.northMetres - north) < half;
  }).length;
  return { finished: flight.finalState.phase === 'finished', puffsInside, choiceShown };
}
