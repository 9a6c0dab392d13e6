import { airPathLengthMetres, type AirPoint, airPoseAt } from '../../paths/air-path.ts';
import type { OtherShip } from '../formation/formation-setup.ts';

/** Where the plan has another ship, so long after the datum by its own clock; null before it leaves its circle and when it has left. */
export function plannedPlace({ legs }: OtherShip, sinceDatumSeconds: number): AirPoint | null {
  const leg = legs.find(({ startSeconds, endSeconds }) => sinceDatumSeconds >= startSeconds && sinceDatumSeconds <= endSeconds);
  if (leg === undefined) return null;
  const share = (sinceDatumSeconds - leg.startSeconds) / Math.max(1e-6, leg.endSeconds - leg.startSeconds);
  return airPoseAt(leg.path, share * airPathLengthMetres(leg.path));
}
