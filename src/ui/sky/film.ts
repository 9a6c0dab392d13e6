import { zipSync } from 'fflate';
import { type FilmFrame, writeWebm } from '../../core/tracks/webm-write.ts';

/** How a film of the sky is made. */
export interface FilmOptions {
  /** Paints the view at a share of the film, 0 to 1. */
  readonly paint: (context: CanvasRenderingContext2D, share: number) => void;
  readonly widthPixels: number;
  readonly heightPixels: number;
  readonly seconds: number;
  readonly onProgress: (share: number) => void;
  readonly stop: AbortSignal;
}

/** What came of it: a video where the browser records canvases, else a sequence of pictures. */
export interface Film {
  readonly extension: 'webm' | 'mp4' | 'zip';
  readonly type: string;
  readonly content: Uint8Array<ArrayBuffer>;
}

const FRAMES_A_SECOND = 24;
/** A sequence of stills needs fewer. */
const PICTURES = 48;
const VIDEO_TYPES = ['video/mp4;codecs=avc1.42E01E', 'video/webm;codecs=vp9', 'video/webm'] as const;

/** Makes a short film: recorded as video where the browser can, else as numbered pictures in a ZIP. */
export async function makeFilm(options: FilmOptions): Promise<Film> {
  const canvas = document.createElement('canvas');
  canvas.width = options.widthPixels;
  canvas.height = options.heightPixels;
  const context = canvas.getContext('2d');
  if (context === null) throw new Error('this browser draws no pictures off the page');
  const codec = await fastCodec(options);
  if (codec !== null) return fastVideo(canvas, context, codec, options);
  const type =
    typeof MediaRecorder === 'undefined' || !('captureStream' in canvas) ? undefined : VIDEO_TYPES.find((each) => MediaRecorder.isTypeSupported(each));
  return type === undefined ? pictures(canvas, context, options) : video(canvas, context, type, options);
}

const FAST_CODECS = [
  { codec: 'V_VP9', name: 'vp09.00.31.08' },
  { codec: 'V_VP8', name: 'vp8' },
] as const;
const BITS_A_SECOND = 4_000_000;
/** So many pictures may wait to be packed: more would fill the memory. */
const WAITING = 8;
const KEY_EVERY = 2 * FRAMES_A_SECOND;

/** What this browser packs pictures into as fast as they are painted (WebCodecs); null where it cannot. */
async function fastCodec({ widthPixels: width, heightPixels: height }: FilmOptions): Promise<(typeof FAST_CODECS)[number] | null> {
  if (typeof VideoEncoder === 'undefined') return null;
  for (const each of FAST_CODECS) {
    const { supported } = await VideoEncoder.isConfigSupported({ codec: each.name, width, height, bitrate: BITS_A_SECOND }).catch(() => ({ supported: false }));
    if (supported === true) return each;
  }
  return null;
}

/** Made as fast as the pictures can be painted and packed, not as fast as they play. */
async function fastVideo(
  canvas: HTMLCanvasElement,
  context: CanvasRenderingContext2D,
  { codec, name }: (typeof FAST_CODECS)[number],
  { paint, seconds, onProgress, stop, widthPixels, heightPixels }: FilmOptions,
): Promise<Film> {
  const packed: FilmFrame[] = [];
  const faults: DOMException[] = [];
  const encoder = new VideoEncoder({
    output(chunk) {
      const bytes = new Uint8Array(chunk.byteLength);
      chunk.copyTo(bytes);
      packed.push({ atMilliseconds: chunk.timestamp / 1000, key: chunk.type === 'key', bytes });
    },
    error: (error) => void faults.push(error),
  });
  encoder.configure({ codec: name, width: widthPixels, height: heightPixels, bitrate: BITS_A_SECOND, framerate: FRAMES_A_SECOND, latencyMode: 'realtime' });
  const frames = Math.round(seconds * FRAMES_A_SECOND);
  try {
    for (let index = 0; index <= frames && faults.length === 0; index += 1) {
      stop.throwIfAborted();
      paint(context, index / frames);
      const picture = new VideoFrame(canvas, { timestamp: Math.round((index * 1e6) / FRAMES_A_SECOND) });
      encoder.encode(picture, { keyFrame: index % KEY_EVERY === 0 });
      picture.close();
      onProgress(index / frames);
      // The page stays free, and no more than a few pictures wait.
      do await pause(0);
      while (encoder.encodeQueueSize > WAITING);
    }
    await encoder.flush();
  } finally {
    if (encoder.state !== 'closed') encoder.close();
  }
  const [fault] = faults;
  if (fault !== undefined) throw fault;
  const content = writeWebm(packed, { codec, widthPixels, heightPixels, durationMilliseconds: ((frames + 1) * 1000) / FRAMES_A_SECOND });
  return { extension: 'webm', type: 'video/webm', content };
}

async function video(
  canvas: HTMLCanvasElement,
  context: CanvasRenderingContext2D,
  type: string,
  { paint, seconds, onProgress, stop }: FilmOptions,
): Promise<Film> {
  const recorder = new MediaRecorder(canvas.captureStream(FRAMES_A_SECOND), { mimeType: type, videoBitsPerSecond: 4_000_000 });
  const parts: Blob[] = [];
  recorder.ondataavailable = ({ data }) => void parts.push(data);
  const ended = new Promise<void>((resolve) => {
    recorder.onstop = () => resolve();
  });
  paint(context, 0);
  recorder.start();
  const frames = Math.round(seconds * FRAMES_A_SECOND);
  // A recorder goes by the clock of the room: each frame stands for its share of a second.
  for (let frame = 0; frame <= frames && !stop.aborted; frame += 1) {
    const begun = performance.now();
    paint(context, frame / frames);
    onProgress(frame / frames);
    await pause(Math.max(0, 1000 / FRAMES_A_SECOND - (performance.now() - begun)));
  }
  recorder.stop();
  await ended;
  stop.throwIfAborted();
  const content = new Uint8Array(await new Blob(parts).arrayBuffer());
  return { extension: type.startsWith('video/mp4') ? 'mp4' : 'webm', type: type.split(';')[0] ?? type, content };
}

async function pictures(canvas: HTMLCanvasElement, context: CanvasRenderingContext2D, { paint, onProgress, stop }: FilmOptions): Promise<Film> {
  const files: Record<string, Uint8Array> = {};
  for (let index = 0; index < PICTURES; index += 1) {
    stop.throwIfAborted();
    paint(context, index / (PICTURES - 1));
    const blob = await new Promise<Blob | null>((resolve) => canvas.toBlob(resolve, 'image/png'));
    if (blob !== null) files[`sky-${String(index + 1).padStart(3, '0')}.png`] = new Uint8Array(await blob.arrayBuffer());
    onProgress((index + 1) / PICTURES);
    await pause(0);
  }
  // The pictures are packed already; stored as they are.
  return { extension: 'zip', type: 'application/zip', content: new Uint8Array(zipSync(files, { level: 0 })) };
}

function pause(milliseconds: number): Promise<void> {
  return new Promise((resolve) => setTimeout(resolve, milliseconds));
}
