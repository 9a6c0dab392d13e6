import * as v from 'valibot';
import type { SmokeCalibration } from '../core/sky/smoke-calibration.ts';
import type { Database } from '../store/database.ts';
import { readSetting, saveSetting } from '../store/settings.ts';

const POSITIVE = v.pipe(v.number(), v.finite(), v.minValue(0.01), v.maxValue(1000));
const SCHEMA = v.object({ horizontalSquareMetresPerSecond: POSITIVE, sigmaSquareMetresPerSecond: POSITIVE });
const SETTING = 'smoke-calibration';

/** How fast smoke spreads, as a debrief carried it over; null while nobody has measured it. */
export async function readSmokeCalibration(database: Database): Promise<SmokeCalibration | null> {
  const read = v.safeParse(SCHEMA, await readSetting(database, SETTING));
  return read.success ? read.output : null;
}

/** Stores a calibration; null forgets it. Rejects with a `StoreFault`. */
export function saveSmokeCalibration(database: Database, calibration: SmokeCalibration | null): Promise<void> {
  return saveSetting(database, SETTING, calibration);
}
