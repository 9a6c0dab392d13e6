import { computed, effect, type ReadonlySignal, signal } from '@preact/signals';
import type { GroundCall, LetterRating } from '../../core/wire/link-messages.ts';
import { RATED_LIMIT_SECONDS } from '../../core/wire/link-schemas.ts';
import type { Job } from '../../core/job/job.ts';
import { standingEntries } from '../../core/wire/observer-log.ts';
import { writeObserverLog } from '../../core/wire/parse-observer-log.ts';
import { jobAir } from '../../core/job/job-air.ts';
import type { SmokeCalibration } from '../../core/sky/smoke-calibration.ts';
import { figuresFromWind, windFromFigures } from '../../core/wire/hanging-figures.ts';
import { readingOf } from '../../core/sky/reading-of.ts';
import { deviceInstant, elapsedMilliseconds, type LinkInstant, clocksApartMilliseconds } from '../../link/link-clock.ts';
import { ourMilliseconds, type ShipSeen } from '../../link/ship-seen.ts';
import type { Database } from '../../store/database.ts';
import { type Planner, planOrReason, whyNotPlanned } from '../planner.ts';
import { readSmokeCalibration } from '../smoke-settings.ts';
import { fileNameFrom, handOverFile } from '../hand-over-file.ts';
import type { GroundPlan } from './ground-plan.ts';
import { AS_BRIEFED, type GroundHanging, hangingFromLink, hungPlan } from './ground-hanging.ts';
import { datumFromHack, datumFromPlan, datumMoved, type GroundDatum, sinceDatum } from './ground-clock.ts';
import { jobDigest } from '../link/job-digest.ts';
import type { LinkDesk } from '../link/link-desk.ts';
import { type ObserverBook, openObserverBook } from './observer-book.ts';
import { createObserverPlace, type ObserverPlace } from './observer-place.ts';
import { createReceiverDesk, type ReceiverDesk } from './receiver-desk.ts';

export type GroundPlanState =
  | { readonly kind: 'planning' }
  | { readonly kind: 'planned'; readonly value: GroundPlan }
  | { readonly kind: 'none'; readonly reason: string };

/** The Ground screen of one job: its plan, its clock, and what the observer says. */
export interface GroundDesk {
  readonly job: Job;
  /** The plan as the text hangs: as briefed, or by the wind that was found. */
  readonly plan: ReadonlySignal<GroundPlanState>;
  /** Where the text hangs, and who said so. */
  readonly hung: ReadonlySignal<GroundHanging>;
  /** Moves on once a second while the page is shown. */
  readonly now: ReadonlySignal<LinkInstant>;
  /** Null until there is a plan or a hack. */
  readonly datum: ReadonlySignal<GroundDatum | null>;
  readonly sinceDatumSeconds: ReadonlySignal<number | null>;
  /** How far this device's clocks went apart since the hack; null while they did not. */
  readonly clockApartSeconds: ReadonlySignal<number | null>;
  /** By how much the lead's datum, heard over the link, differs from the one in use; null for no such datum. */
  readonly leadDiffersSeconds: ReadonlySignal<number | null>;
  readonly book: ObserverBook;
  readonly observerPlace: ObserverPlace;
  /** For a ship without a link. */
  readonly receiver: ReceiverDesk;
  /** The call was heard now: the first smoke is so many seconds ahead. */
  takeHack(aheadSeconds: number): void;
  moveDatum(laterSeconds: number): void;
  /** Back to the job's own time. */
  goByPlan(): void;
  takeLeadDatum(): void;
  /** Three figures heard on the radio; a reason where they do not fit. */
  takeFigures(heard: string): string | null;
  /** As briefed after all. */
  hangAsBriefed(): void;
  rate(letterIndex: number, character: string, rating: LetterRating): void;
  note(text: string): void;
  /** Written down, and told over the link when there is one. */
  call(call: GroundCall, letter: { readonly letterIndex: number; readonly character: string } | null): void;
  withdraw(sequence: number): void;
  exportLog(): Promise<void>;
  end(): void;
}

/** Two datums that differ by less are one. */
const SAME_SECONDS = 1;
const APART_SECONDS = 2;
/** A datum that the lead has not moved for so long stands. */
const STANDS_MILLISECONDS = 5000;

export interface GroundDeskParts {
  readonly database: Database;
  readonly link: LinkDesk;
  readonly planner: Planner;
}

/** The ship whose word counts: the lead, or the first that is there. */
function leadOf(ships: readonly ShipSeen[]): ShipSeen | undefined {
  const present = ships.filter(({ ended }) => !ended);
  return present.find(({ shipIndex }) => shipIndex === 0) ?? present[0];
}

