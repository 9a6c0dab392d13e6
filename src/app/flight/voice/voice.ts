import { type Cues, REASONS } from '../../../core/guidance/cues.ts';
import { announcementSeconds } from '../../../sound/announcement-seconds.ts';
import { SPOKEN_SECONDS, spokenSeconds, type SpokenWord } from '../../../sound/spoken-words.ts';
import { GRADE_DEGREES } from '../bank-grade.ts';
import { type Announcement, type SpokenEvent, spokenEvents } from './spoken-event.ts';
import type { OrderSaid } from './speaker-types.ts';
import { headingsApart, lateWords, orderNext, orderNow, orderWords, type SpokenOrder } from './spoken-order.ts';

/** What has been said, and what the pilot has been told by it. */
export interface Voice {
  readonly cues: Cues;
  /** Of the last announcement, from 1; 0 before the first. */
  readonly number: number;
  readonly announcement: Announcement | null;
  readonly beganAtSeconds: number;
  readonly endsAtSeconds: number;
  /** What the pilot was told to fly; null after a blank. */
  readonly told: SpokenOrder | null;
  /** Told before it is due: until then the cues may still show what goes before. */
  readonly dueAtSeconds: number;
  /** What was said to come next; null when it was not, or has come. */
  readonly toldNext: SpokenOrder | null;
  readonly waiting: readonly SpokenEvent[];
  /** The lowest number of this countdown that was said or has passed; 4 before the first. */
  readonly counted: number;
  /** How late the pilot was told to be, and when; null before. */
  readonly toldLate: { readonly seconds: number; readonly atSeconds: number } | null;
  /** The order of now as it differs from what was told, and since when; null while it does not. */
  readonly differs: { readonly order: SpokenOrder; readonly sinceSeconds: number } | null;
}

/** A pause that lets two announcements be told apart. */
const PAUSE_SECONDS = 0.1;
const COUNT_FROM = 3;
/** A number of the countdown is said so much late at most, else left out. */
const COUNT_LATE_SECONDS = 0.25;
/** The cue for the smoke comes this much before its hand's time at least. */
const SMOKE_LEAD_SECONDS = 0.4;
/** Told ahead of its time, an order is waited for so long before the cues are read again. */
const OVERDUE_SECONDS = 1.5;
/** A heading that moved less is left alone: on a line under smoke and before it, and elsewhere. */
const STEERED_DEGREES = 4;
const MOVED_DEGREES = 5;
const TURN_MOVED_DEGREES = 12;
const STEADY_SECONDS = 0.3;
/** A turn or its end must be asked for by so long before it is said, where nothing foretold it. */
const ASKED_SECONDS = 0.25;
/** With less than this to the next turn a heading is left alone: saying it would make the turn late. */
const TURN_SOON_SECONDS = 4.5;
/** What comes next is said when it comes within so long. */
const NEXT_WITHIN_SECONDS = 12;

/** Less is not worth a word; nor is a change of it so soon. */
const LATE_SECONDS = 10;
const LATE_AGAIN_SECONDS = 30;

/** Before anything was said. */
export function silentVoice(cues: Cues): Voice {
  return {
    cues,
    number: 0,
    announcement: null,
    beganAtSeconds: -Infinity,
    endsAtSeconds: -Infinity,
    told: null,
    dueAtSeconds: -Infinity,
    toldNext: null,
    waiting: [],
    counted: COUNT_FROM + 1,
    toldLate: null,
    differs: null,
  };
}

/** Another ship is close: said next, before all but what was waiting already. */
export function withClose(voice: Voice): Voice {
  return { ...voice, waiting: [...voice.waiting, { tone: 'no-cue', words: ['close'], rank: 0, holds: () => true }] };
}

/** The order that was begun to be said between two moments, as a fact for the guidance; null where none was. */
export function orderSaid(before: Voice | null, voice: Voice): OrderSaid | null {
  const { told, announcement } = voice;
  if (told === null || told === before?.told || announcement === null) return null;
  return {
    kind: 'orderSaid',
    turn: told.turn,
    headingMagneticDegrees: told.headingDegrees,
    bankDegrees: told.grade === null ? 0 : GRADE_DEGREES[told.grade],
    endsAtSeconds: voice.endsAtSeconds,
  };
}

