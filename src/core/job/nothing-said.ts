import type { Job, JobShip } from './job.ts';

/** The booking of which nobody has said anything. */
export const NOTHING_BOOKED: Pick<Job, 'booking' | 'viewingPlaces' | 'crew' | 'forecasts'> = {
  booking: {
    client: '',
    contact: '',
    feeAmount: null,
    feeCurrency: '',
    owed: [],
    deadlineTime: null,
    callTime: null,
    reportTime: null,
    spareTimes: [],
    permissions: [],
    sentTime: null,
    paidTime: null,
    outcomes: [],
  },
  viewingPlaces: [],
  crew: [],
  forecasts: [],
};

/** What a ship may leave unsaid and still be flown. */
export const NOTHING_SAID_OF_SHIP: Pick<
  JobShip,
  'keptId' | 'oilKind' | 'oilPoundsPerGallon' | 'smokeTankGallons' | 'climbFeetPerMinute' | 'bingoFuelGallons' | 'balance'
> = {
  keptId: null,
  oilKind: '',
  oilPoundsPerGallon: null,
  smokeTankGallons: null,
  climbFeetPerMinute: null,
  bingoFuelGallons: null,
  balance: null,
};
