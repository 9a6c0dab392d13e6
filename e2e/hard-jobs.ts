import { DEMO_JOB } from '../src/core/job/demo-job.ts';
import type { Job, JobWind } from '../src/core/job/job.ts';

/** A job at an edge of what can be planned. */
export interface HardJob {
  readonly job: Job;
  /** What it is hard in, for a test's name. */
  readonly in: string;
  /** What the go/no-go must say of it: a check and its status. */
  readonly says: readonly (readonly [check: string, status: 'stop' | 'caution' | 'not-checked' | 'ok'])[];
}

const wind = (altitudeFeet: number, fromDegreesTrue: number | null, speedKnots: number, temperatureCelsius: number | null = null): JobWind => ({
  altitudeFeet,
  fromDegreesTrue,
  speedKnots,
  temperatureCelsius,
});
const NORTH = { ...DEMO_JOB.site, name: 'Ondine ice camp', latitudeDegrees: 78.2, longitudeDegrees: 15.6, elevationFeet: 100, timeZone: 'Arctic/Longyearbyen' };

function hard(id: string, isIn: string, says: HardJob['says'], part: Partial<Job>): HardJob {
  return { in: isIn, says, job: { ...DEMO_JOB, id, name: `Regatta, ${isIn}`, ...part } };
}

/** One job for each edge: light, longitude, wind, rows and height of the site. */
export const HARD_JOBS: readonly HardJob[] = [
  hard('polar-day', 'polar day', [['daylight', 'ok']], { site: NORTH, readTime: '2027-06-19T22:30:00Z' }),
  hard(
    'polar-night',
    'polar night',
    [
      ['daylight', 'stop'],
      ['sun-crowd', 'not-checked'],
    ],
    { site: NORTH, readTime: '2027-12-21T11:00:00Z' },
  ),
  // The wind carries the word eastwards over the 180th meridian.
  hard('antimeridian', 'drift over the antimeridian', [['wind', 'ok']], {
    site: { ...DEMO_JOB.site, latitudeDegrees: -16.8, longitudeDegrees: 179.98, elevationFeet: 10, timeZone: 'Pacific/Fiji' },
    winds: [wind(9000, 270, 20, 5), wind(12_000, 270, 22, -1)],
    readTime: '2027-06-19T01:00:00Z',
    namedPoints: [{ name: 'Reef light', latitudeDegrees: -16.7, longitudeDegrees: -179.9 }],
  }),
  hard('calm', 'a calm', [['wind', 'ok']], { winds: [wind(9000, 0, 0, 5), wind(12_000, 0, 0, -1)] }),
  hard('light', 'light and variable winds', [['wind', 'caution']], { winds: [wind(9000, null, 0, 5), wind(12_000, null, 0, -1)] }),
  hard('gale', 'a wind of 80 kt', [['wind', 'stop']], { winds: [wind(9000, 300, 78, 5), wind(12_000, 300, 82, -1)] }),
  hard('inversion', 'rows upside down and warmer above', [['wind', 'ok']], {
    winds: [wind(12_000, 80, 14, 12), wind(3000, 40, 6, -4), wind(9000, 70, 11, 8), wind(6000, 60, 9, 2)],
  }),
  hard(
    'twice',
    'two winds for one height',
    [
      ['wind', 'caution'],
      ['reading', 'caution'],
    ],
    { winds: [wind(9000, 80, 14), wind(9000, 60, 10)] },
  ),
  hard(
    'no-winds',
    'no winds at all',
    [
      ['wind', 'caution'],
      ['reading', 'caution'],
    ],
    { winds: [] },
  ),
  hard(
    'far-winds',
    'winds far below the layer',
    [
      ['wind', 'caution'],
      ['reading', 'caution'],
    ],
    { winds: [wind(1000, 80, 14), wind(2000, 60, 10)] },
  ),
  hard('high-site', 'a site at 10,000 ft', [['height', 'stop']], { site: { ...DEMO_JOB.site, name: 'Upper Ondine', elevationFeet: 10_000 } }),
  hard('high-layer', 'a site at 10,000 ft under 17,000', [['oxygen', 'caution']], {
    site: { ...DEMO_JOB.site, name: 'Upper Ondine', elevationFeet: 10_000 },
    layer: { altitudeFeet: 17_000, temperatureCelsius: null },
    winds: [wind(12_000, 80, 14, -1), wind(18_000, 80, 20, -14)],
  }),
];
