import { signal, type ReadonlySignal } from '@preact/signals';
import { type CameraState, codeInFile, watchForCodes } from '../../sensors/qr-camera.ts';

/** Reads codes with the camera, or out of pictures. */
export interface CodeScanner {
  readonly camera: ReadonlySignal<CameraState | null>;
  start(video: HTMLVideoElement): void;
  stop(): void;
  /** How many of the pictures held a code. */
  readPictures(files: readonly File[]): Promise<number>;
}

export function createCodeScanner(onText: (text: string) => void): CodeScanner {
  const camera = signal<CameraState | null>(null);
  let end = (): void => {};
  return {
    camera,
    start(video) {
      end();
      end = watchForCodes(video, onText, (state) => (camera.value = state));
    },
    stop() {
      end();
      camera.value = null;
    },
    async readPictures(files) {
      let found = 0;
      for (const file of files) {
        const text = await codeInFile(file);
        if (text === null) continue;
        found += 1;
        onText(text);
      }
      return found;
    },
  };
}
