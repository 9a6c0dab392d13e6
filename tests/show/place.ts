import { siteFromGeodetic } from '../../src/core/earth/site-frame.ts';
import { standardPressurePascals } from '../../src/core/earth/standard-atmosphere.ts';
import { sunAt, sunDay } from '../../src/core/earth/sun.ts';
import { decodeWindGroup } from '../../src/core/job/winds-aloft-group.ts';
import { windVectorFrom } from '../../src/core/earth/wind-vector.ts';
import { placeTextMiddle } from '../../src/core/plan/place.ts';
import { driftCorridor } from '../../src/core/place/drift-corridor.ts';
import { bestFacing, facingGrid, SUN_MARGIN_RADIANS } from '../../src/core/place/facing-choice.ts';
import { LONGEST_OVERLAY_CHARACTERS, parseOverlayText } from '../../src/core/place/overlay.ts';
import { shownDepthRadians } from '../../src/core/sky/shown-size.ts';
import { plumeSpread } from '../../src/core/sky/plume.ts';
import { readingWindow } from '../../src/core/sky/reading-window.ts';
import { trailsFromPlan } from '../../src/core/sky/trail.ts';
import { degreesFromRadians, radiansFromDegrees, signedDegrees } from '../../src/core/units/angle.ts';
import { metresFromFeet, metresPerSecondFromKnots, statuteMilesFromMetres } from '../../src/core/units/quantity.ts';
import { plannedText } from '../core/sky/planned.ts';
import atmosphere from '../reference/atmosphere.json' with { type: 'json' };
import geodesy from '../reference/geodesy.json' with { type: 'json' };
import legibility from '../reference/legibility.json' with { type: 'json' };
import plume from '../reference/plume.json' with { type: 'json' };
import sun from '../reference/sun.json' with { type: 'json' };
import winds from '../reference/winds_aloft.json' with { type: 'json' };
import type { Figure, Shown } from './figures.ts';
import { atLeast, atMost, reported } from './limits.ts';
import { readingFigures } from './place-reading.ts';

/** Where, when, how big and how long, against published values, a reader, and the year's sun. */
export async function showPlace(): Promise<Shown> {
  const reading = await readingFigures();
  const ratios = reading.filter(({ name }) => name.startsWith('end of reading,')).map(({ value }) => value);
  const within = reading.find(({ name }) => name.endsWith('on their own'))?.value;
  return {
    figures: [...sunFigures(), ...tableFigures(), ...facingFigures(), ...corridorFigures(), overlayFigure(), ...reading],
    headline: `Over twenty unseen words the predicted end of reading is ${ratios.join(', ')} of where the reader stops, in no, some and much shear; ${within ?? 'none'} words within 25 % on their own.`,
  };
}

function sunFigures(): Figure[] {
  const { input, expected } = sun.nrel_spa;
  const found = sunAt({ latitudeDegrees: input.lat_deg, longitudeDegrees: input.lon_deg }, Date.parse(input.utc));
  const azimuth = Math.abs(signedDegrees(degreesFromRadians(found.azimuthRadians) - expected.azimuth_from_north_east));
  const elevation = Math.abs(degreesFromRadians(found.elevationRadians) - expected.elevation_e);
  const seconds = sun.rise_set.rows.flatMap((row) => {
    const day = sunDay({ latitudeDegrees: row.lat_deg, longitudeDegrees: row.lon_deg }, Date.parse(row.search_start_utc) + 43_200_000);
    return [
      [day.riseMilliseconds, row.sunrise_utc],
      [day.setMilliseconds, row.sunset_utc],
    ].flatMap(([at, truth]) => (typeof at === 'number' && typeof truth === 'string' ? [Math.abs(at - Date.parse(truth)) / 1_000] : []));
  });
  return [
    atMost('sun: the published example (NREL/TP-560-34302), azimuth', azimuth, 0.02, 'degrees', 4),
    atMost('sun: the same, elevation with refraction', elevation, 0.02, 'degrees', 4),
    atMost(`sun: worst of ${seconds.length} risings and settings`, Math.max(...seconds), 60, 's', 1),
  ];
}

function tableFigures(): Figure[] {
  const worst = (errors: readonly number[]): number => Math.max(...errors);
  const decoded = winds.groups.filter((row) => {
    const group = decodeWindGroup(row.code, row.alt_ft > 24_000);
    return group.ok && group.wind.fromDegreesTrue === (row.dir ?? null) && group.wind.temperatureCelsius === row.temp;
  });
  return [
    atLeast('winds aloft: groups decoded (FAA AC 00-45H)', decoded.length, winds.groups.length, `of ${winds.groups.length}`, 0),
    atMost(
      `smoke: worst spread of ${plume.growth.rows.length} rows (Schumann 2012)`,
      worst(
        plume.growth.rows.map((row) =>
          Math.abs(
            plumeSpread(row.t_s, row.shear_per_s, {
              horizontalSquareMetresPerSecond: row.D_h,
              verticalSquareMetresPerSecond: row.D_v,
              initialHorizontalMetres: row.sigma_h0_m,
              initialVerticalMetres: row.sigma_v0_m,
            }).horizontalMetres - row.sigma_h_m,
          ),
        ),
      ) * 1e6,
      1,
      'micrometres',
      2,
    ),
    atMost(
      `size: worst of ${legibility.worked.length} shown angles`,
      worst(
        legibility.worked.map((row) => Math.abs(degreesFromRadians(shownDepthRadians(row.letter_height_m, row.distance_m, Math.PI / 2)) * 60 - row.arcmin)),
      ),
      0.001,
      'minutes of arc',
      5,
    ),
    atMost(
      `air: worst pressure of ${atmosphere.rows.length} heights (USSA 1976)`,
      worst(atmosphere.rows.map((row) => Math.abs(standardPressurePascals(metresFromFeet(row.geopotential_ft)) - row.p_Pa))),
      0.01,
      'Pa',
      4,
    ),
    atMost(
      `site frame: worst of ${geodesy.enu.rows.length} points (GeographicLib, PROJ)`,
      1_000 *
        worst(
          geodesy.enu.rows.map((row) => {
            const site = { latitudeDegrees: row.lat0, longitudeDegrees: row.lon0, elevationMetres: row.h0 };
            const point = siteFromGeodetic({ latitudeDegrees: row.lat, longitudeDegrees: row.lon }, row.h, site);
            return Math.hypot(point.eastMetres - row.east, point.northMetres - row.north, point.upMetres - row.up);
          }),
        ),
      1,
      'mm',
      4,
    ),
  ];
}

