/**
 * A ship's own height above the job's layer: the lead a step below, two a step above, three two steps below, and so on,
 * so that of two ships neither ever passes the other's height, and of three one passes one other's. Of 500 ft: -500, 500,
 * -1,000.
 *
 * @param heightStepMetres by which each ship writes higher than the one before
 */
export function ownHeightStepMetres(shipIndex: number, joinUpStepMetres: number, ships: number, heightStepMetres: number): number {
  const steps = Math.floor(shipIndex / 2) + 1;
  return shipIndex % 2 === 0 ? -steps * joinUpStepMetres : steps * joinUpStepMetres + (ships - 1) * heightStepMetres;
}
