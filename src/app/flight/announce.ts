import type { Cues } from '../../core/guidance/cues.ts';
import { signedDegrees } from '../../core/units/angle.ts';
import type { ToneName } from '../../sound/cue-tones.ts';
import type { SpokenWord } from '../../sound/spoken-words.ts';

/** A signal and the words after it. */
export interface Announcement {
  readonly tone: ToneName | null;
  readonly words: readonly SpokenWord[];
}

/** What was announced last, so that a way solved anew at each fix is not read out each time. */
export interface AnnounceMemory {
  readonly cues: Cues;
  readonly saidTurn: Cues['turn'];
  readonly saidHeadingDegrees: number | null;
}

const READY_SECONDS = 5;
const COUNTED_SECONDS = [3, 2, 1] as const;
/** A heading that moved less since it was said is left to the eye. */
const SAID_AGAIN_DEGREES = 15;

const FIGURES = ['zero', 'one', 'two', 'three', 'four', 'five', 'six', 'seven', 'eight', 'nine'] as const;

/** Before anything was announced. */
export function announceNothing(cues: Cues): AnnounceMemory {
  return { cues, saidTurn: null, saidHeadingDegrees: null };
}

/**
 * What to sound for new cues, at most one announcement at a time: first what ends or begins the smoke, then what
 * kind of moment this is, then where to turn, then the countdown.
 */
export function announce(memory: AnnounceMemory, cues: Cues): { readonly memory: AnnounceMemory; readonly announcement: Announcement | null } {
  const before = memory.cues;
  const heading = headingToSay(memory, cues);
  const height = heightToSay(before, cues);
  const saying: AnnounceMemory = { cues, saidTurn: cues.turn, saidHeadingDegrees: cues.headingMagneticDegrees };
  const silent: AnnounceMemory = { ...memory, cues };

  if (cues.phase === 'no-cue' || cues.phase === 'standby') {
    const lost = cues.phase === 'no-cue' && before.phase !== 'no-cue';
    if (lost) return { memory: announceNothing(cues), announcement: { tone: 'no-cue', words: ['no-cue', ...height] } };
    return { memory: announceNothing(cues), announcement: height.length > 0 ? { tone: 'no-cue', words: height } : null };
  }
  if (cues.smoke === 'on' && before.smoke !== 'on') return { memory: saying, announcement: { tone: 'smoke-on', words: ['smoke-on'] } };
  if (cues.smoke === 'off' && before.smoke === 'on') {
    return { memory: saying, announcement: { tone: 'smoke-off', words: ['smoke-off', ...wordsOfPhase(cues), ...height, ...heading] } };
  }
  if (cues.phase !== before.phase) {
    const tone = toneOfPhase(cues);
    if (tone !== null) return { memory: saying, announcement: { tone, words: [...wordsOfPhase(cues), ...height, ...heading] } };
  }
  // Out of the plan, or up to it: the height before the turn.
  const formation = [...height, ...partToSay(before, cues)];
  if (formation.length > 0) return { memory: saying, announcement: { tone: 'hold', words: [...formation, ...heading] } };
  if (heading.length > 0 && cues.turn !== null) return { memory: saying, announcement: { tone: cues.turn, words: heading } };
  return { memory: silent, announcement: countdown(before, cues) };
}

function toneOfPhase({ phase }: Cues): ToneName | null {
  return phase === 'go-around' || phase === 'hold' || phase === 'finished' ? phase : null;
}

function wordsOfPhase({ phase }: Cues): SpokenWord[] {
  return phase === 'go-around' || phase === 'hold' || phase === 'finished' ? [phase] : [];
}

/** The turn and its heading in figures, when either is news. */
function headingToSay({ saidTurn, saidHeadingDegrees }: AnnounceMemory, { turn, headingMagneticDegrees }: Cues): SpokenWord[] {
  if (turn === null || headingMagneticDegrees === null) return [];
  const moved = saidHeadingDegrees === null || Math.abs(signedDegrees(headingMagneticDegrees - saidHeadingDegrees)) >= SAID_AGAIN_DEGREES;
  if (turn === saidTurn && !moved) return [];
  return [turn, ...headingWords(headingMagneticDegrees)];
}

/** A heading figure by figure: 7 degrees is "zero zero seven", north "three six zero". */
export function headingWords(degrees: number): SpokenWord[] {
  const whole = Math.round(degrees) % 360;
  return [...String(whole === 0 ? 360 : whole).padStart(3, '0')].map((figure) => FIGURES[Number(figure)] ?? 'zero');
}

/** A new height to hold, figure by figure in hundreds: 10,000 ft is "height one zero zero". */
function heightToSay({ heightFeet: before }: Cues, { heightFeet: now }: Cues): SpokenWord[] {
  if (now === null || now === before) return [];
  return ['height', ...[...String(Math.round(now / 100))].map((figure) => FIGURES[Number(figure)] ?? 'zero')];
}

/** A ship of a formation that is established, that is to wait, or on its way out. */
function partToSay(before: Cues, { part, established }: Cues): SpokenWord[] {
  if (established === true && before.established === false) return ['established'];
  if (part === before.part) return [];
  return part === 'circling' && before.part !== null ? ['wait'] : part === 'leaving' ? ['out'] : [];
}

function countdown({ smokeInSeconds: before, phase }: Cues, { smokeInSeconds: now, phase: phaseNow }: Cues): Announcement | null {
  if (before === null || now === null || phase !== phaseNow) return null;
  const passed = (seconds: number): boolean => before > seconds && now <= seconds;
  if (passed(READY_SECONDS)) return { tone: 'ready', words: [] };
  return COUNTED_SECONDS.some(passed) ? { tone: 'count', words: [] } : null;
}
