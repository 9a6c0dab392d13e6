import { describe, expect, it } from 'vitest';
import { flightCard } from '../../../src/core/plan/flight-card.ts';
import { degreesFromRadians, positiveDegrees } from '../../../src/core/units/angle.ts';
import { wordSetup } from '../../flight/word-setup.ts';

const degrees = (radians: number): number => Math.round(positiveDegrees(degreesFromRadians(radians)));

describe('flightCard', () => {
  const { plan } = wordSetup('JOY');
  const [ship] = plan.ships;
  const card = flightCard(ship!);

  it('has every stroke once, in order, with the seconds of the plan', () => {
    const strokes = ship!.legs.filter(({ kind }) => kind === 'smoke');
    expect(card.map(({ strokeNumber }) => strokeNumber)).toEqual(strokes.map((_, index) => index + 1));
    expect(card.reduce((sum, { smokeSeconds }) => sum + smokeSeconds, 0)).toBeCloseTo(ship!.smokeSeconds, 6);
    expect(card.reduce((sum, { smokeSeconds, waySeconds, holdSeconds }) => sum + smokeSeconds + waySeconds + holdSeconds, 0)).toBeCloseTo(
      plan.durationSeconds,
      6,
    );
  });

  it('joins headings: each piece ends where the next begins, each way on the heading of the smoke', () => {
    for (const step of card.slice(1)) expect(degrees(step.way.at(-1)!.headingRadians) % 360).toBe(degrees(step.smokeHeadingRadians) % 360);
    for (const { smoke, way } of card) {
      for (const piece of [...smoke, ...way]) {
        if (piece.kind === 'straight') expect(degrees(piece.turnRadians)).toBeLessThan(5);
        else expect(degrees(piece.turnRadians)).toBeGreaterThanOrEqual(4);
      }
      const kinds = smoke.map(({ kind }) => kind);
      expect(kinds.every((kind, index) => kind !== kinds[index + 1])).toBe(true);
    }
  });

  it('turns the heading by what its turns say', () => {
    for (const { smoke, smokeHeadingRadians } of card) {
      const turned = smoke.reduce((sum, { kind, turnRadians }) => sum + (kind === 'left' ? -turnRadians : kind === 'right' ? turnRadians : 0), 0);
      const straightDrift = smoke.filter(({ kind }) => kind === 'straight').reduce((sum, { turnRadians }) => sum + turnRadians, 0);
      const difference = positiveDegrees(degreesFromRadians(smoke.at(-1)!.headingRadians - smokeHeadingRadians - turned));
      expect(Math.min(difference, 360 - difference)).toBeLessThanOrEqual(degreesFromRadians(straightDrift) + 1e-6);
    }
  });
});
