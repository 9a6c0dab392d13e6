import { type ReadonlySignal, signal } from '@preact/signals';
import type { SitePointUp } from '../../core/earth/site-frame.ts';
import { siteFromGeodetic } from '../../core/earth/site-frame.ts';
import type { WindVector } from '../../core/earth/wind-vector.ts';
import { spreadingFrom, type SpreadingSeen } from '../../core/photograph/spreading.ts';
import { windFromPictures, type WindTold } from '../../core/photograph/wind-told.ts';
import type { Trail } from '../../core/sky/trail.ts';
import type { Database } from '../../store/database.ts';
import { layPhotographOffPage } from '../../workers/photograph-client.ts';
import type { PhotographAnswer } from '../../workers/photograph-service.ts';
import { type Photograph, pictureOf, readPhotographs, removePhotograph, savePhotograph } from './photograph-shelf.ts';
import { takePhotographs } from './take-photographs.ts';

/** The word at a moment, as it was planned or flown. */
export interface WordAtMoment {
  readonly trails: readonly Trail[];
  readonly atSeconds: number;
  readonly wind: WindVector;
}

/** What ties photographs to a job and its word. */
export interface PhotographedJob {
  readonly jobId: string;
  readonly site: { readonly latitudeDegrees: number; readonly longitudeDegrees: number; readonly elevationMetres: number };
  readonly layerAboveSiteMetres: number;
  readonly facingRadians: number;
  readonly letterHeightMetres: number;
  /** Null where nothing of the word is known at that time. */
  wordAt(atMilliseconds: number): WordAtMoment | null;
}

export type LaidAnswer = Extract<PhotographAnswer, { kind: 'laid' }>;

/** What was made of a photograph. */
export interface LaidPhotograph {
  readonly atSeconds: number;
  readonly answer: LaidAnswer;
}

export type PhotographWork =
  | { readonly kind: 'idle' }
  | { readonly kind: 'working'; readonly words: string }
  | { readonly kind: 'refused'; readonly reason: string };

/** A place in shares of a picture's width and height. */
interface Corner {
  readonly x: number;
  readonly y: number;
}

/** Everything the photographs of one job are shown and measured with. */
export interface PhotographDesk {
  readonly photographs: ReadonlySignal<readonly Photograph[]>;
  readonly chosen: ReadonlySignal<Photograph | null>;
  /** Where the word's corners are seen in the chosen picture. */
  readonly corners: ReadonlySignal<readonly Corner[]>;
  readonly laid: ReadonlySignal<ReadonlyMap<string, LaidPhotograph>>;
  readonly work: ReadonlySignal<PhotographWork>;
  readonly notices: ReadonlySignal<readonly string[]>;
  take(files: readonly File[]): Promise<void>;
  choose(photograph: Photograph): void;
  setTime(photograph: Photograph, takenAtMilliseconds: number): Promise<void>;
  remove(photograph: Photograph): Promise<void>;
  moveCorner(corner: number, to: Corner): void;
  lay(): Promise<void>;
  stop(): void;
  /** From all pictures that were laid. */
  spreading(): SpreadingSeen | null;
  wind(): WindTold | null;
  dispose(): void;
}

/** An observer's eyes above the ground. */
const EYE_METRES = 1.6;
/** Places farther from the site than this are not where the crowd stood: the picture is taken for one from the site. */
const FARTHEST_METRES = 30_000;
const MIDDLE: readonly Corner[] = [
  { x: 0.2, y: 0.65 },
  { x: 0.8, y: 0.65 },
  { x: 0.8, y: 0.35 },
  { x: 0.2, y: 0.35 },
];

