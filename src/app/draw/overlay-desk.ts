import { type ReadonlySignal, signal } from '@preact/signals';
import { LONGEST_OVERLAY_CHARACTERS, type Overlay, parseOverlayText } from '../../core/place/overlay.ts';
import { formatNumber } from '../../core/text/number-formats.ts';

/** An overlay's file as it is kept. */
export interface OverlayFile {
  readonly fileName: string;
  readonly text: string;
}

/** Where overlays are kept; both reject with an Error a person understands. */
export interface OverlayStore {
  read(): Promise<OverlayFile | null>;
  save(file: OverlayFile | null): Promise<void>;
}

/** The user's own areas and landmarks, kept with the job. */
export interface OverlayDesk {
  /** Null when none are loaded. */
  readonly overlay: ReadonlySignal<Overlay | null>;
  readonly fileName: ReadonlySignal<string>;
  /** What is being done, in words; null when nothing is. */
  readonly busy: ReadonlySignal<string | null>;
  /** What went wrong last, and what stands in spite of it; null when nothing did. */
  readonly fault: ReadonlySignal<string | null>;
  /** Takes the whole file or nothing of it: read, then kept, then shown. */
  take(file: Pick<File, 'name' | 'size' | 'text'>): Promise<void>;
  /** Takes the overlay out of the job. */
  remove(): Promise<void>;
}

/** An overlay over its store, the kept one opened at once. */
export function createOverlayDesk(store: OverlayStore): OverlayDesk {
  const overlay = signal<Overlay | null>(null);
  const fileName = signal('');
  const busy = signal<string | null>(null);
  const fault = signal<string | null>(null);
  let latest = 0;

  /** Runs one thing at a time: what is finished after something newer was begun changes nothing more. */
  const during = async (word: string, action: (isLatest: () => boolean) => Promise<void>): Promise<void> => {
    const own = ++latest;
    busy.value = word;
    fault.value = null;
    // Two frames, so that the word is seen before a large file holds the page.
    await new Promise((resolve) => setTimeout(resolve, 30));
    await action(() => own === latest);
    if (own === latest) busy.value = null;
  };
  const stands = (): string => (overlay.peek() === null ? 'No overlay is loaded.' : 'The overlay loaded before stays.');

  void during('Opening the overlay', async (isLatest) => {
    const kept = await store.read().catch(() => 'The overlay of this job could not be read; load its file again.');
    if (!isLatest() || kept === null) return;
    const read = typeof kept === 'string' ? { ok: false as const, reason: kept } : parseOverlayText(kept.text);
    if (!read.ok) {
      fault.value = typeof kept === 'string' ? kept : `The overlay kept with this job cannot be taken: ${read.reason}. Load its file again.`;
      return;
    }
    overlay.value = read.overlay;
    fileName.value = typeof kept === 'string' ? '' : kept.fileName;
  });

  return {
    overlay,
    fileName,
    busy,
    fault,
    take: (file) =>
      during(`Reading ${file.name}`, async (isLatest) => {
        // Known before a byte is read; a character takes a byte at least.
        if (file.size > 4 * LONGEST_OVERLAY_CHARACTERS) {
          fault.value = `${file.name} was not taken: it is ${formatNumber(file.size / 1e6)} MB; at most 20 MB are read. ${stands()}`;
          return;
        }
        const text = await file.text().catch(() => null);
        const read = text === null ? { ok: false as const, reason: 'the file could not be read' } : parseOverlayText(text);
        if (!isLatest()) return;
        if (text === null || !read.ok) {
          fault.value = `${file.name} was not taken: ${read.ok ? '' : read.reason}. ${stands()}`;
          return;
        }
        const failure = await store.save({ fileName: file.name, text }).then(
          () => null,
          (error: unknown) => (error instanceof Error ? error.message : String(error)),
        );
        if (!isLatest()) return;
        if (failure !== null) {
          fault.value = `${file.name} was not taken, because it could not be kept: ${failure} ${stands()}`;
          return;
        }
        overlay.value = read.overlay;
        fileName.value = file.name;
      }),
    remove: () =>
      during('Taking it out', async (isLatest) => {
        const failure = await store.save(null).then(
          () => null,
          (error: unknown) => (error instanceof Error ? error.message : String(error)),
        );
        if (!isLatest()) return;
        if (failure !== null) fault.value = `The overlay was not taken out: ${failure}`;
        else overlay.value = null;
      }),
  };
}
