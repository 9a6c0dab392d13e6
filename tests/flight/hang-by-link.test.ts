import { describe, expect, it } from 'vitest';
import { cuesFrom } from '../../src/core/guidance/cues-from.ts';
import type { FlightFact } from '../../src/core/guidance/flight-event.ts';
import { type FlyingState, type GuidanceState, initialState } from '../../src/core/guidance/guidance-state.ts';
import { canBeHung, leadHangsOtherwise } from '../../src/core/guidance/hanging/hung-alike.ts';
import { reduce } from '../../src/core/guidance/reduce.ts';
import { formationHungWords } from '../../src/ui/write/formation-hung-words.ts';
import { flyByFigures, type FormationSeen } from './hang-by-figures.ts';

/** Another place, kilometres away. */
const WIND = { eastMetresPerSecond: 9, northMetresPerSecond: -3 };
const BY_LINK: FlightFact = { kind: 'hangingGiven', wind: WIND, by: 'link' };

/** A ship's state when something first holds of it, and the rest of what its page logged. */
function when({ events }: FormationSeen, shipIndex: number, holds: (state: FlyingState) => boolean): FlyingState {
  let state: GuidanceState = initialState;
  for (const event of events[shipIndex]!) {
    state = reduce(state, event);
    if (state.phase !== 'idle' && holds(state)) return state;
  }
  throw new Error('it never held');
}

function after(state: FlyingState, fact: FlightFact): FlyingState {
  const { atSeconds, wallMilliseconds } = state.flight;
  return reduce(state, { ...fact, atSeconds, wallMilliseconds }) as FlyingState;
}

