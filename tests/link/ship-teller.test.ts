import { beforeAll, describe, expect, it } from 'vitest';
import { siteFromGeodetic } from '../../src/core/earth/site-frame.ts';
import type { LinkFact } from '../../src/core/wire/link-messages.ts';
import { LINK_PAYLOAD_BYTES } from '../../src/core/wire/link-schemas.ts';
import { linkMessageFrom } from '../../src/core/wire/link-parse.ts';
import { cuesFrom } from '../../src/core/guidance/cues-from.ts';
import { createShipTeller, type ToldState } from '../../src/link/ship-teller.ts';
import { type DeskFlight, flyAtDesk } from '../flight/fly-at-desk.ts';
import { ordinaryWorld } from '../flight/ordinary-world.ts';
import { wordSetup } from '../flight/word-setup.ts';

const START = 1_900_000_000_000;
const { setup } = wordSetup('HI');
const facts: { readonly fact: LinkFact; readonly atMilliseconds: number }[] = [];
const states: ToldState[] = [];
const drifts: { readonly atSeconds: number; readonly eastMetres: number; readonly northMetres: number }[] = [];
let flight: DeskFlight;

beforeAll(() => {
  const teller = createShipTeller('rehearsal');
  let lookedAt = -1;
  flight = flyAtDesk(setup, ordinaryWorld(7, 2.5), {
    watch(state, simulation) {
      drifts.push({ atSeconds: simulation.atSeconds, eastMetres: simulation.driftEastMetres, northMetres: simulation.driftNorthMetres });
      if (simulation.atSeconds - lookedAt < 0.2) return;
      lookedAt = simulation.atSeconds;
      const now = START + simulation.atSeconds * 1000;
      const looked = teller.look(state, cuesFrom(state), now);
      facts.push(...looked.facts.map((fact) => ({ fact, atMilliseconds: now })));
      if (looked.told !== null) states.push(looked.told);
    },
  });
  facts.push(...teller.finish().map((fact) => ({ fact, atMilliseconds: START + flight.seconds * 1000 })));
});

describe('what a ship tells of a flight', () => {
  it('begins, names its datum once, and ends', () => {
    expect(facts[0]?.fact).toEqual({ kind: 'began', flightKind: 'rehearsal', shipIndex: 0, shipName: setup.shipName });
    expect(facts.filter(({ fact }) => fact.kind === 'datum')).toHaveLength(1);
    expect(facts.at(-1)?.fact).toEqual({ kind: 'ended' });
  });

  it('switches the smoke on and off in turn, once for each stroke, with its letter', () => {
    const switched = facts.flatMap(({ fact }) => (fact.kind === 'smoke' ? [fact] : []));
    expect(switched.map(({ smoke }) => smoke)).toEqual(Array.from({ length: 2 * setup.strokes.length }, (_, index) => (index % 2 === 0 ? 'on' : 'off')));
    expect(new Set(switched.map(({ character }) => character))).toEqual(new Set(['H', 'I']));
  });

  it('lays its smoke where the smoke truly is: half of it within 25 m, all of it within 120', () => {
    const laid = facts.flatMap(({ fact }) => (fact.kind === 'laid' ? [fact] : []));
    const told = laid.flatMap(({ fromMilliseconds, secondsAfter, latitudesDegrees, longitudesDegrees }) =>
      secondsAfter.map((seconds, index) => ({
        atSeconds: (fromMilliseconds - START) / 1000 + seconds,
        ...siteFromGeodetic({ latitudeDegrees: latitudesDegrees[index]!, longitudeDegrees: longitudesDegrees[index]! }, setup.layerHeightMetres, setup.site),
      })),
    );
    const truth = flight.simulation.trails.flat().map((puff) => {
      const drift = drifts.findLast(({ atSeconds }) => atSeconds <= puff.atSeconds) ?? drifts[0]!;
      return { eastMetres: puff.airEastMetres + drift.eastMetres, northMetres: puff.airNorthMetres + drift.northMetres };
    });
    const off = truth
      .map((puff) => Math.min(...told.map((point) => Math.hypot(point.eastMetres - puff.eastMetres, point.northMetres - puff.northMetres))))
      .sort((one, other) => one - other);
    expect(off.length).toBeGreaterThan(300);
    expect(off[Math.floor(off.length / 2)]).toBeLessThan(25);
    expect(off.at(-1)).toBeLessThan(120);
  });

  it('tells nothing that the other side would refuse', () => {
    const sender = { v: 1, device: 'lead', boot: 'b', sentAtMilliseconds: START };
    for (const [sequence, { fact, atMilliseconds }] of facts.entries()) {
      const text = JSON.stringify({ ...sender, sequence, atMilliseconds: Math.round(atMilliseconds), ...fact });
      expect(text.length).toBeLessThan(LINK_PAYLOAD_BYTES);
      expect(linkMessageFrom('quillwind/1/j/ship/lead/event', text)).toMatchObject({ ok: true });
    }
    for (const state of states) {
      const reading = linkMessageFrom('quillwind/1/j/ship/lead/state', JSON.stringify({ ...sender, eventCount: 0, ...state }));
      expect(reading).toMatchObject({ ok: true, value: { state } });
    }
  });

  it('has no position where the flight trusts none', () => {
    const teller = createShipTeller('flight');
    expect(teller.look({ phase: 'idle' }, cuesFrom({ phase: 'idle' }), START)).toEqual({ facts: [], told: null });
    expect(states[0]?.fix).toBeNull();
    expect(states.some(({ fix }) => fix !== null && fix.ageSeconds > 3)).toBe(false);
  });
});
