import type { Cues } from '../../../core/guidance/cues.ts';
import { signedDegrees } from '../../../core/units/angle.ts';
import type { SpokenWord } from '../../../sound/spoken-words.ts';
import { type BankGrade, bankGrade } from '../bank-grade.ts';

/** What the pilot is told to fly. */
export interface SpokenOrder {
  readonly turn: 'left' | 'right' | 'straight';
  /** Null on a heading. */
  readonly grade: BankGrade | null;
  /** Magnetic; to roll out on, or to hold. */
  readonly headingDegrees: number;
}

const FIGURES = ['zero', 'one', 'two', 'three', 'four', 'five', 'six', 'seven', 'eight', 'nine'] as const;

/** A heading figure by figure: 7 degrees is "zero zero seven", north "three six zero". */
export function headingWords(degrees: number): SpokenWord[] {
  const whole = ((Math.round(degrees) % 360) + 360) % 360;
  return [...String(whole === 0 ? 360 : whole).padStart(3, '0')].map((figure) => FIGURES[Number(figure)] ?? 'zero');
}

/** A height in hundreds of feet, figure by figure: 10,000 ft is "height one zero zero". */
export function heightWords(feet: number): SpokenWord[] {
  return ['height', ...[...String(Math.round(feet / 100))].map((figure) => FIGURES[Number(figure)] ?? 'zero')];
}

/** Behind the timetable, to the nearest five seconds, figure by figure: 43 s is "late four five". */
export function lateWords(seconds: number): SpokenWord[] {
  return ['late', ...[...String(5 * Math.round(seconds / 5))].map((figure) => FIGURES[Number(figure)] ?? 'zero')];
}

/** What the cues ask for now; null without a cue. */
export function orderNow({ turn, headingMagneticDegrees, bankDegrees }: Cues, told: SpokenOrder | null): SpokenOrder | null {
  if (turn === null || headingMagneticDegrees === null) return null;
  const toldGrade = told !== null && told.turn === turn ? told.grade : null;
  if (isSteered(turn, headingMagneticDegrees, told)) return { turn: 'straight', grade: null, headingDegrees: headingMagneticDegrees };
  return { turn, grade: turn === 'straight' ? null : bankGrade(bankDegrees ?? 0, toldGrade), headingDegrees: headingMagneticDegrees };
}

/** What they will ask for next; null when nothing comes. */
export function orderNext({ next }: Cues, told: SpokenOrder | null): (SpokenOrder & { readonly inSeconds: number }) | null {
  if (next === null) return null;
  const { headingMagneticDegrees, bankDegrees, inSeconds } = next;
  const turn = isSteered(next.turn, headingMagneticDegrees, told) ? 'straight' : next.turn;
  return { turn, grade: turn === 'straight' ? null : bankGrade(bankDegrees, null), headingDegrees: headingMagneticDegrees, inSeconds };
}

/** A turn from one heading to another so near is told as a heading: flown with less bank, 20 degrees of it take 5 s instead of 3. */
const STEERED_DEGREES = 15;

function isSteered(turn: SpokenOrder['turn'], headingDegrees: number, told: SpokenOrder | null): boolean {
  if (told === null || told.turn !== 'straight' || turn === 'straight') return false;
  const toRight = signedDegrees(headingDegrees - told.headingDegrees);
  return Math.abs(toRight) <= STEERED_DEGREES && toRight > 0 === (turn === 'right');
}

/** The words of an order: "left steep zero eight three"; "roll-out" is the end of a turn on the heading told with it. */
export function orderWords(order: SpokenOrder, told: SpokenOrder | null): SpokenWord[] {
  if (order.turn !== 'straight') return [order.turn, order.grade ?? 'medium', ...headingWords(order.headingDegrees)];
  const turning = told !== null && told.turn !== 'straight';
  if (turning && headingsApart(order, told) <= TOLD_DEGREES) return ['roll-out'];
  return [turning ? 'roll-out' : 'straight', ...headingWords(order.headingDegrees)];
}

/** A heading this near to the one told with the turn need not be said again at its end. */
const TOLD_DEGREES = 3;

/** Degrees between the headings of two orders, 0 to 180. */
export function headingsApart(one: SpokenOrder, other: SpokenOrder): number {
  return Math.abs(signedDegrees(one.headingDegrees - other.headingDegrees));
}
