/** What became of looking for codes with the camera. */
export type CameraState = { readonly kind: 'asking' } | { readonly kind: 'looking' } | { readonly kind: 'refused' } | { readonly kind: 'unsupported' };

const LOOK_MILLISECONDS = 120;
/** The longer side of what is searched: enough for a code that fills a third of the picture. */
const SEARCHED_PIXELS = 900;
/** For a picture from a file there is time to look longer. */
const FILE_MILLISECONDS = 1500;

/** Shows the camera in a video element and reports every code it reads, until the returned function is called. */
export function watchForCodes(video: HTMLVideoElement, onText: (text: string) => void, onState: (state: CameraState) => void): () => void {
  let ended = false;
  let stream: MediaStream | null = null;
  let timer: ReturnType<typeof setTimeout> | undefined;
  const end = (): void => {
    ended = true;
    clearTimeout(timer);
    for (const track of stream?.getTracks() ?? []) track.stop();
  };
  const begin = async (): Promise<void> => {
    const { mediaDevices } = navigator as { readonly mediaDevices?: MediaDevices };
    if (mediaDevices === undefined) {
      onState({ kind: 'unsupported' });
      return;
    }
    onState({ kind: 'asking' });
    const decode = await import('qr/decode.js');
    stream = await mediaDevices.getUserMedia({ video: { facingMode: 'environment' }, audio: false });
    if (ended) {
      end();
      return;
    }
    video.srcObject = stream;
    await video.play();
    onState({ kind: 'looking' });
    const canvas = document.createElement('canvas');
    const look = (): void => {
      if (ended) return;
      const text = readCode(video, video.videoWidth, video.videoHeight, canvas, decode.default);
      if (text !== null) onText(text);
      timer = setTimeout(look, LOOK_MILLISECONDS);
    };
    look();
  };
  begin().catch((error: unknown) => {
    if (!ended) onState({ kind: error instanceof DOMException && error.name === 'NotFoundError' ? 'unsupported' : 'refused' });
  });
  return end;
}

/** The code in a picture's file; null for none that can be read. */
export async function codeInFile(file: Blob): Promise<string | null> {
  try {
    const [bitmap, decode] = await Promise.all([createImageBitmap(file), import('qr/decode.js')]);
    return readCode(bitmap, bitmap.width, bitmap.height, document.createElement('canvas'), decode.default, FILE_MILLISECONDS);
  } catch {
    return null;
  }
}

type Decode = (
  image: { readonly width: number; readonly height: number; readonly data: Uint8ClampedArray },
  options?: { readonly timeLimit?: number },
) => string;

function readCode(source: CanvasImageSource, width: number, height: number, canvas: HTMLCanvasElement, decode: Decode, timeLimit = 40): string | null {
  if (width === 0 || height === 0) return null;
  const scale = Math.min(1, SEARCHED_PIXELS / Math.max(width, height));
  Object.assign(canvas, { width: Math.round(width * scale), height: Math.round(height * scale) });
  const context = canvas.getContext('2d', { willReadFrequently: true });
  if (context === null) return null;
  context.drawImage(source, 0, 0, canvas.width, canvas.height);
  const { data } = context.getImageData(0, 0, canvas.width, canvas.height);
  try {
    return decode({ width: canvas.width, height: canvas.height, data }, { timeLimit });
  } catch {
    return null;
  }
}
