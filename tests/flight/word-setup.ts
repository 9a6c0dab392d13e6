import type { FlightSetup } from '../../src/core/guidance/flight-setup.ts';
import { waitingCircleFrom } from '../../src/core/guidance/flight-setup-from-job.ts';
import type { Hand } from '../../src/core/letters/hand.ts';
import { typeset } from '../../src/core/letters/typeset.ts';
import type { LetterFrame } from '../../src/core/paths/letter-frame.ts';
import { planText } from '../../src/core/plan/plan-text.ts';
import type { Plan } from '../../src/core/plan/plan.ts';
import { turnRadiusMetres } from '../../src/core/paths/turn.ts';

const DEGREE = Math.PI / 180;
/** 120 mph, the speed of the trade's rule of thumb. */
export const WORD_AIRSPEED = 53.6448;
export const WORD_HEIGHT_METRES = 1200;
export const WORD_FACING_DEGREES = 20;
/** An invented lake where a compass points 12 degrees west of north. */
export const WORD_SITE = { latitudeDegrees: 43.8721, longitudeDegrees: -74.4318, elevationMetres: 200 };
export const WORD_LAYER_METRES = 3200;
/** The wind that the plan believes in: 250 degrees at 14 kt. */
export const WORD_FORECAST = { eastMetresPerSecond: 7, northMetresPerSecond: 2.5 };

/** A word planned for one ship and ready to be flown in a flight of the tests. */
export function wordSetup(
  text: string,
  changes: Partial<FlightSetup> = {},
  ships = 1,
  shipIndex = 0,
  hand: Hand = 'round-capitals',
): { readonly plan: Plan; readonly setup: FlightSetup } {
  const frame: LetterFrame = { facingRadians: WORD_FACING_DEGREES * DEGREE, middle: { airEastMetres: 1000, airNorthMetres: 3000 } };
  const turnRadius = turnRadiusMetres(WORD_AIRSPEED, 45 * DEGREE);
  const setting = typeset(text, { heightMetres: WORD_HEIGHT_METRES, turnRadiusMetres: turnRadius, hand });
  if (!setting.ok) throw new Error(setting.reason);
  const planned = planText(setting.layout.letters, {
    text,
    frame,
    letterHeightMetres: WORD_HEIGHT_METRES,
    textWidthMetres: setting.layout.widthMetres,
    trueAirspeedMetresPerSecond: WORD_AIRSPEED,
    writingBankRadians: 45 * DEGREE,
    turningBankRadians: 45 * DEGREE,
    rollRateRadiansPerSecond: 30 * DEGREE,
    runInSeconds: 4,
    runOutSeconds: 1,
    letterOrder: 'reading',
    progress: 'into-wind',
    windFromRadians: 250 * DEGREE,
    oilKilogramsPerSecond: 0.34,
    ...(ships > 1 ? { ships, separationMetres: 300 } : {}),
  });
  if (!planned.ok) throw new Error(JSON.stringify(planned.problem));
  const { plan } = planned;
  const { joinUp } = plan.ships[shipIndex]!;
  return {
    plan,
    setup: {
      jobId: 'word',
      shipIndex,
      shipName: ['Lead', 'Two', 'Three'][shipIndex] ?? `Ship ${shipIndex + 1}`,
      site: WORD_SITE,
      layerHeightMetres: WORD_LAYER_METRES,
      variationDegrees: -12.8,
      forecastWind: WORD_FORECAST,
      trueAirspeedMetresPerSecond: WORD_AIRSPEED,
      writingBankRadians: 45 * DEGREE,
      turningBankRadians: 45 * DEGREE,
      maximumBankRadians: 55 * DEGREE,
      rollRateRadiansPerSecond: 30 * DEGREE,
      runInSeconds: 4,
      runOutSeconds: 1,
      valveOnSeconds: 0,
      valveOffSeconds: 0,
      reactionSeconds: 0.4,
      oilKilograms: 180,
      oilKilogramsPerSecond: 0.34,
      letterHeightMetres: WORD_HEIGHT_METRES,
      strokes: plan.ships[shipIndex]!.legs.flatMap((leg) =>
        leg.kind === 'smoke' ? [{ letterIndex: leg.letterIndex, character: leg.character, path: leg.path, plannedStartSeconds: leg.startSeconds }] : [],
      ),
      datum: { kind: 'first-smoke' },
      ...(joinUp === undefined ? {} : { waitingCircle: waitingCircleFrom(joinUp) }),
      ...changes,
    },
  };
}
