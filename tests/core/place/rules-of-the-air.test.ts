import { describe, expect, it } from 'vitest';
import { cloudMinima, cloudStanding, oxygenNeed } from '../../../src/core/place/air-rules.ts';
import { ICAO_RULES, ownRules, US_RULES } from '../../../src/core/place/rules-of-the-air.ts';
import { metresFromFeet } from '../../../src/core/units/quantity.ts';

describe('rules of the air as data', () => {
  it('have a name, a date and a source for each limit', () => {
    for (const rules of [US_RULES, ICAO_RULES]) {
      for (const text of [rules.name, rules.date, rules.cloudSource, rules.oxygenSource, rules.peopleSource, rules.formationSource, rules.reserveSource])
        expect(text.length).toBeGreaterThan(3);
    }
    // What could not be opened is said to be from memory.
    expect([ICAO_RULES.cloudSource, ICAO_RULES.oxygenSource, ICAO_RULES.peopleSource].every((source) => source.endsWith('from memory'))).toBe(true);
  });

  it('differ where the sets differ: at 11,000 ft for an hour, one advises oxygen and the other requires it', () => {
    expect(oxygenNeed(metresFromFeet(11_000), 3600, US_RULES)).toBe('advised');
    expect(oxygenNeed(metresFromFeet(11_000), 3600, ICAO_RULES)).toBe('required');
    expect(oxygenNeed(metresFromFeet(11_000), 600, ICAO_RULES)).toBe('none');
    expect(cloudMinima(metresFromFeet(9000), ICAO_RULES).visibilityMetres).toBe(5000);
    expect(cloudMinima(metresFromFeet(10_000), ICAO_RULES).visibilityMetres).toBe(8000);
  });

  it('ask for nothing that the pilot has not entered', () => {
    const own = ownRules({
      visibilityMetres: 0,
      belowCloudMetres: 0,
      aboveCloudMetres: 0,
      asideMetres: 0,
      oxygenMetres: null,
      peopleMetres: 0,
      reserveMinutes: 0,
      source: 'Harbour rules',
    });
    expect(oxygenNeed(9000, 9999, own)).toBe('none');
    expect(cloudStanding(3000, [{ baseMetres: 3001, topMetres: null, oktas: 3 }], own)).toBe('clear');
    expect(own.cloudSource).toBe('Harbour rules, entered by the pilot');
  });
});
