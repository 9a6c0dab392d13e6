import { describe, expect, it } from 'vitest';
import { hangingOfLead } from '../../../src/app/link/hanging-of-lead.ts';
import { timeOfLead } from '../../../src/app/link/time-of-lead.ts';
import type { FlightFact } from '../../../src/core/guidance/flight-event.ts';
import type { FlyingState } from '../../../src/core/guidance/guidance-state.ts';
import type { ShipState } from '../../../src/core/wire/link-messages.ts';
import { checkFigure, windFromFigures } from '../../../src/core/wire/hanging-figures.ts';
import { newShip, type ShipSeen, withPresence, withState } from '../../../src/link/ship-seen.ts';
import { after, twoOnCircle } from '../../flight/two-on-circle.ts';
import { TOLD_STATE } from '../../link/told-state.ts';

const OWN = { jobDigest: 'a'.repeat(24), flightKind: 'flight' } as const;
const NOW = { monotonicMilliseconds: 900_000, wallMilliseconds: 1_813_425_900_000 };
const FIGURES = '098 224 0';

const two = twoOnCircle();
/** Told a second ago. */
const datumInSeconds = two.flight.datumAtSeconds! - two.flight.atSeconds + 1;

type Told = NonNullable<ShipState['formation']>;
const TOLD: Told = { flightKind: 'flight', datumInSeconds, hungFor: FIGURES, hungBy: 'hand', movedEastMetres: 0, movedNorthMetres: 0 };

function stateOf(told: Told | null, secondsAgo: number, device: string, boot: string): ShipState {
  return {
    v: 1,
    device,
    boot,
    sentAtMilliseconds: NOW.wallMilliseconds - secondsAgo * 1000,
    eventCount: 3,
    ...TOLD_STATE,
    shipIndex: 0,
    formation: told,
  };
}

function heard(
  ship: ShipSeen,
  told: Told | null,
  { secondsAgo = 1, retained = false, boot = 'b1' }: { secondsAgo?: number; retained?: boolean; boot?: string } = {},
): ShipSeen {
  const at = { monotonicMilliseconds: NOW.monotonicMilliseconds - secondsAgo * 1000, wallMilliseconds: NOW.wallMilliseconds - secondsAgo * 1000 };
  return withState(ship, stateOf(told, secondsAgo, ship.device, boot), retained, at);
}

function lead(device = 'lead', jobDigest = OWN.jobDigest): ShipSeen {
  const at = { monotonicMilliseconds: NOW.monotonicMilliseconds - 60_000, wallMilliseconds: NOW.wallMilliseconds - 60_000 };
  const presence = {
    v: 1,
    device,
    boot: 'b1',
    sentAtMilliseconds: at.wallMilliseconds,
    state: 'up',
    shipIndex: 0,
    name: 'Lead',
    jobDigest,
    boots: [],
  } as const;
  return withPresence(newShip(device), presence, false, at);
}

const ask = (ships: readonly ShipSeen[], state: FlyingState = two, own: Parameters<typeof hangingOfLead>[2] = OWN): FlightFact | null =>
  hangingOfLead(ships, state, own, NOW);

