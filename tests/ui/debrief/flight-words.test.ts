import { describe, expect, it } from 'vitest';
import { sourceTextFor } from '../../../src/app/flight/stored-source.ts';
import type { StoredFlight } from '../../../src/store/schema.ts';
import { flightTitle } from '../../../src/ui/debrief/flight-words.ts';

const FLIGHT: StoredFlight = {
  id: 'a',
  jobId: 'j',
  name: 'SAIL',
  kind: 'rehearsal',
  startedAtMilliseconds: Date.UTC(2026, 6, 24, 17, 30),
  endedAtMilliseconds: null,
  jobFileText: '',
  setupText: sourceTextFor({ kind: 'rehearsal', windFromDegrees: 96, windKnots: 22, skill: 'steady', flownBy: 'machine', speed: 5, seed: 12 }, 'Two'),
};

describe('a flight in the list', () => {
  it('is told by its ship where several fly, and only there', () => {
    expect(flightTitle(FLIGHT, 'UTC', 3)).toMatch(/17:30.*, rehearsal as Two$/);
    expect(flightTitle(FLIGHT, 'UTC', 1)).toMatch(/, rehearsal$/);
  });

  it('is told without it where it was not stored', () => {
    for (const setupText of ['{"kind":"device"}', '', '{"shipName":7}', '[]']) {
      expect(flightTitle({ ...FLIGHT, setupText }, 'UTC', 3)).toMatch(/, rehearsal$/);
    }
  });
});