describe('three ships of which the lead hangs the word', () => {
  const briefed = flyByFigures('SPRING', 2, null);
  const formationOf = ({ flight }: FlyingState) => flight.formation!;

  it('hang it alike by the link without a touch, level, and apart', { timeout: 60_000 }, () => {
    const link = flyByFigures('SPRING', 2, { by: 'link' });
    expect(link).toMatchObject({ whole: true, alike: true });
    expect(Math.abs(link.leanDegrees)).toBeLessThan(6);
    expect(Math.abs(briefed.leanDegrees)).toBeGreaterThan(Math.abs(link.leanDegrees) + 4);
    expect(link.nearest?.metres ?? Infinity).toBeGreaterThan(300);
    expect(link.states.map((state) => (state.phase === 'idle' ? null : state.flight.formation?.hungBy))).toEqual(['hand', 'link', 'link']);
  });

  it('stay apart when it is refused, and none leaves its circle before all hang it alike again', { timeout: 60_000 }, () => {
    const refused = flyByFigures('SPRING', 2, { by: 'link', refusedBy: 1 });
    expect(refused).toMatchObject({ whole: true, alike: true });
    expect(refused.nearest?.metres ?? Infinity).toBeGreaterThan(300);
  });

  it('go from the layer to their own height and then to the new circle', { timeout: 60_000 }, () => {
    const atLayer = when(briefed, 1, (state) => formationOf(state).part === 'circling' && formationOf(state).toLayerSinceSeconds !== null);
    const told = after(atLayer, BY_LINK);
    expect(told.flight.hanging).toBe(atLayer.flight.hanging);
    expect(formationOf(told)).toMatchObject({ part: 'circling', toLayerSinceSeconds: null, wanted: { wind: WIND, by: 'link' } });
    expect(cuesFrom(told)).toMatchObject({
      heightFeet: Math.round(told.flight.setup.formation!.ownHeightMetres / 0.3048),
      because: 'lead hangs it elsewhere: wait',
    });
    expect(formationHungWords(told, '')).toMatchObject({
      hung: 'as briefed',
      more: expect.stringContaining('ft first'),
      touch: { label: 'Refuse: as briefed' },
    });
    // Not before it is there: 500 ft up at 600 ft a minute, and 8 s until it is begun.
    const ticked = (seconds: number): FlyingState =>
      reduce(told, {
        kind: 'clockAdvanced',
        atSeconds: told.flight.atSeconds + seconds,
        wallMilliseconds: told.flight.wallMilliseconds + seconds * 1000,
      }) as FlyingState;
    expect(ticked(0.4).flight.movedEastMetres).toBe(0);
    const waited: FlyingState = { ...told, flight: { ...told.flight, formation: { ...formationOf(told), offLayerAtSeconds: told.flight.atSeconds + 0.3 } } };
    const there = reduce(waited, {
      kind: 'clockAdvanced',
      atSeconds: told.flight.atSeconds + 0.4,
      wallMilliseconds: told.flight.wallMilliseconds + 400,
    }) as FlyingState;
    expect(there.flight.hanging).toMatchObject({ kind: 'found-wind', wind: WIND });
    expect(formationOf(there)).toMatchObject({ part: 'joining', wanted: null, hungBy: 'link' });
  });

  it('are told by the lead’s word once they are among the others, and keep what they fly', { timeout: 60_000 }, () => {
    const underWay = when(briefed, 1, (state) => formationOf(state).part === 'timetable' && state.phase === 'repositioning');
    const told = after(underWay, BY_LINK);
    expect(told.flight.movedEastMetres).toBe(underWay.flight.movedEastMetres);
    expect(formationOf(told).part).toBe('timetable');
    expect(formationHungWords(told, '')).toMatchObject({
      apart: true,
      touch: null,
      typed: { allowed: false },
      more: expect.stringContaining('HOLD, then yours goes there'),
    });
    // Figures typed there are nothing at all.
    expect(after(underWay, { kind: 'hangingGiven', wind: WIND })).toBe(underWay);
    // With HOLD it leaves the timetable, and hangs it on its way back.
    expect(after(told, { kind: 'held' }).flight.hanging).toMatchObject({ wind: WIND });

    const smoking = when(briefed, 1, (state) => state.phase === 'onStroke');
    const toldSmoking = after(smoking, BY_LINK);
    expect(toldSmoking).toMatchObject({ phase: 'onStroke', flight: { movedEastMetres: smoking.flight.movedEastMetres } });
    expect(formationHungWords(toldSmoking, '')).toMatchObject({ apart: true, more: expect.stringContaining('your smoke stays') });
    // On its circle again, with smoke in the air, it neither moves the word nor goes among the others.
    const back = after(toldSmoking, { kind: 'held' });
    expect(canBeHung(back)).toBe(false);
    expect(back.flight.movedEastMetres).toBe(smoking.flight.movedEastMetres);
    expect(leadHangsOtherwise(back.flight)).toBe(true);
  });

  it('are hung by a touch of the lead only while by the plan no other leaves its circle before it can hear of it', { timeout: 60_000 }, () => {
    const FOUND = '098 224 0';
    const first = (state: FlyingState): number => Math.min(...state.flight.setup.formation!.others.map(({ legs }) => legs[0]!.startSeconds));
    const before = (seconds: number): FlyingState =>
      when(briefed, 0, (state) => state.flight.datumAtSeconds !== null && state.flight.atSeconds > state.flight.datumAtSeconds + first(state) - seconds);
    const early = before(90);
    expect(formationHungWords(early, FOUND)?.touch?.label).toBe('Hang it');
    const late = before(50);
    expect(formationHungWords(late, FOUND)).toMatchObject({ touch: null, typed: { allowed: false, words: expect.stringContaining('another first smoke') } });
    // Where it hangs elsewhere by then it may still go back to where the others are.
    const elsewhere = after(late, { kind: 'hangingGiven', wind: WIND });
    const { formation } = elsewhere.flight;
    const there = { ...elsewhere, flight: { ...elsewhere.flight, hanging: { ...after(early, BY_LINK).flight.hanging! }, formation } } as FlyingState;
    expect(formationHungWords({ ...there, flight: { ...there.flight, formation: { ...formation!, wanted: null, lead: null } } }, FOUND)?.touch?.label).toBe(
      'As briefed',
    );
  });

  it('keep what the lead told when a touch is undone', { timeout: 60_000 }, () => {
    const circling = when(briefed, 1, (state) => formationOf(state).part === 'circling' && formationOf(state).toLayerSinceSeconds === null);
    const told = after(after(circling, { kind: 'held' }), BY_LINK);
    const undone = after(told, { kind: 'lastTouchUndone' });
    expect(undone.flight.hanging).toMatchObject({ wind: WIND });
    expect(undone.flight.movedEastMetres).toBe(told.flight.movedEastMetres);
    expect(leadHangsOtherwise(undone.flight)).toBe(false);
    // Refused, it waits on its circle and says so; as the lead again, it goes on.
    const refused = after(told, { kind: 'hangingGiven', wind: null, by: 'refusal' });
    expect(leadHangsOtherwise(refused.flight)).toBe(true);
    expect(formationHungWords(refused, '')).toMatchObject({ hung: 'as briefed', apart: true, touch: { label: 'As lead' } });
    expect(leadHangsOtherwise(after(refused, formationHungWords(refused, '')!.touch!.fact).flight)).toBe(false);
  });
});