/** The contract's value: the running number, a space, the words; empty before the first announcement. */
export function voiceValue({ number, announcement }: Voice): string {
  return announcement === null ? '' : `${number} ${announcement.words.join(' ')}`;
}

/**
 * The voice a moment later: what it begins to say now, if anything, is its announcement with a new number. It says one
 * thing at a time and as little as leads a pilot who only listens: no cue and smoke first, which break in at the end of
 * a word; then the countdown to the smoke; then what the flight is about; then turns, said so that the last word falls
 * when the hand should move; then headings that moved; then what comes next, where there is time for it.
 *
 * @param atSeconds of the flight's own clock
 */
export function voiceAfter(voice: Voice, cues: Cues, atSeconds: number): Voice {
  const seen = heard(voice, cues, atSeconds);
  const blank = cues.phase === 'no-cue' || cues.phase === 'standby';
  return urgent(seen, atSeconds) ?? (blank ? occasion(seen, atSeconds) : plain(seen, cues, atSeconds)) ?? seen;
}

/** Takes in the cues: what waits to be said, what no longer holds. */
function heard(voice: Voice, cues: Cues, atSeconds: number): Voice {
  const late = lateNews(voice, cues, atSeconds);
  const toldLate = late === null ? voice.toldLate : { seconds: cues.lateSeconds ?? 0, atSeconds };
  const waiting = [...voice.waiting, ...spokenEvents(voice.cues, cues), ...(late ?? [])].filter(({ holds }) => holds(cues));
  const blank = cues.phase === 'no-cue' || cues.phase === 'standby' || cues.phase === 'hold' || cues.phase === 'finished';
  const restarts = cues.smokeInSeconds === null || cues.smoke !== voice.cues.smoke || cues.smokeInSeconds > COUNT_FROM + COUNT_LATE_SECONDS;
  const kept = blank && cues.turn === null ? { told: null, toldNext: null, dueAtSeconds: -Infinity } : {};
  const next = { ...voice, ...kept, cues, waiting, toldLate, counted: restarts ? COUNT_FROM + 1 : voice.counted };
  return { ...next, differs: difference(next, atSeconds) };
}

/** A ship that is late, or later than it was told, hears by how much: before a stroke, never under smoke. */
function lateNews({ toldLate }: Voice, { lateSeconds, phase }: Cues, atSeconds: number): readonly SpokenEvent[] | null {
  const laterBy = (lateSeconds ?? 0) - (toldLate?.seconds ?? 0);
  if (lateSeconds === null || phase === 'stroke' || laterBy < LATE_SECONDS || atSeconds < (toldLate?.atSeconds ?? -Infinity) + LATE_AGAIN_SECONDS) return null;
  return [{ tone: 'hold', words: lateWords(lateSeconds), rank: 2, holds: (cues) => Math.abs((cues.lateSeconds ?? 0) - lateSeconds) < LATE_SECONDS }];
}

/** How the order of now differs from what was told, while what was told ahead is not awaited. */
function difference(voice: Voice, atSeconds: number): Voice['differs'] {
  const order = orderNow(voice.cues, voice.told);
  const { told, cues } = voice;
  if (order === null) return null;
  const awaited = told !== null && order.turn !== told.turn && atSeconds < voice.dueAtSeconds + OVERDUE_SECONDS;
  if (awaited) return null;
  if (told !== null && told.turn === order.turn) {
    const apart = headingsApart(order, told);
    const steered = cues.phase === 'stroke' || cues.phase === 'run-in';
    const news = order.turn === 'straight' ? apart >= (steered ? STEERED_DEGREES : MOVED_DEGREES) : apart >= TURN_MOVED_DEGREES;
    if (cues.because === REASONS.circlingForWind || (!news && order.grade === told.grade)) return null;
  }
  const same = voice.differs !== null && voice.differs.order.turn === order.turn && headingsApart(voice.differs.order, order) < STEERED_DEGREES;
  return { order, sinceSeconds: same ? (voice.differs?.sinceSeconds ?? atSeconds) : atSeconds };
}

