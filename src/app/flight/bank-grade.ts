/** How steep a turn is, in a word that can be said. */
export type BankGrade = 'shallow' | 'medium' | 'steep';

/** What each word asks for: 15, 30 and 45 degrees of bank. */
export const GRADE_DEGREES: Readonly<Record<BankGrade, number>> = { shallow: 15, medium: 30, steep: 45 };

/** Halfway between two grades. */
const MEDIUM_FROM_DEGREES = 22.5;
const STEEP_FROM_DEGREES = 37.5;
/** A grade that was told stands until the bank is so far beyond its edge. */
const KEPT_DEGREES = 4;

/**
 * The grade nearest to a bank; the one told before stands until it is well left. The three words are those of the
 * FAA's Airplane Flying Handbook (FAA-H-8083-3C, chapter 3), which lets medium reach from 20 to 45 degrees; here each
 * stands for one bank, so that a pilot who only listens knows which to take.
 *
 * @param bankDegrees 0 or more
 */
export function bankGrade(bankDegrees: number, told: BankGrade | null): BankGrade {
  if (told !== null && Math.abs(bankDegrees - GRADE_DEGREES[told]) <= 7.5 + KEPT_DEGREES) return told;
  if (told === 'steep' && bankDegrees > GRADE_DEGREES.steep) return told;
  return bankDegrees < MEDIUM_FROM_DEGREES ? 'shallow' : bankDegrees < STEEP_FROM_DEGREES ? 'medium' : 'steep';
}