describe('what a ship hears of how the lead hangs the word', () => {
  const figures = windFromFigures(FIGURES);
  if (!figures.ok) throw new Error(figures.reason);

  it('is the very wind of the figures on the radio, once', () => {
    const fact = ask([heard(lead(), TOLD)]);
    expect(fact).toEqual({ kind: 'hangingGiven', wind: figures.wind, by: 'link' });
    const hung = after(two, fact!);
    expect(hung.flight.hanging).toMatchObject({ kind: 'found-wind', wind: figures.wind });
    expect(hung.flight.formation).toMatchObject({ hungBy: 'link', wanted: null });
    // The same computation as of figures typed: bit for bit the same place.
    const typed = after(two, { kind: 'hangingGiven', wind: figures.wind });
    expect([hung.flight.movedEastMetres, hung.flight.movedNorthMetres]).toEqual([typed.flight.movedEastMetres, typed.flight.movedNorthMetres]);
    expect(ask([heard(lead(), TOLD)], hung)).toBeNull();
    // As briefed again: a word of its own, and nothing before the lead has hung it elsewhere.
    expect(ask([heard(lead(), { ...TOLD, hungFor: null })], hung)).toEqual({ kind: 'hangingGiven', wind: null, by: 'link' });
    expect(ask([heard(lead(), { ...TOLD, hungFor: null })])).toBeNull();
  });

  it('is nothing from whoever is not the lead of this job, flight, kind and datum, here and now', () => {
    expect(ask([])).toBeNull();
    const other = lead('three');
    expect(ask([withState(other, { ...stateOf(TOLD, 1, 'three', 'b1'), shipIndex: 2 }, false, NOW)])).toBeNull();
    expect(ask([heard(lead('lead', 'b'.repeat(24)), TOLD)])).toBeNull();
    expect(ask([heard(lead(), TOLD)], two, { ...OWN, jobDigest: null })).toBeNull();
    expect(ask([heard(lead(), { ...TOLD, flightKind: 'rehearsal' })])).toBeNull();
    // An older sortie of the same job, still on somebody's tablet.
    expect(ask([heard(lead(), { ...TOLD, datumInSeconds: datumInSeconds - 1800 })])).toBeNull();
    expect(ask([heard(lead(), { ...TOLD, datumInSeconds: null })])).toBeNull();
    expect(ask([heard(lead(), { ...TOLD, datumInSeconds: datumInSeconds + 2 })])).not.toBeNull();
    // What the broker kept, what is seconds old, and a ship that has left.
    expect(ask([heard(lead(), TOLD, { retained: true })])).toBeNull();
    expect(ask([heard(lead(), TOLD, { secondsAgo: 9 })])).toBeNull();
    expect(ask([{ ...heard(lead(), TOLD), ended: true }])).toBeNull();
    // Figures that do not fit their check.
    expect(ask([heard(lead(), { ...TOLD, hungFor: '098 224 1' })])).toBeNull();
    // An older version tells nothing of it.
    expect(ask([heard(lead(), null)])).toBeNull();
    // The lead itself takes nothing.
    const own: FlyingState = { ...two, flight: { ...two.flight, setup: { ...two.flight.setup, shipIndex: 0 } } };
    expect(ask([heard(lead(), TOLD)], own)).toBeNull();
  });

  it('is the newest word, in whatever order they come, and none while two devices of the lead differ', () => {
    const OTHER: Told = { ...TOLD, hungFor: `100 200 ${checkFigure('100200')}` };
    const newer = heard(lead(), TOLD, { secondsAgo: 1 });
    expect(heard(newer, OTHER, { secondsAgo: 3 })).toBe(newer);
    // A page loaded anew on the lead's tablet, and an echo of the one before.
    const again = heard(newer, OTHER, { secondsAgo: 0.5, boot: 'b2' });
    expect(ask([again])).not.toBeNull();
    const echo = heard(again, TOLD, { secondsAgo: 0.2, boot: 'b1' });
    expect(echo.last!.state.formation!.hungFor).toBe(OTHER.hungFor);
    expect(ask([newer, heard(lead('spare'), OTHER)])).toBeNull();
    expect(ask([newer, heard(lead('spare'), TOLD)])).not.toBeNull();
  });
});

describe('what a ship hears of the lead’s datum', () => {
  const askTime = (ships: readonly ShipSeen[], state: FlyingState = two, own: Parameters<typeof timeOfLead>[2] = OWN): FlightFact | null =>
    timeOfLead(ships, state, own, NOW);
  const later = (seconds: number): Told => ({ ...TOLD, datumInSeconds: datumInSeconds + seconds });

  it('is how much later it is, once, and that it is its own again', () => {
    const apart = askTime([heard(lead(), later(25))]);
    expect(apart).toEqual({ kind: 'leadTimed', laterSeconds: 25 });
    expect(askTime([heard(lead(), later(-25))])).toEqual({ kind: 'leadTimed', laterSeconds: -25 });
    const waits = after(two, apart!);
    expect(askTime([heard(lead(), later(25.4))], waits)).toBeNull();
    expect(askTime([heard(lead(), later(60))], waits)).toEqual({ kind: 'leadTimed', laterSeconds: 60 });
    expect(askTime([heard(lead(), later(1))], waits)).toEqual({ kind: 'leadTimed', laterSeconds: null });
    expect(after(waits, { kind: 'leadTimed', laterSeconds: null }).flight.formation!.leadTimed).toBeNull();
    // Hands are up to 2 s apart, and a message is a second on its way.
    expect([askTime([heard(lead(), later(4))]), askTime([heard(lead(), later(-4))])]).toEqual([null, null]);
  });

  it('is nothing without one lead that is there and tells one datum', () => {
    const waits = after(two, { kind: 'leadTimed', laterSeconds: 25 });
    for (const state of [two, waits]) {
      expect(askTime([], state)).toBeNull();
      expect(askTime([heard(lead(), later(40), { retained: true })], state)).toBeNull();
      expect(askTime([heard(lead(), later(40), { secondsAgo: 9 })], state)).toBeNull();
      expect(askTime([heard(lead('lead', 'b'.repeat(24)), later(40))], state)).toBeNull();
      expect(askTime([heard(lead(), { ...TOLD, datumInSeconds: null })], state)).toBeNull();
      expect(askTime([heard(lead(), later(40)), heard(lead('spare'), TOLD)], state)).toBeNull();
    }
    const own: FlyingState = { ...two, flight: { ...two.flight, setup: { ...two.flight.setup, shipIndex: 0 } } };
    expect(askTime([heard(lead(), later(25))], own)).toBeNull();
    const broken: FlyingState = { ...two, flight: { ...two.flight, formation: { ...two.flight.formation!, clockBroken: true } } };
    expect(askTime([heard(lead(), later(25))], broken)).toBeNull();
  });
});