/** No cue, and the smoke: at the end of the word that is being said. */
function urgent(voice: Voice, atSeconds: number): Voice | null {
  const event = voice.waiting.find(({ rank }) => rank === 0);
  if (event === undefined || atSeconds < wordEndSeconds(voice, atSeconds)) return null;
  return begun({ ...voice, waiting: voice.waiting.filter((one) => one !== event), counted: COUNT_FROM + 1 }, event, atSeconds);
}

/** When the word that is being said ends; now while nothing is. */
function wordEndSeconds({ announcement, beganAtSeconds, endsAtSeconds }: Voice, atSeconds: number): number {
  if (announcement === null || atSeconds >= endsAtSeconds) return atSeconds;
  let endSeconds = endsAtSeconds;
  for (const word of [...announcement.words].reverse()) {
    const startSeconds = endSeconds - SPOKEN_SECONDS[word];
    // A tick that falls just after a word's beginning counts as its end: the clip that has not begun is left out.
    if (startSeconds <= atSeconds) return atSeconds - startSeconds < 0.1 ? atSeconds : endSeconds;
    endSeconds = startSeconds;
  }
  return Math.max(atSeconds, beganAtSeconds);
}

function plain(voice: Voice, cues: Cues, atSeconds: number): Voice | null {
  if (atSeconds < voice.endsAtSeconds + PAUSE_SECONDS) return passedCount(voice);
  return (
    count(voice, atSeconds) ?? occasion(voice, atSeconds) ?? orderDue(voice, cues, atSeconds) ?? moved(voice, atSeconds) ?? comingNext(voice, cues, atSeconds)
  );
}

/** A number whose moment passed while something else was said is left out. */
function passedCount(voice: Voice): Voice | null {
  const { smokeInSeconds } = voice.cues;
  if (smokeInSeconds === null) return null;
  const passed = Math.ceil(smokeInSeconds + COUNT_LATE_SECONDS - 1e-9);
  return passed < voice.counted && passed >= 1 && passed <= COUNT_FROM && smokeInSeconds < passed - COUNT_LATE_SECONDS ? { ...voice, counted: passed } : null;
}

const NUMBERS = { 3: 'three', 2: 'two', 1: 'one' } as const satisfies Record<number, SpokenWord>;

/** The countdown to the hand's moment. */
function count(voice: Voice, atSeconds: number): Voice | null {
  const { smokeInSeconds } = voice.cues;
  if (smokeInSeconds === null) return null;
  for (const number of [1, 2, 3] as const) {
    if (number < voice.counted && smokeInSeconds <= number + 1e-9 && smokeInSeconds > number - COUNT_LATE_SECONDS) {
      return begun({ ...voice, counted: number }, { tone: null, words: [NUMBERS[number]] }, atSeconds);
    }
  }
  return null;
}

function occasion(voice: Voice, atSeconds: number): Voice | null {
  const event = voice.waiting.find(({ rank }) => rank === 2);
  if (event === undefined || atSeconds < voice.endsAtSeconds + PAUSE_SECONDS || !fits(voice, event)) return null;
  return begun({ ...voice, waiting: voice.waiting.filter((one) => one !== event) }, event, atSeconds);
}

/** Whether something ends before the countdown begins, or within it where a gap is long enough. */
function fits({ cues: { smokeInSeconds }, counted }: Voice, announcement: Announcement): boolean {
  if (smokeInSeconds === null) return true;
  const left = smokeInSeconds - announcementSeconds(announcement) - PAUSE_SECONDS;
  if (left >= COUNT_FROM) return true;
  // Two may be left out for a turn; three and one may not.
  const needed = smokeInSeconds > COUNT_FROM && counted > COUNT_FROM ? COUNT_FROM : smokeInSeconds > 1 ? 1 : SMOKE_LEAD_SECONDS;
  return left >= needed;
}

