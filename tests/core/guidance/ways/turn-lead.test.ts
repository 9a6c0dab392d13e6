import { expect, it } from 'vitest';
import { turnLeadSeconds } from '../../../../src/core/guidance/ways/turn-lead.ts';
import { radiansFromDegrees } from '../../../../src/core/units/angle.ts';

it('is the reaction and half the roll: 0.5 s and 30 degrees at 45 a second make 0.83 s', () => {
  const setup = { turningBankRadians: radiansFromDegrees(30), rollRateRadiansPerSecond: radiansFromDegrees(45) };
  expect(turnLeadSeconds({ hands: { turnReactionSeconds: 0.5 }, setup })).toBeCloseTo(0.5 + 1 / 3, 12);
});