/** Every third hour of every ninth day of a year at three latitudes. */
function facingFigures(): Figure[] {
  let [hours, avoidable, wrong] = [0, 0, 0];
  for (const latitudeDegrees of [-35, 8, 64]) {
    for (let day = 0; day < 365; day += 9) {
      const cells = facingGrid({
        site: { latitudeDegrees, longitudeDegrees: 10, elevationMetres: 0 },
        textWidthMetres: 4_000,
        letterHeightMetres: 1_200,
        layerAboveSiteMetres: 2_700,
        viewElevationRadians: radiansFromDegrees(35),
        wind: windVectorFrom({ fromRadians: day, speedMetresPerSecond: metresPerSecondFromKnots(12) }),
        writingSeconds: 500,
        readingSeconds: 600,
        strokes: [],
        mayTurnStrokes: false,
        crowdFacingRadians: day / 50,
        facingsRadians: Array.from({ length: 18 }, (_, index) => radiansFromDegrees(20 * index)),
        readTimesMilliseconds: Array.from({ length: 8 }, (_, index) => Date.UTC(2027, 0, 1 + day, 3 * index)),
      });
      for (const hour of new Set(cells.map(({ readMilliseconds }) => readMilliseconds))) {
        const own = cells.filter(({ readMilliseconds }) => readMilliseconds === hour);
        const near = (margin: number | null | undefined): boolean => typeof margin === 'number' && margin < SUN_MARGIN_RADIANS;
        hours += 1;
        if (!own.some(({ sunMarginRadians }) => !near(sunMarginRadians))) continue;
        avoidable += 1;
        if (near(bestFacing(own)?.sunMarginRadians)) wrong += 1;
      }
    }
  }
  return [
    reported('facing: hours of a year looked at, three latitudes', String(hours), `${avoidable} in which the sun can be avoided`),
    atMost('facing: chosen within 25 degrees of the sun though it could be avoided', wrong, 0, 'times', 0),
  ];
}

/** The demo's word in a wind of 12.5 kt: how far it goes while it lasts. */
function corridorFigures(): Figure[] {
  const wind = windVectorFrom({ fromRadians: radiansFromDegrees(75), speedMetresPerSecond: metresPerSecondFromKnots(12.5) });
  const wish = { facingRadians: radiansFromDegrees(340), viewElevationRadians: radiansFromDegrees(35), layerAboveSiteMetres: 2_700 };
  const plan = plannedText('SAIL', { frame: { facingRadians: wish.facingRadians, middle: placeTextMiddle(wish, wind, 720) }, oilKilogramsPerSecond: 0.34 });
  const window = readingWindow(trailsFromPlan(plan, 60), { letterHeightMetres: 1_200, wind, shear: null, visibilityMetres: null, ...wish });
  const miles = (seconds: number): number => statuteMilesFromMetres(driftCorridor(plan, wind, 2_700, seconds, 150).driftedMetres);
  const gone = window.letters.map(({ gone: end }) => end);
  const readMiles = miles(Math.max(plan.durationSeconds, window.until.likelySeconds));
  const likelyMiles = miles(Math.max(...gone.map(({ likelySeconds }) => likelySeconds)));
  const highMiles = miles(Math.max(...gone.map(({ highSeconds }) => highSeconds)));
  return [
    reported('corridor: SAIL in 12.5 kt while it reads, likely', `${readMiles.toFixed(1)} statute miles`),
    {
      name: 'corridor: until its smoke is gone, likely',
      value: `${likelyMiles.toFixed(1)} statute miles`,
      limit: '10 to 20, common practice, no source',
      ok: likelyMiles >= 10 && likelyMiles <= 20,
    },
    reported('corridor: until a trained eye loses it, in the stillest air', `${highMiles.toFixed(1)} statute miles`),
  ];
}

function overlayFigure(): Figure {
  const ring = Array.from({ length: 400 }, (_, index) => [10 + 0.01 * Math.cos((index * Math.PI) / 200), 45 + 0.01 * Math.sin((index * Math.PI) / 200)]);
  ring[399] = ring[0] ?? [0, 0];
  const one = JSON.stringify({ type: 'Feature', properties: null, geometry: { type: 'Polygon', coordinates: [ring] } });
  const count = Math.floor((LONGEST_OVERLAY_CHARACTERS - 100) / (one.length + 1));
  const text = `{"type":"FeatureCollection","features":[${Array.from({ length: count }, () => one).join(',')}]}`;
  const began = performance.now();
  const found = parseOverlayText(text);
  const seconds = (performance.now() - began) / 1_000;
  return atMost(`overlay of ${(text.length / 1e6).toFixed(1)} MB: ${found.ok ? 'read' : 'refused'} in`, seconds, 10, 's', 1);
}
