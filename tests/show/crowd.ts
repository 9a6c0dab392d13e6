import { planJob } from '../../src/core/plan/plan-job.ts';
import { crowdSeen, type CrowdSeen, type HungPromise } from '../flight/crowd-seen.ts';
import { flyByFigures, type FormationSeen } from '../flight/hang-by-figures.ts';
import { flyForbidden } from '../flight/forbidden-place.ts';
import { drawPolylines } from '../flight/draw-strokes.ts';
import { seenFromBelow } from '../flight/smoke-from-below.ts';
import { wordJob } from '../../e2e/flight/fly-word.ts';
import type { PilotReport } from '../../e2e/flight/pilot-in-page.ts';
import { type Campaign, OPEN, OTHERS, rolling } from './crowd-campaigns.ts';
import { cueCalm } from './cue-calm.ts';
import type { Figure, Shown } from './figures.ts';
import { type FlightBrowser, type FlownWord, flyWords, inFlightBrowser, openWords } from './flown-words.ts';
import { atLeast, atMost, reported } from './limits.ts';

/** So many words of each campaign, all of them by default, and which parts: `10 kt off,20 kt off,hard,far side,faces of itself,forbidden,figures,losses`. A few words take two minutes. */
const COUNT = Number(process.env['QUILLWIND_WORDS'] ?? 50);
/** The first so many are left out, for a campaign flown in pieces. */
const FROM = Number(process.env['QUILLWIND_FROM'] ?? 0);
/** The told area has room for 20 kt. */
const BEYOND_TOLD_KNOTS = 32;
const PARTS = process.env['QUILLWIND_PARTS']?.split(',') ?? null;

/**
 * What the crowd sees: words flown in a browser by their cues, in a wind the forecast got wrong, by an aircraft whose roll rate
 * the app does not know; measured from the true smoke by an eye at the site, smoke aged.
 */
export function showCrowd(): Promise<Shown> {
  return inFlightBrowser(async (opened) => {
    const figures: Figure[] = [];
    const level: string[] = [];
    const asked = (part: string): boolean => PARTS === null || PARTS.includes(part);
    for (const campaign of OPEN.filter(({ name }) => asked(name))) {
      const seen = await flyAndSee(opened, campaign, openWords().slice(0, COUNT));
      figures.push(...seenFigures(campaign, seen), readFromBelow(campaign.name, seen));
      level.push(levelWords(campaign, seen));
      if (campaign.fewer === 0) figures.push(...calmFigures(seen.map(({ flown }) => flown.report)));
    }
    for (const { words, least, ...campaign } of OTHERS.filter(({ name }) => asked(name))) {
      const seen = await flyAndSee(opened, campaign, openWords().slice(0, Math.min(words, COUNT)));
      const judged = seenFigures(campaign, seen);
      level.push(levelWords(campaign, seen));
      // A hard day has no promise but to be read.
      figures.push(...(least === undefined ? judged : judged.map(withoutLimit)), readFromBelow(campaign.name, seen, least));
    }
    if (asked('forbidden')) figures.push(...forbiddenFigures());
    if (asked('figures')) figures.push(...radioFigures());
    if (asked('losses')) figures.push(...(await lossFigures(opened)));
    return { figures, headline: `Seen from where the crowd stands, words lean by at most 6 degrees: ${level.join(', ')}.` };
  });
}

function levelWords({ name }: Campaign, all: readonly SeenWord[]): string {
  return `${all.filter(({ seen: { middle } }) => Math.abs(middle.leanDegrees) <= 6).length} of ${all.length} (${name})`;
}

interface SeenWord {
  readonly flown: FlownWord;
  readonly seen: CrowdSeen;
}

async function flyAndSee(opened: FlightBrowser, campaign: Campaign, words: readonly string[]): Promise<SeenWord[]> {
  const all: SeenWord[] = [];
  await flyWords(opened, words, { ...campaign, from: FROM }, async (one) => {
    const job = (campaign.job ?? wordJob)(one.word);
    const planned = planJob(job);
    if (!planned.ok) throw new Error(`${one.word} has no plan`);
    const seen = await crowdSeen(one.report, job, planned.value, promiseOf(one.report.hung), opened.reader);
    const { middle } = seen;
    process.stdout.write(
      `      ${campaign.name}: ${one.word.padEnd(9)} lean ${middle.leanDegrees.toFixed(1).padStart(6)}  bearing ${seen.bearingOffDegrees.toFixed(1).padStart(6)}  elevation ${seen.elevationOffDegrees.toFixed(1).padStart(5)}  ${seen.offMetres.toFixed(0).padStart(5)} m off  read ${(seen.readSlantOff || '-').padEnd(9)} as it stands ${seen.readAsItStands || '-'}\n`,
    );
    all.push({ flown: one, seen });
  });
  return all;
}

