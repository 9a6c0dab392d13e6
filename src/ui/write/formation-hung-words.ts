import type { FlightFact } from '../../core/guidance/flight-event.ts';
import type { HungFor } from '../../core/guidance/formation/formation-progress.ts';
import { heightChangeSeconds } from '../../core/guidance/formation/height-change.ts';
import type { Flight, GuidanceState } from '../../core/guidance/guidance-state.ts';
import { canBeHung, hangsFor, leadHangsOtherwise } from '../../core/guidance/hanging/hung-alike.ts';
import { type UnitText, unitText } from '../../core/text/unit-text.ts';
import { figuresFromWind, windFromFigures } from '../../core/wire/hanging-figures.ts';

/** Where a formation's ship hangs its word, as its pilot reads it. */
export interface FormationHungWords {
  /** `as briefed` or `for 098 224 0`. */
  readonly hung: string;
  /** The rest of the line: who said it, what is in the way of it. */
  readonly more: string;
  /** Two ships hang it apart: to be told as a caution. */
  readonly apart: boolean;
  /** The one touch beside the line; null where there is none. */
  readonly touch: { readonly label: string; readonly fact: Extract<FlightFact, { kind: 'hangingGiven' }> } | null;
  /** What figures typed now would mean, or why they can no longer be hung. */
  readonly typed: { readonly allowed: boolean; readonly words: string };
}

/** A way to the new circle and a round of it. */
const TO_NEW_CIRCLE_SECONDS = 150;
/** From the lead's touch until the last of the others has heard it, or has typed it from the radio. */
const ALL_HEAR_SECONDS = 60;
const AS_BRIEFED = 'as briefed';

/**
 * The line of where the word hangs; null where it is as all hang it and cannot be changed any more.
 *
 * @param found the wind that a lead has found on its circle, as figures; empty before, and on other ships
 */
export function formationHungWords(state: GuidanceState, found: string, units: UnitText = unitText()): FormationHungWords | null {
  if (state.phase === 'idle' || state.phase === 'finished' || state.flight.formation === null) return null;
  const { flight } = state;
  const { hanging, setup } = flight;
  const { lead, wanted, hungBy, toLayerSinceSeconds } = state.flight.formation;
  const can = canBeHung(state);
  const apart = leadHangsOtherwise(flight);
  if (!can && !apart) return null;
  const hung = hungWords({ wind: hanging === null || hanging.kind === 'as-briefed' ? null : hanging.wind });
  const own = units.height.text(setup.formation?.ownHeightMetres ?? 0);
  const refuse = { label: 'Refuse: as briefed', fact: { kind: 'hangingGiven', wind: null, by: 'refusal' } } as const;
  const leads = lead === null ? '' : hungWords(lead);
  const asLead = lead === null ? null : ({ label: 'As lead', fact: { kind: 'hangingGiven', wind: lead.wind } } as const);
  const line = (more: string, touch: FormationHungWords['touch']): FormationHungWords => ({ hung, more, apart, touch, typed: typedWords(flight, can, own) });
  if (!can) {
    const smoked = flight.smokeCuedAtSeconds !== null || flight.smokedSeconds > 0;
    return line(`. Lead hangs it ${leads}: ${smoked ? 'your smoke stays, ask lead' : 'HOLD, then yours goes there'}`, null);
  }
  if (wanted !== null)
    return line(`, then ${hungWords(wanted)}: ${toLayerSinceSeconds === null ? `${own} first` : 'circle first'}`, wanted.by === 'link' ? refuse : null);
  if (apart) return line(`. Lead hangs it ${leads}: you wait on your circle`, asLead);
  if (setup.shipIndex === 0 && othersGoAt(flight) < flight.atSeconds) {
    // Going back to where the others are is always right.
    const back = hung === AS_BRIEFED ? null : ({ label: 'As briefed', fact: { kind: 'hangingGiven', wind: null } } as const);
    const typed = { allowed: false, words: 'Too late: others leave their circles. Call another first smoke, then hang it' };
    return { ...line('', back), typed };
  }
  if (hungBy === 'link') return line(' by lead', hanging?.kind === 'as-briefed' ? null : refuse);
  const read = windFromFigures(found);
  if (!read.ok || hangsFor(flight, read)) return line('', null);
  return line(`. Found ${found}: say it`, { label: 'Hang it', fact: { kind: 'hangingGiven', wind: read.wind } });
}

/** By the plan, when the first of the other ships leaves its circle, less the time that all take to hear where it hangs; monotonic. */
function othersGoAt({ setup, datumAtSeconds }: Flight): number {
  const leave = Math.min(...(setup.formation?.others ?? []).flatMap(({ legs }) => legs[0]?.startSeconds ?? []));
  return (datumAtSeconds ?? Infinity) + leave - ALL_HEAR_SECONDS;
}

function hungWords({ wind }: HungFor): string {
  return wind === null ? AS_BRIEFED : `for ${figuresFromWind(wind)}`;
}

/** From the layer a ship goes back to its own height first, and so into a later window of its timetable, if one is left. */
function typedWords({ formation, setup, datumAtSeconds, atSeconds }: Flight, can: boolean, own: string): FormationHungWords['typed'] {
  if (!can) return { allowed: false, words: 'You are among the others: touch HOLD first, then hang it from your circle' };
  if (formation?.toLayerSinceSeconds == null || setup.formation === undefined || datumAtSeconds === null) return { allowed: true, words: '' };
  const { entries, ownHeightMetres } = setup.formation;
  const backSeconds = heightChangeSeconds(setup.layerHeightMetres, ownHeightMetres) + heightChangeSeconds(ownHeightMetres, setup.layerHeightMetres);
  const readyAtSeconds = atSeconds + backSeconds + TO_NEW_CIRCLE_SECONDS;
  const [first] = entries;
  const left = first?.windows.some(({ toSeconds }) => datumAtSeconds + first.leaveSeconds + toSeconds > readyAtSeconds);
  return left === true
    ? { allowed: true, words: `From the layer you go back to ${own} and to a new circle first: about ${Math.ceil((readyAtSeconds - atSeconds) / 60)} min` }
    : { allowed: false, words: `Too late: no safe time would be left. Lead calls another first smoke, or all hang it as you do` };
}