/** A turn or a roll-out that is due, or was missed. */
function orderDue(voice: Voice, cues: Cues, atSeconds: number): Voice | null {
  const next = orderNext(cues, voice.told);
  if (next !== null && isNews(next, voice.told) && orderNow(cues, voice.told)?.turn === voice.told?.turn) {
    const full = orderWords(next, voice.told);
    const short = shortened(next, voice.toldNext) ?? full;
    // Said early rather than never, where the smoke's countdown would fall into it.
    const words = fits(voice, { tone: null, words: short === full ? full : short }) ? short : null;
    if (words !== null && next.inSeconds <= spokenSeconds(words) + PAUSE_SECONDS) return ordered(voice, next, words, atSeconds, atSeconds + next.inSeconds);
  }
  const { differs } = voice;
  if (differs === null) return null;
  const turned = voice.told === null || differs.order.turn !== voice.told.turn;
  if (!turned) return null;
  // A way looked at for a moment is no order; under smoke and before the first order there is no time to wait.
  const steady = voice.told === null || cues.phase === 'stroke' || atSeconds - differs.sinceSeconds >= ASKED_SECONDS;
  if (!steady) return null;
  const { order } = differs;
  const circling = cues.because === REASONS.circlingForWind && order.turn !== 'straight';
  const full: SpokenWord[] = circling ? ['circle', order.turn === 'left' ? 'left' : 'right', order.grade ?? 'medium'] : orderWords(order, voice.told);
  for (const words of [shortened(order, voice.toldNext), full, full.slice(0, 2)]) {
    if (words !== null && fits(voice, { tone: null, words })) return ordered(voice, order, words, atSeconds, atSeconds);
  }
  return null;
}

/** Another turn than was told, or another heading to hold. */
function isNews(next: SpokenOrder, told: SpokenOrder | null): boolean {
  return told === null || next.turn !== told.turn || (next.turn === 'straight' && headingsApart(next, told) >= STEERED_DEGREES);
}

/** The turn alone, where everything of it was told by "next". */
function shortened(order: SpokenOrder, toldNext: SpokenOrder | null): SpokenWord[] | null {
  if (toldNext === null || toldNext.turn !== order.turn || order.turn === 'straight') return null;
  return headingsApart(order, toldNext) <= STEERED_DEGREES && order.grade === toldNext.grade ? [order.turn] : null;
}

/** A heading, a roll-out or a bank that moved and stays so. */
function moved(voice: Voice, atSeconds: number): Voice | null {
  const { differs, told: before } = voice;
  if (differs === null || before === null || differs.order.turn !== before.turn || atSeconds - differs.sinceSeconds < STEADY_SECONDS) return null;
  const order = orderNow(voice.cues, before) ?? differs.order;
  const onlyBank = order.turn !== 'straight' && order.grade !== null && headingsApart(order, before) < TURN_MOVED_DEGREES;
  const words: SpokenWord[] = onlyBank ? [order.turn, order.grade] : orderWords(order, order.turn === 'straight' ? order : before);
  const next = orderNext(voice.cues, voice.told);
  const turnsSoon = next !== null && next.turn !== 'straight' && order.turn === 'straight' && next.inSeconds < TURN_SOON_SECONDS;
  if (!fits(voice, { tone: null, words }) || turnsSoon || (next !== null && next.inSeconds < spokenSeconds(words) + 1)) return null;
  // What was told to come next still does.
  return { ...ordered(voice, order, words, atSeconds, atSeconds), toldNext: voice.toldNext };
}

/** A turn that comes next, while there is time to say it and then the turn itself. */
function comingNext(voice: Voice, cues: Cues, atSeconds: number): Voice | null {
  const next = orderNext(cues, voice.told);
  if (next === null || next.turn === 'straight' || cues.phase === 'go-around' || next.inSeconds > NEXT_WITHIN_SECONDS || voice.differs !== null) return null;
  if (voice.toldNext !== null && voice.toldNext.turn === next.turn) return null;
  const words: SpokenWord[] = ['next', ...orderWords(next, null)];
  const seconds = spokenSeconds(words) + PAUSE_SECONDS;
  if (next.inSeconds < seconds + 1 || !fits(voice, { tone: null, words })) return null;
  return begun({ ...voice, toldNext: next }, { tone: null, words }, atSeconds);
}

function ordered(voice: Voice, order: SpokenOrder, words: readonly SpokenWord[], atSeconds: number, dueAtSeconds: number): Voice {
  return begun({ ...voice, told: order, dueAtSeconds, toldNext: null, differs: null }, { tone: null, words }, atSeconds);
}

function begun(voice: Voice, { tone, words }: Announcement, atSeconds: number): Voice {
  const announcement = { tone, words };
  return { ...voice, number: voice.number + 1, announcement, beganAtSeconds: atSeconds, endsAtSeconds: atSeconds + announcementSeconds(announcement) };
}