/** The machine value of the line that says where the word hangs. */
export function promiseOf(hung: string): HungPromise | null {
  const [eastMetres, northMetres, levelAfterSeconds] = hung.split('/').map(Number);
  return eastMetres === undefined || northMetres === undefined || levelAfterSeconds === undefined ? null : { eastMetres, northMetres, levelAfterSeconds };
}

function seenFigures({ name, fewer }: Campaign, all: readonly SeenWord[]): Figure[] {
  const count = all.length;
  const share = (of50: number): number => Math.round(((of50 - fewer) / 50) * count);
  const within = (what: (seen: CrowdSeen) => number, limit: number): number => all.filter(({ seen }) => Math.abs(what(seen)) <= limit).length;
  const mean = (what: (seen: CrowdSeen) => number): number => all.reduce((sum, { seen }) => sum + what(seen), 0) / count;
  const of = `of ${count}`;
  return [
    atMost(`${name}: flights not finished`, all.filter(({ flown }) => !flown.report.finished).length, 0, 'flights', 0),
    atLeast(
      `${name}: lean at most 6 degrees`,
      within(({ middle }) => middle.leanDegrees, 6),
      share(45),
      of,
      0,
    ),
    atLeast(
      `${name}: lean at most 10 degrees`,
      within(({ middle }) => middle.leanDegrees, 10),
      share(49),
      of,
      0,
    ),
    atLeast(
      `${name}: elevation within 6 degrees of the job's`,
      within(({ elevationOffDegrees }) => elevationOffDegrees, 6),
      share(46),
      of,
      0,
    ),
    atLeast(
      `${name}: bearing within 12 degrees of the job's`,
      within(({ bearingOffDegrees }) => bearingOffDegrees, 12),
      share(46),
      of,
      0,
    ),
    atLeast(
      `${name}: middle within 1.2 km of its promised place at the last smoke`,
      within(({ offMetres }) => offMetres, 1200),
      share(46),
      of,
      0,
    ),
    atMost(`${name}: the same, median`, median(all.map(({ seen }) => seen.offMetres)), 600, 'm', 0),
    reported(`${name}: lean, median`, `${median(all.map(({ seen }) => Math.abs(seen.middle.leanDegrees))).toFixed(1)} degrees`, '16 before'),
    atLeast(`${name}: read exactly, promised slant taken off`, all.filter(({ flown, seen }) => seen.readSlantOff === flown.word).length, share(47), of, 0),
    reported(
      `${name}: the same at the last smoke and at the end`,
      [0, 1].map((end) => all.filter(({ flown, seen }) => seen.readAtEnds[end] === flown.word).length).join(', '),
    ),
    atLeast(
      `${name}: letters read as it stands over those of the ideal word`,
      mean(({ shareAsItStands }) => shareAsItStands) / mean(({ shareIdeal }) => shareIdeal),
      0.9,
      '',
      3,
    ),
    reported(`${name}: start to first smoke, median`, `${median(all.map(({ flown }) => firstSmokeSeconds(flown.report))).toFixed(0)} s`, '154 s before'),
  ];
}

const firstSmokeSeconds = ({ trails }: PilotReport): number => trails[0]?.[0]?.atSeconds ?? Infinity;

const withoutLimit = ({ name, value }: Figure): Figure => reported(name, value);

/** Words read exactly from straight below, of which `least` of 50 must be, where it says so. */
function readFromBelow(name: string, all: readonly SeenWord[], least?: number): Figure {
  const read = all.filter(({ flown }) => flown.read === flown.word).length;
  const [title, of] = [`${name}: read exactly from straight below`, `of ${all.length}`];
  return least === undefined ? reported(title, `${read} ${of}`) : atLeast(title, read, Math.round((least / 50) * all.length), of, 0);
}

function calmFigures(reports: readonly PilotReport[]): Figure[] {
  const calm = reports.map(({ cueChanges, atSeconds }) => cueCalm(cueChanges, atSeconds));
  const sum = (what: (one: (typeof calm)[number]) => number): number => calm.reduce((all, one) => all + what(one), 0);
  const flights = Math.max(1, calm.length);
  return [
    atMost(
      `opposite turn cues within 3 s, of ${sum(({ turnCues }) => turnCues)} turn cues`,
      sum(({ oppositeTurns }) => oppositeTurns),
      0,
      'cues',
      0,
    ),
    atMost('heading jumps over 5 degrees within 0.35 s, a flight', sum(({ headingJumps }) => headingJumps) / flights, 0.2, '', 2),
    atMost(
      'figures that change more than twice a second, share of the time',
      (100 * sum(({ restlessSeconds }) => restlessSeconds)) / sum(({ seconds }) => seconds),
      1,
      '%',
      2,
    ),
  ];
}

