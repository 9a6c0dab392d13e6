import { isDemo } from '../../core/job/demo-id.ts';
import type { Job } from '../../core/job/job.ts';
import { NOTHING_BOOKED, NOTHING_SAID_OF_SHIP } from '../../core/job/nothing-said.ts';
import { UNSAID_PATHS } from '../../core/job/not-entered.ts';
import { newId } from '../new-id.ts';

const HOUR_MILLISECONDS = 3_600_000;
const DAY_MILLISECONDS = 24 * HOUR_MILLISECONDS;

/**
 * An empty booking. What has to be entered is listed in `notEntered`; the numbers that stand there meanwhile only let a
 * word be drawn as soon as it is typed, and no sheet prints them.
 *
 * @param timeZone the device's own, IANA
 */
export function newJob(nowMilliseconds: number, timeZone: string): Job {
  const readMilliseconds = Math.ceil((nowMilliseconds + 7 * DAY_MILLISECONDS) / HOUR_MILLISECONDS) * HOUR_MILLISECONDS;
  return {
    format: 'quillwind-job',
    version: 1,
    id: newId(),
    demo: false,
    notEntered: UNSAID_PATHS,
    name: 'New job',
    text: '',
    site: {
      name: '',
      latitudeDegrees: 0,
      longitudeDegrees: 0,
      elevationFeet: 0,
      timeZone,
      crowdFacingDegreesTrue: null,
      variationByHand: null,
      crowdWeight: 1,
    },
    facingDegreesTrue: 0,
    viewElevationDegrees: 35,
    readTime: new Date(readMilliseconds).toISOString(),
    layer: { altitudeFeet: 10_000, temperatureCelsius: null },
    letters: { heightFeet: 4000, spacingHeights: 0.3, depthStretch: 1 },
    drawings: [],
    winds: [],
    windsText: '',
    ships: [
      {
        name: 'Lead',
        trueAirspeedKnots: 100,
        writingBankDegrees: 45,
        turningBankDegrees: 45,
        maximumBankDegrees: 55,
        rollRateDegreesPerSecond: 45,
        smokeOilPounds: 0,
        smokeOilPoundsPerMinute: 40,
        fuelGallons: 0,
        fuelGallonsPerHour: 10,
        fuelReserveMinutes: 45,
        otherFlyingMinutes: null,
        valveOnSeconds: 1,
        valveOffSeconds: 1,
        reactionSeconds: 0.5,
        ...NOTHING_SAID_OF_SHIP,
      },
    ],
    options: {
      letterOrder: 'free',
      progress: 'into-wind',
      hand: 'round-capitals',
      runInSeconds: 4,
      runOutSeconds: 1,
      separationFeet: 1000,
      heightStepFeet: 0,
      joinUpStepFeet: 500,
      longestUnfinishedSeconds: 300,
      sunOffNose: false,
    },
    frequencies: [],
    knockItOffWords: '',
    conditions: { visibilityStatuteMiles: null, clouds: null, altimeterHectopascals: null },
    namedPoints: [],
    ...NOTHING_BOOKED,
    notes: '',
  };
}

/** The same booking under a new id, its name marked as a copy; nothing of it is sent, paid or flown. */
export function copiedJob(job: Job): Job {
  const marked = / \(copy(?: (\d+))?\)$/.exec(job.name);
  const count = marked === null ? 1 : Number(marked[1] ?? 1) + 1;
  const mark = count === 1 ? ' (copy)' : ` (copy ${count})`;
  const base = marked === null ? job.name : job.name.slice(0, marked.index);
  // What became of the one is not what becomes of the other.
  const booking = { ...job.booking, sentTime: null, paidTime: null, outcomes: [] };
  return { ...job, booking, id: newId(), demo: isDemo(job), name: `${[...base].slice(0, 60 - mark.length).join('')}${mark}` };
}
