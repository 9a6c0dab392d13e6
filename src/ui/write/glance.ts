import { type CuePhase, type Cues, REASONS } from '../../core/guidance/cues.ts';
import type { FormationPart } from '../../core/guidance/formation/formation-progress.ts';
import type { Measure, UnitText } from '../../core/text/unit-text.ts';
import { feetFromMetres, poundsFromKilograms } from '../../core/units/quantity.ts';

/** The cues as a person reads them in half a second: words, figures, and nothing that is not to be trusted. */
export interface Glance {
  readonly phase: CuePhase;
  /** What kind of moment this is. */
  readonly title: string;
  /** `caution` and `warning` take the colours of their names. */
  readonly tone: 'plain' | 'caution' | 'warning';
  readonly turn: 'left' | 'right' | 'straight' | null;
  /** `45`; empty without a turn. */
  readonly bankText: string;
  /** Three figures, north is 360; empty when there is none. */
  readonly headingText: string;
  /** What the heading is for; one that is only passed, on a circle, is no order. */
  readonly headingUse: string;
  readonly smoke: 'on' | 'off' | null;
  /** `OFF in` while the smoke is on. */
  readonly countdownUse: string;
  /** `1:24`, then whole seconds, rounded up so that 1 lasts until the change. */
  readonly countdownText: string;
  /** Seconds left of the last five, 0 when further off. */
  readonly lastSeconds: number;
  /** Which way the line lies: where to go, not where one is. */
  readonly lineSide: 'left' | 'right' | 'here' | null;
  readonly lineText: string;
  /** From -1 to 1: where the line's mark stands, the aircraft being in the middle. */
  readonly lineShare: number;
  readonly strokeText: string;
  readonly letter: string;
  /** What comes after what is to be done now; empty when that is the smoke's change or not known. */
  readonly nextText: string;
  /** The next turn or line begins within the last five seconds. */
  readonly nextSoon: boolean;
  readonly oilText: string;
  readonly fixText: string;
  readonly windText: string;
  readonly because: string;
}

const TITLES: Readonly<Record<CuePhase, string>> = {
  standby: 'STAND BY',
  'run-in': 'RUN-IN',
  stroke: 'WRITING',
  reposition: 'REPOSITION',
  'go-around': 'PASS AGAIN',
  hold: 'HOLD',
  finished: 'FINISHED',
  'no-cue': 'NO CUE',
};

/** The line's mark reaches the end of its scale at this offset. */
const LINE_SCALE_METRES = 60;
/** Closer than this is on the line. */
const ON_LINE_METRES = 6;
const LAST_SECONDS = 5;

/** Three figures of a heading; north is 360. 4.6 degrees is `005`. */
export function headingFigures(degrees: number): string {
  const whole = ((Math.round(degrees) % 360) + 360) % 360;
  return String(whole === 0 ? 360 : whole).padStart(3, '0');
}

/** Seconds to a change: `1:24` from a minute on, whole seconds rounded up below. 0.2 s is `1`, 0 is `0`. */
export function countdownFigures(seconds: number): string {
  const whole = Math.max(0, Math.ceil(seconds - 1e-9));
  if (whole < 60) return String(whole);
  return `${Math.floor(whole / 60)}:${String(whole % 60).padStart(2, '0')}`;
}

