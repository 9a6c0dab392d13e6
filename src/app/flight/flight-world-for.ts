import { batch } from '@preact/signals';
import type { Cues } from '../../core/guidance/cues.ts';
import type { FlightSetup } from '../../core/guidance/flight-setup.ts';
import type { RehearsalControl, RehearsalSettings } from '../../core/guidance/rehearsal-aircraft.ts';
import { windVectorFrom } from '../../core/earth/wind-vector.ts';
import { advanceAirPose } from '../../core/paths/air-path.ts';
import { bearingFromDirection, degreesFromRadians, radiansFromDegrees } from '../../core/units/angle.ts';
import { metresPerSecondFromKnots } from '../../core/units/quantity.ts';
import { deviceWorld } from '../../sensors/device-world.ts';
import type { FlightWorld } from '../../sensors/flight-world.ts';
import { createHands, type Hands } from '../../sensors/hands.ts';
import { recordedWorld } from '../../sensors/recorded-world.ts';
import { walkingPosition } from '../../sensors/walking-position.ts';
import { keepPace, keptPace } from './rehearsal-pace.ts';
import { rehearsalWorld } from '../../sensors/rehearsal-world.ts';
import { receiverWorld } from './own-receiver.ts';
import type { RehearsalChoice, SourceChoice } from './flight-choices.ts';
import type { Resumption, WorldFor } from './world-types.ts';

/** A rehearsal begins this long before its first run-in, heading for it. */
const BEFORE_RUN_IN_SECONDS = 25;
/** A tablet's receiver: one fix a second, 3 m, 0.7 s late; common practice, no source. */
const RECEIVER = { fixIntervalSeconds: 1, fixNoiseMetres: 3, fixLatencySeconds: 0.7 } as const;
/** By hand, a turn that is not cued is flown with this much bank. */
const HAND_BANK_DEGREES = 20;

/** The world that a choice stands for, with a person's hands where one flies the rehearsal. */
export const flightWorldFor: WorldFor = (source, setup, resumption, readCues) => {
  const hands = source.kind === 'rehearsal' && source.flownBy === 'hands' ? createHands(window) : null;
  return { ...worldWith(source, setup, resumption, readCues, hands), hands };
};

/** The same with hands that are there already; null where the machine flies. */
export function worldWith(source: SourceChoice, setup: FlightSetup, resumption: Resumption | null, readCues: () => Cues, hands: Hands | null): FlightWorld {
  switch (source.kind) {
    case 'device':
      return source.receiver === undefined ? deviceWorld(resumption?.atSeconds ?? 0) : receiverWorld(resumption?.atSeconds ?? 0, source.receiver);
    case 'walking': {
      const { startEastMetres, startNorthMetres } = resumption?.place ?? firstPlace(setup);
      const world = deviceWorld(resumption?.atSeconds ?? 0);
      const start = { eastMetres: startEastMetres, northMetres: startNorthMetres };
      return {
        ...world,
        position: walkingPosition(world.position, { site: setup.site, layerHeightMetres: setup.layerHeightMetres, start, scale: source.scale }),
      };
    }
    case 'recorded':
      return recordedWorld(source.fixes, source.speed, batch);
    case 'rehearsal': {
      const speed = (resumption === null ? null : keptPace()) ?? source.speed;
      keepPace(speed);
      return rehearsalWorld({
        setup,
        settings: { ...RECEIVER, seed: source.seed, skill: source.skill, wind: windOf(source), ...(resumption?.place ?? firstPlace(setup)) },
        control: () => (hands === null ? { kind: 'cues', cues: readCues() } : handControl(hands, readCues())),
        start: { startSeconds: resumption?.atSeconds ?? 0, startWallMilliseconds: resumption?.wallMilliseconds ?? Date.now() },
        speed,
        together: batch,
      });
    }
  }
}

function windOf({ windFromDegrees, windKnots }: RehearsalChoice): RehearsalSettings['wind'] {
  return windVectorFrom({ fromRadians: radiansFromDegrees(windFromDegrees), speedMetresPerSecond: metresPerSecondFromKnots(windKnots) });
}

function firstPlace(setup: FlightSetup): NonNullable<Resumption['place']> {
  const start = setup.strokes[0]?.path.start ?? { airEastMetres: 0, airNorthMetres: 0, directionRadians: 0 };
  const place = advanceAirPose(start, -(setup.runInSeconds + BEFORE_RUN_IN_SECONDS) * setup.trueAirspeedMetresPerSecond, 0);
  return {
    startEastMetres: place.airEastMetres,
    startNorthMetres: place.airNorthMetres,
    startHeadingDegrees: degreesFromRadians(bearingFromDirection(start.directionRadians)),
  };
}

/** Leaning to the cued side takes the cued bank, so that one key is enough to fly by. */
function handControl(hands: Hands, { turn, bankDegrees }: Cues): RehearsalControl {
  const side = hands.lean();
  const cued = (side === -1 && turn === 'left') || (side === 1 && turn === 'right');
  const bankDegreesFlown = cued && bankDegrees !== null ? bankDegrees : HAND_BANK_DEGREES;
  return { kind: 'hands', bankRadians: side * radiansFromDegrees(bankDegreesFlown), smoke: hands.smoke() };
}