/** Three ships at the desk, each word as briefed, by the lead's figures on the radio, one of which a ship mistypes at first, and by the link. */
function radioFigures(): Figure[] {
  const words = ['BRAVE', 'QUICK', 'SPRING', 'PROUD', 'PICNIC', 'WONDER', 'OPEN', 'JOYFUL'].slice(0, COUNT);
  const flown = words.map((word, index) => {
    const briefed = flyByFigures(word, index, null);
    const radio = flyByFigures(word, index, { by: { mistypedBy: index % 3 } });
    const link = flyByFigures(word, index, { by: 'link' });
    const told = (one: FormationSeen): string =>
      `${one.leanDegrees.toFixed(1)} (${(one.nearest?.metres ?? Infinity).toFixed(0)} m, ${one.durationShare.toFixed(2)} of the plan's time)`;
    process.stdout.write(
      `      ${word.padEnd(6)} as briefed lean ${told(briefed)}, by radio ${told(radio)}, by the link ${told(link)}; ${radio.refusedFigures.join('; ')}\n`,
    );
    return { briefed, radio, link };
  });
  const level = (all: readonly FormationSeen[]): number => all.filter(({ leanDegrees }) => Math.abs(leanDegrees) <= 6).length;
  const ways = [
    { way: 'by the figures on the radio', all: flown.map(({ radio }) => radio) },
    { way: 'by the link, without a touch', all: flown.map(({ link }) => link) },
  ];
  const mistyped = flown.filter(({ radio }) => radio.refusedFigures.length === 1).length;
  return [
    reported(`${words.length} words by three ships as briefed: lean at most 6 degrees`, `${level(flown.map(({ briefed }) => briefed))}`),
    ...ways.flatMap(({ way, all }) => [
      atLeast(`the same ${way}: lean at most 6 degrees`, level(all), Math.round(0.9 * words.length), `of ${words.length}`, 0),
      atLeast(`the same ${way}: one place on all ships`, all.filter(({ alike }) => alike).length, words.length, '', 0),
      atLeast(`the same ${way}: written whole`, all.filter(({ whole }) => whole).length, words.length, '', 0),
      atLeast(`the same ${way}: nearest any two came`, Math.min(...all.map(({ nearest }) => nearest?.metres ?? Infinity)), 300, 'm', 0),
    ]),
    atLeast('figures that one ship mistyped, caught', mistyped, words.length, '', 0),
  ];
}

/** Five jobs with an area of the overlay on their first stroke, five whose best place lies beyond the told area, flown at the desk. */
function forbiddenFigures(): Figure[] {
  const flown = ['JULY', 'HI', 'JOY', 'SKY', 'GLOW', 'SMILE', 'HELLO', 'DUCK', 'PROUD', 'BRAVE'].map((word, index) => {
    const told = index >= 5;
    const one = flyForbidden(wordJob(word), index + 1, told ? BEYOND_TOLD_KNOTS : 10, told);
    process.stdout.write(
      `      ${word.padEnd(6)} ${told ? 'beyond the told area' : 'overlay'}: ${one.strokesOutside} strokes outside, ${one.choice ?? 'no choice shown'}\n`,
    );
    return one;
  });
  return [
    atMost(
      `of ${flown.length} jobs whose best place is not allowed: strokes outside what is`,
      flown.reduce((sum, { strokesOutside }) => sum + strokesOutside, 0),
      0,
      '',
      0,
    ),
    atLeast('the same: the choice shown with its figures before the first smoke', flown.filter(({ choice }) => choice !== null).length, flown.length, '', 0),
    atLeast('the same: written', flown.filter(({ finished }) => finished).length, flown.length, '', 0),
  ];
}

/** Five seconds of fixes lost every minute, against the same words without. */
async function lossFigures(opened: FlightBrowser): Promise<Figure[]> {
  const words = openWords().slice(0, COUNT);
  const options = { forecastErrorKnots: 10, seed: 331, world: rolling };
  const without = await flyWords(opened, words, options, () => {});
  const lossy = await flyWords(opened, words, { ...options, lossesEvery: { seconds: 5, everySeconds: 60 } }, () => {});
  const writing = (all: readonly FlownWord[]): number => all.reduce((sum, { report }) => sum + report.atSeconds - firstSmokeSeconds(report), 0);
  const jobs = new Map(lossy.map((one) => [one, wordJob(one.word)]));
  let read = 0;
  for (const [one, job] of jobs) {
    const picture = { letterHeightMetres: job.letters.heightFeet * 0.3048 };
    if ((await opened.reader.read(drawPolylines(seenFromBelow(one.report.trails, job.facingDegreesTrue), picture))).text === one.word) read += 1;
  }
  return [
    atMost('5 s lost every minute: time to write over that without', writing(lossy) / writing(without), 1.15, '', 2),
    atLeast('5 s lost every minute: read from straight below', read, Math.round((48 / 50) * words.length), `of ${words.length}`, 0),
    atMost(
      '5 s lost every minute: smoke ON with a fix 3 s old that was not held',
      lossy.reduce((sum, { report }) => sum + report.wrongOns, 0),
      0,
      'ticks',
      0,
    ),
  ];
}

function median(values: readonly number[]): number {
  const sorted = [...values].sort((one, other) => one - other);
  return sorted[Math.floor(sorted.length / 2)] ?? NaN;
}
