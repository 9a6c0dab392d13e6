import { type ReadonlySignal, signal } from '@preact/signals';
import type { Database } from '../../store/database.ts';
import { readSetting, saveSetting } from '../../store/settings.ts';

export type FolderState =
  /** This browser lets no page keep a folder. */
  | { readonly kind: 'unsupported' }
  | { readonly kind: 'none' }
  /** `asks`: the browser wants the person to allow it again. */
  | { readonly kind: 'allowed' | 'asks'; readonly name: string };

/** A folder of the device in which backups are kept, chosen once. */
export interface KeptFolder {
  readonly state: ReadonlySignal<FolderState>;
  /** Resolves when it is known whether a folder is kept. */
  readonly ready: Promise<void>;
  /** After a touch: chooses a folder, or asks to be allowed to write into the kept one again. */
  choose(): Promise<void>;
  forget(): Promise<void>;
  /** Where it was written, in words; null where no folder is kept or allowed. */
  write(name: string, stream: ReadableStream<Uint8Array<ArrayBuffer>>): Promise<string | null>;
}

const SETTING = 'backup-folder';

/** Of the File System Access specification (WICG, 2024): not yet in the platform's own types. */
interface PermissionAsking {
  queryPermission(options: { readonly mode: 'readwrite' }): Promise<PermissionState>;
  requestPermission(options: { readonly mode: 'readwrite' }): Promise<PermissionState>;
}
type Folder = FileSystemDirectoryHandle & PermissionAsking;
type Picker = (options: { readonly mode: 'readwrite'; readonly id: string }) => Promise<Folder>;

export function createKeptFolder(database: Database): KeptFolder {
  const picker = (globalThis as unknown as { readonly showDirectoryPicker?: Picker }).showDirectoryPicker;
  const state = signal<FolderState>({ kind: picker === undefined ? 'unsupported' : 'none' });
  let folder: Folder | null = null;

  async function look(): Promise<void> {
    if (folder === null) return;
    const allowed = (await folder.queryPermission({ mode: 'readwrite' })) === 'granted';
    state.value = { kind: allowed ? 'allowed' : 'asks', name: folder.name };
  }

  const ready = (async () => {
    if (picker === undefined) return;
    const stored = await readSetting(database, SETTING);
    if (typeof FileSystemDirectoryHandle !== 'undefined' && stored instanceof FileSystemDirectoryHandle) folder = stored as Folder;
    await look();
  })().catch(() => {});

  return {
    state,
    ready,
    async choose() {
      try {
        if (folder === null) {
          folder = (await picker?.({ mode: 'readwrite', id: 'quillwind-backup' })) ?? null;
          if (folder !== null) await saveSetting(database, SETTING, folder);
        } else await folder.requestPermission({ mode: 'readwrite' });
      } catch {
        // Turned away: nothing was chosen.
      }
      await look();
    },
    async forget() {
      folder = null;
      await saveSetting(database, SETTING, null);
      state.value = { kind: 'none' };
    },
    async write(name, stream) {
      await look();
      if (folder === null || state.peek().kind !== 'allowed') return null;
      const file = await folder.getFileHandle(name, { create: true });
      // The file is replaced only when all of it was written: a browser that dies leaves the one before.
      await stream.pipeTo(await file.createWritable());
      return `${folder.name}/${name}`;
    },
  };
}