export function createPhotographDesk(database: Database, job: PhotographedJob, nowMilliseconds: () => number): PhotographDesk {
  const photographs = signal<readonly Photograph[]>([]);
  const chosen = signal<Photograph | null>(null);
  const corners = signal<readonly Corner[]>(MIDDLE);
  const laid = signal<ReadonlyMap<string, LaidPhotograph>>(new Map());
  const work = signal<PhotographWork>({ kind: 'idle' });
  const notices = signal<readonly string[]>([]);
  let stopper: AbortController | null = null;

  const fail = (what: string, error: unknown): void => {
    notices.value = [`${what}. ${error instanceof Error ? error.message : String(error)}`];
  };
  const refresh = async (): Promise<void> => {
    try {
      const read = await readPhotographs(database, job.jobId);
      photographs.value = read.photographs;
      if (read.damaged > 0) notices.value = [`${read.damaged} kept ${read.damaged === 1 ? 'photograph is' : 'photographs are'} damaged and not shown.`];
    } catch (error) {
      fail('The photographs could not be read', error);
    }
  };
  void refresh();

  const eyeOf = ({ latitudeDegrees, longitudeDegrees }: Photograph): SitePointUp => {
    if (latitudeDegrees !== null && longitudeDegrees !== null) {
      const place = siteFromGeodetic({ latitudeDegrees, longitudeDegrees }, job.site.elevationMetres, job.site);
      if (Math.hypot(place.eastMetres, place.northMetres) < FARTHEST_METRES) return { ...place, upMetres: EYE_METRES };
    }
    return { eastMetres: 0, northMetres: 0, upMetres: EYE_METRES };
  };

  const ask = async (photograph: Photograph, handles: readonly Corner[] | null): Promise<PhotographAnswer> => {
    const word = job.wordAt(photograph.takenAtMilliseconds);
    if (word === null) return { kind: 'refused', reason: 'Nothing of the word was in the sky at that time. Check when the picture was taken.' };
    stopper?.abort();
    const mine = (stopper = new AbortController());
    const { layerAboveSiteMetres, facingRadians, letterHeightMetres } = job;
    return layPhotographOffPage(
      {
        file: pictureOf(photograph),
        ...word,
        eye: eyeOf(photograph),
        layerAboveSiteMetres,
        facingRadians,
        letterHeightMetres,
        focal35Millimetres: photograph.focal35Millimetres,
        pointed: photograph.pointed,
        handles,
      },
      (words) => {
        if (!mine.signal.aborted) work.value = { kind: 'working', words };
      },
      mine.signal,
    );
  };

  const choose = (photograph: Photograph): void => {
    chosen.value = photograph;
    corners.value = MIDDLE;
    work.value = { kind: 'idle' };
    void ask(photograph, null).then((answer) => {
      if (chosen.peek()?.id !== photograph.id) return;
      if (answer.kind === 'placed') corners.value = answer.corners.every(inside) ? answer.corners : MIDDLE;
      work.value = answer.kind === 'refused' ? answer : { kind: 'idle' };
    });
  };

  return {
    photographs,
    chosen,
    corners,
    laid,
    work,
    notices,
    async take(files) {
      work.value = { kind: 'working', words: 'Keeping the pictures' };
      const { kept, refused } = await takePhotographs(database, job.jobId, files, nowMilliseconds);
      work.value = { kind: 'idle' };
      notices.value = refused;
      await refresh();
      const [first] = kept;
      if (first !== undefined) choose(first);
    },
    choose,
    async setTime(photograph, takenAtMilliseconds) {
      const changed: Photograph = { ...photograph, takenAtMilliseconds, timeFrom: 'person' };
      try {
        await savePhotograph(database, changed);
        await refresh();
        choose(changed);
      } catch (error) {
        fail('The time was not stored', error);
      }
    },
    async remove(photograph) {
      try {
        await removePhotograph(database, photograph);
        if (chosen.peek()?.id === photograph.id) chosen.value = null;
        const rest = new Map(laid.peek());
        rest.delete(photograph.id);
        laid.value = rest;
        await refresh();
      } catch (error) {
        fail('The photograph was not taken out', error);
      }
    },
    moveCorner(corner, to) {
      corners.value = corners.peek().map((each, index) => (index === corner ? to : each));
      const photograph = chosen.peek();
      if (photograph === null || !laid.peek().has(photograph.id)) return;
      const rest = new Map(laid.peek());
      rest.delete(photograph.id);
      laid.value = rest;
    },
    async lay() {
      const photograph = chosen.peek();
      if (photograph === null) return;
      work.value = { kind: 'working', words: 'Opening the picture' };
      const answer = await ask(photograph, corners.peek());
      if (chosen.peek()?.id !== photograph.id) return;
      if (answer.kind === 'laid') {
        const atSeconds = job.wordAt(photograph.takenAtMilliseconds)?.atSeconds ?? 0;
        laid.value = new Map(laid.peek()).set(photograph.id, { atSeconds, answer });
        await savePhotograph(database, {
          ...photograph,
          seen: answer.letters.map(({ letterIndex, foundShare, offHeights }) => ({ letterIndex, foundShare, offHeights })),
        }).then(refresh, (error: unknown) => fail('What the photograph showed was not stored', error));
      }
      work.value = answer.kind === 'refused' ? answer : { kind: 'idle' };
    },
    stop: () => stopper?.abort(),
    spreading: () => spreadingFrom([...laid.value.values()].flatMap(({ answer }) => answer.widths)),
    wind() {
      const seen = [...laid.value.values()]
        .map(({ atSeconds, answer: { pose, sigma } }) => ({ atSeconds, pose, sigma }))
        .toSorted((one, other) => one.atSeconds - other.atSeconds);
      const [first, last] = [seen[0], seen.at(-1)];
      return first === undefined || last === undefined || first === last ? null : windFromPictures(first, last);
    },
    dispose: () => stopper?.abort(),
  };
}

const inside = ({ x, y }: Corner): boolean => x > 0 && x < 1 && y > 0 && y < 1;