/** Opens the desk of a job; it plans at once and joins the link when the device has one. */
export function openGroundDesk(job: Job, { database, link, planner }: GroundDeskParts): GroundDesk {
  const lacking = whyNotPlanned(job);
  const briefed = signal<GroundPlanState>(lacking === null ? { kind: 'planning' } : { kind: 'none', reason: lacking });
  const measured = signal<SmokeCalibration | null>(null);
  const hung = signal<GroundHanging>(AS_BRIEFED);
  const now = signal(deviceInstant());
  const taken = signal<GroundDatum | null>(null);
  const digest = jobDigest(job).catch(() => null);
  const book = openObserverBook(database, job.id, digest, () => Date.now());
  const air = jobAir(job);
  const receiver = createReceiverDesk(database, air.site, air.layerHeightMetres, now);
  const observerPlace = createObserverPlace(database, job, air.site);
  let ended = false;
  /** The lead's datum that is gone by and not written down yet. */
  let moving: { readonly hack: GroundDatum; readonly since: LinkInstant } | null = null;

  void Promise.all([
    planOrReason(planner, job, database),
    // What cannot be read counts as never measured: the published values then hold.
    readSmokeCalibration(database).catch(() => null),
  ]).then(([made, known]) => {
    measured.value = known;
    briefed.value = made.ok ? { kind: 'planned', value: { ...made.value, ...readingOf(made.value, known) } } : { kind: 'none', reason: made.reason };
  });
  const plan = computed((): GroundPlanState => {
    const made = briefed.value;
    return made.kind === 'planned' && hung.value.wind !== null ? { kind: 'planned', value: hungPlan(made.value, hung.value, measured.value) } : made;
  });

  const leadHung = computed(() => leadOf(link.room.value?.ships ?? [])?.hung ?? null);
  const planned = computed(() => (plan.value.kind === 'planned' ? datumFromPlan(Date.parse(job.readTime), plan.value.value.readSeconds) : null));
  const datum = computed(() => taken.value ?? planned.value);
  const seconds = computed(() => (datum.value === null ? null : sinceDatum(datum.value, now.value)));
  const secondsNow = (): number | null => (datum.peek() === null ? null : sinceDatum(datum.peek() as GroundDatum, deviceInstant()));

  /** The lead's datum by this device's clock. */
  const leadDatum = computed(() => {
    const lead = leadOf(link.room.value?.ships ?? []);
    return lead?.datumMilliseconds == null ? null : ourMilliseconds(lead, lead.datumMilliseconds);
  });
  const leadDiffersSeconds = computed(() => {
    if (leadDatum.value === null || datum.value === null) return null;
    const at = deviceInstant();
    return (leadDatum.value - at.wallMilliseconds) / 1000 + sinceDatum(datum.value, at);
  });

  function take(next: GroundDatum): void {
    moving = null;
    taken.value = next;
    writeHack(next);
  }
  function writeHack(hack: GroundDatum): void {
    book.write({ kind: 'hack', source: hack.source, datumMilliseconds: Math.round(hack.datumMilliseconds) }, sinceDatum(hack, deviceInstant()));
  }
  function hackOfLead(at: LinkInstant): GroundDatum | null {
    const lead = leadDatum.peek();
    return lead === null ? null : datumFromHack(at, (lead - at.wallMilliseconds) / 1000, 'link');
  }
  const lastHack = () => standingEntries(book.own.peek()?.entries ?? []).findLast((entry) => entry.kind === 'hack');
  /** The clock goes by the lead at once. A rehearsal faster than real moves its datum all the time: after the first it is written down when it stands. */
  function followLead(): void {
    const at = deviceInstant();
    const next = hackOfLead(at);
    if (next === null) return;
    taken.value = next;
    moving = { hack: next, since: at };
    if (book.own.peek() !== null && lastHack()?.source !== 'link') writeMoving();
  }
  function writeMoving(): void {
    const hack = moving?.hack;
    const last = lastHack();
    moving = null;
    if (hack === undefined || (last?.source === 'link' && Math.abs(hack.datumMilliseconds - last.datumMilliseconds) <= SAME_SECONDS * 1000)) return;
    writeHack(hack);
  }
  /** What is written is counted by the clock in use, which must stand in the log before it. */
  function write(...[fact, sinceDatumSeconds]: Parameters<ObserverBook['write']>): void {
    writeMoving();
    book.write(fact, sinceDatumSeconds);
  }

  const tick = (): void => {
    if (document.visibilityState === 'visible') now.value = deviceInstant();
    if (moving !== null && elapsedMilliseconds(moving.since, deviceInstant()) >= STANDS_MILLISECONDS) writeMoving();
  };
  const timer = setInterval(tick, 1000);
  document.addEventListener('visibilitychange', tick);
  let followed: number | undefined;
  const endings = [
    // A hack taken before the page was loaded again still counts, by the device's clock.
    effect(() => {
      const log = book.own.value;
      if (log === null || taken.peek() !== null) return;
      const hack = standingEntries(log.entries).findLast((entry) => entry.kind === 'hack');
      if (hack?.kind === 'hack' && hack.source !== 'plan') taken.value = { source: hack.source, datumMilliseconds: hack.datumMilliseconds, counted: null };
    }),
    // The word hangs by the figures that stand in the log: after a reload, and when an entry is withdrawn.
    effect(() => {
      const log = book.own.value;
      if (log === null) return;
      const said = standingEntries(log.entries).findLast((entry) => entry.kind === 'hung');
      if (said?.sequence === followed) return;
      followed = said?.sequence;
      const read = said?.kind === 'hung' && said.figures !== null ? windFromFigures(said.figures) : null;
      const lead = leadHung.peek();
      if (read?.ok === true) hung.value = { source: 'radio', wind: read.wind, moved: null };
      else if (hung.peek().source === 'radio') hung.value = said !== undefined || lead === null ? AS_BRIEFED : hangingFromLink(lead);
    }),
    // Where the lead says that the text hangs is where it hangs, unless a person typed what was heard on the radio.
    effect(() => {
      const told = leadHung.value;
      if (told !== null && hung.peek().source !== 'radio') hung.value = hangingFromLink(told);
    }),
    // Without a hack of one's own the lead's word is taken; with one the difference is shown and a person decides.
    effect(() => {
      const differs = leadDiffersSeconds.value;
      if (differs !== null && Math.abs(differs) > SAME_SECONDS && datum.peek()?.source !== 'radio') followLead();
    }),
  ];
  let leave = (): void => {};
  void digest.then((known) => {
    if (!ended) leave = link.observe(job.id, book.observerName.peek(), known);
  });

  return {
    job,
    plan,
    now,
    datum,
    sinceDatumSeconds: seconds,
    clockApartSeconds: computed(() => {
      const counted = datum.value?.counted;
      const apart = counted == null ? 0 : clocksApartMilliseconds(counted.from, now.value) / 1000;
      return Math.abs(apart) > APART_SECONDS ? apart : null;
    }),
    leadDiffersSeconds,
    book,
    observerPlace,
    receiver,
    takeHack: (aheadSeconds) => take(datumFromHack(deviceInstant(), aheadSeconds)),
    moveDatum(laterSeconds) {
      const from = datum.peek();
      if (from !== null) take(datumMoved(from, laterSeconds));
    },
    goByPlan() {
      moving = null;
      taken.value = null;
      if (planned.peek() !== null) book.write({ kind: 'hack', source: 'plan', datumMilliseconds: planned.peek()?.datumMilliseconds ?? 0 }, secondsNow());
    },
    hung,
    takeLeadDatum() {
      const hack = hackOfLead(deviceInstant());
      if (hack !== null) take(hack);
    },
    takeFigures(heard) {
      const read = windFromFigures(heard);
      if (!read.ok) return read.reason;
      hung.value = { source: 'radio', wind: read.wind, moved: null };
      write({ kind: 'hung', figures: figuresFromWind(read.wind) }, secondsNow());
      return null;
    },
    hangAsBriefed() {
      hung.value = AS_BRIEFED;
      write({ kind: 'hung', figures: null }, secondsNow());
    },
    rate(letterIndex, character, rating) {
      const sinceDatumSeconds = secondsNow();
      write({ kind: 'rated', letterIndex, character, rating }, sinceDatumSeconds);
      // Further off the message would be dropped by whoever hears it; the rating itself is still worth telling.
      const told = sinceDatumSeconds !== null && Math.abs(sinceDatumSeconds) <= RATED_LIMIT_SECONDS ? sinceDatumSeconds : null;
      link.tell({ kind: 'rated', letterIndex, character, rating, sinceDatumSeconds: told });
    },
    note(text) {
      if (text.trim() !== '') write({ kind: 'noted', text: text.trim() }, secondsNow());
    },
    call(call, letter) {
      const of = { letterIndex: letter?.letterIndex ?? null, character: letter?.character ?? null };
      write({ kind: 'called', call, ...of }, secondsNow());
      link.tell({ kind: 'call', call, ...of });
    },
    withdraw: (sequence) => write({ kind: 'withdrawn', withdrawnSequence: sequence }, secondsNow()),
    async exportLog() {
      const log = book.own.peek();
      if (log === null) return;
      await handOverFile({ name: fileNameFrom(`${job.name} observer ${log.observerName}`, 'json'), type: 'application/json', content: writeObserverLog(log) });
    },
    end() {
      ended = true;
      writeMoving();
      clearInterval(timer);
      document.removeEventListener('visibilitychange', tick);
      for (const ending of endings) ending();
      leave();
      receiver.stop();
      book.end();
    },
  };
}