/** The glance that follows from cues, in feet, knots and pounds until the chosen units are known; pure. */
export function glanceFrom(cues: Cues, units: UnitText | null = null): Glance {
  const { phase, turn, bankDegrees, smoke, smokeInSeconds, crossTrackMetres } = cues;
  const turning = turn === 'left' || turn === 'right';
  const heading = cues.headingMagneticDegrees;
  return {
    phase,
    title: titleOf(cues),
    tone: phase === 'no-cue' ? 'warning' : phase === 'go-around' ? 'caution' : 'plain',
    turn,
    bankText: turning && bankDegrees !== null ? String(Math.round(bankDegrees)) : '',
    headingText: heading === null ? '' : headingFigures(heading),
    headingUse: heading === null ? '' : turning ? (cues.because === REASONS.circlingForWind || cues.part === 'circling' ? 'passing' : 'roll out on') : 'write',
    smoke,
    countdownUse: smokeInSeconds === null ? '' : smoke === 'on' ? 'OFF in' : 'ON in',
    countdownText: smokeInSeconds === null ? '' : countdownFigures(smokeInSeconds),
    lastSeconds: smokeInSeconds === null || smokeInSeconds > LAST_SECONDS ? 0 : Math.max(0, Math.ceil(smokeInSeconds - 1e-9)),
    ...lineFrom(crossTrackMetres, units),
    strokeText: cues.strokeCount === 0 ? '' : `${cues.strokeNumber}/${cues.strokeCount}`,
    letter: cues.character ?? '',
    nextText: nextFrom(cues.next),
    nextSoon: cues.next !== null && cues.next.inSeconds <= LAST_SECONDS,
    oilText: ownText(units?.mass, poundsFromKilograms(cues.oilKilograms), 'lb'),
    fixText: cues.fixAgeSeconds === null ? 'none' : `${Math.max(0, cues.fixAgeSeconds).toFixed(0)} s`,
    windText:
      phase === 'no-cue' || cues.windFromDegrees === null || cues.windKnots === null
        ? ''
        : `${headingFigures(cues.windFromDegrees)}°T ${ownText(units?.speed, cues.windKnots, 'kt')}`,
    because: cues.because,
  };
}

/** A value of a unit of the job file as it is chosen to be written; in that unit while the choice is not known. */
export function ownText(measure: Measure | undefined, value: number, unit: string): string {
  return measure?.own(value) ?? `${Math.round(value)} ${unit}`;
}

/** What a ship of a formation is about has names of its own; on its timetable it is called as for a ship alone. */
const PART_TITLES: Readonly<Record<FormationPart, string | null>> = { joining: 'TO YOUR CIRCLE', circling: 'WAIT', timetable: null, leaving: 'WAY OUT' };

function titleOf({ phase, because, part }: Cues): string {
  if (phase === 'reposition' && because === REASONS.circlingForWind) return 'CIRCLE';
  if (phase === 'finished' && because === REASONS.knockedOff) return 'KNOCKED OFF';
  if (phase === 'finished' && because === REASONS.givenUp) return 'GIVEN UP';
  return (phase === 'reposition' && part !== null ? PART_TITLES[part] : null) ?? TITLES[phase];
}

/** Left of the line, the line lies right: the mark shows where to go. */
function lineFrom(crossTrackMetres: number | null, units: UnitText | null): Pick<Glance, 'lineSide' | 'lineText' | 'lineShare'> {
  if (crossTrackMetres === null) return { lineSide: null, lineText: '', lineShare: 0 };
  const lineShare = Math.min(1, Math.max(-1, -crossTrackMetres / LINE_SCALE_METRES)) + 0;
  if (Math.abs(crossTrackMetres) < ON_LINE_METRES) return { lineSide: 'here', lineText: 'on line', lineShare };
  const unit = units?.height.unit ?? 'ft';
  const off = Math.abs(units?.height.of(crossTrackMetres) ?? feetFromMetres(crossTrackMetres));
  const step = (unit === 'ft' ? 5 : 2) * (off < 1000 ? 1 : 10);
  const lineSide = crossTrackMetres > 0 ? 'left' : 'right';
  return { lineSide, lineText: `line ${Math.round(off / step) * step} ${unit} to your ${lineSide}`, lineShare };
}

function nextFrom(next: Cues['next']): string {
  if (next === null) return '';
  const words = next.turn === 'straight' ? 'straight' : next.turn;
  return `${words} ${headingFigures(next.headingMagneticDegrees)} · ${countdownFigures(next.inSeconds)}${next.inSeconds < 60 ? ' s' : ''}`;
}

/** The glance as a sentence, for assistive technology. */
export function glanceSentence(glance: Glance): string {
  const parts = [glance.title.toLowerCase()];
  if (glance.turn === 'left' || glance.turn === 'right') parts.push(`turn ${glance.turn}, bank ${glance.bankText} degrees`);
  if (glance.headingText !== '') parts.push(`${glance.headingUse} ${glance.headingText} magnetic`);
  if (glance.phase === 'no-cue') parts.push(glance.because, 'the smoke is yours');
  else if (glance.smoke !== null) parts.push(`smoke ${glance.smoke}`);
  return `${parts.join(', ')}.`;
}
