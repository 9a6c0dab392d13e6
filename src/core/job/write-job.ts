import type { Job } from './job.ts';

/**
 * The job file's text: two spaces of indent, fields always in the same order, a line feed at the end, so that two
 * files of the same job are the same bytes. `parseJob` is its inverse.
 */
export function writeJob(job: Job): string {
  const ordered: Job = {
    format: job.format,
    version: job.version,
    id: job.id,
    name: job.name,
    text: job.text,
    site: {
      name: job.site.name,
      latitudeDegrees: job.site.latitudeDegrees,
      longitudeDegrees: job.site.longitudeDegrees,
      elevationFeet: job.site.elevationFeet,
      timeZone: job.site.timeZone,
      crowdFacingDegreesTrue: job.site.crowdFacingDegreesTrue ?? null,
    },
    facingDegreesTrue: job.facingDegreesTrue,
    viewElevationDegrees: job.viewElevationDegrees,
    readTime: job.readTime,
    layer: { altitudeFeet: job.layer.altitudeFeet, temperatureCelsius: job.layer.temperatureCelsius },
    letters: { heightFeet: job.letters.heightFeet, spacingHeights: job.letters.spacingHeights, depthStretch: job.letters.depthStretch },
    winds: job.winds.map(({ altitudeFeet, fromDegreesTrue, speedKnots, temperatureCelsius }) => ({
      altitudeFeet,
      fromDegreesTrue,
      speedKnots,
      temperatureCelsius,
    })),
    windsText: job.windsText,
    ships: job.ships.map((ship) => ({
      name: ship.name,
      trueAirspeedKnots: ship.trueAirspeedKnots,
      writingBankDegrees: ship.writingBankDegrees,
      turningBankDegrees: ship.turningBankDegrees,
      maximumBankDegrees: ship.maximumBankDegrees,
      rollRateDegreesPerSecond: ship.rollRateDegreesPerSecond,
      smokeOilPounds: ship.smokeOilPounds,
      smokeOilPoundsPerMinute: ship.smokeOilPoundsPerMinute,
      fuelGallons: ship.fuelGallons,
      fuelGallonsPerHour: ship.fuelGallonsPerHour,
      fuelReserveMinutes: ship.fuelReserveMinutes,
      otherFlyingMinutes: ship.otherFlyingMinutes,
      valveOnSeconds: ship.valveOnSeconds,
      valveOffSeconds: ship.valveOffSeconds,
      reactionSeconds: ship.reactionSeconds,
    })),
    options: {
      letterOrder: job.options.letterOrder,
      progress: job.options.progress,
      corners: job.options.corners,
      runInSeconds: job.options.runInSeconds,
      runOutSeconds: job.options.runOutSeconds,
      separationFeet: job.options.separationFeet,
      heightStepFeet: job.options.heightStepFeet,
      longestUnfinishedSeconds: job.options.longestUnfinishedSeconds,
      sunOffNose: job.options.sunOffNose,
    },
    frequencies: job.frequencies.map(({ use, megahertz }) => ({ use, megahertz })),
    knockItOffWords: job.knockItOffWords,
    conditions: {
      visibilityStatuteMiles: job.conditions.visibilityStatuteMiles,
      clouds: job.conditions.clouds?.map(({ baseFeet, topFeet, oktas }) => ({ baseFeet, topFeet, oktas })) ?? null,
    },
    namedPoints: job.namedPoints.map(({ name, latitudeDegrees, longitudeDegrees }) => ({ name, latitudeDegrees, longitudeDegrees })),
    notes: job.notes,
  };
  return `${JSON.stringify(ordered, null, 2)}\n`;
}
