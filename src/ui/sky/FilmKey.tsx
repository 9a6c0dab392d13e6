import { useSignal } from '@preact/signals';
import type { VNode } from 'preact';
import { fileNameFrom, handOverFile } from '../../app/hand-over-file.ts';
import type { SkyDirection } from '../../core/earth/sun.ts';
import type { SkyMoment } from '../../core/sky/sky-picture.ts';
import type { Trail } from '../../core/sky/trail.ts';
import { makeFilm } from './film.ts';
import { paintHeld, smokeDirections } from './held-sky.ts';
import { skyColours } from './sky-colours.ts';

/** What a film shows: a span of the sky over the crowd, in whatever count its moments are asked for. */
export interface FilmScene {
  readonly trails: readonly Trail[];
  readonly from: number;
  readonly to: number;
  readonly momentAt: (at: number) => Omit<SkyMoment, 'camera'>;
  readonly sunAt: (at: number) => SkyDirection;
  /** Written into the picture, so that nobody takes it for another thing. */
  readonly caption: string;
}

export interface FilmKeyProps {
  /** Asked for when the key is pressed; null while there is nothing to film. */
  readonly scene: (() => FilmScene) | null;
  readonly label: string;
  /** The file's name, without its ending. */
  readonly title: string;
}

const FILM_SECONDS = 12;
const FILM_SIZE = { widthPixels: 1280, heightPixels: 720 };
const CAPTION_MARGIN_PIXELS = 20;

/** Makes a short film of the sky as the crowd sees it, faster than it plays where the browser can, and hands it over. */
export function FilmKey({ scene, label, title }: FilmKeyProps): VNode {
  const film = useSignal<{ readonly share: number; readonly stop: AbortController } | null>(null);
  const fault = useSignal('');
  const make = async (wanted: FilmScene): Promise<void> => {
    const { trails, from, to, momentAt, sunAt, caption } = wanted;
    const held = [from, to].flatMap((at) => smokeDirections(trails, momentAt(at)));
    const colours = skyColours();
    const stop = new AbortController();
    film.value = { share: 0, stop };
    fault.value = '';
    try {
      const made = await makeFilm({
        ...FILM_SIZE,
        seconds: FILM_SECONDS,
        stop: stop.signal,
        onProgress: (share) => (film.value = { share, stop }),
        paint: (context, share) => {
          const at = from + share * (to - from);
          paintHeld(context, trails, momentAt(at), sunAt(at), held, FILM_SIZE, colours);
          context.font = '24px system-ui, sans-serif';
          context.fillStyle = colours.figure;
          context.fillText(caption, CAPTION_MARGIN_PIXELS, FILM_SIZE.heightPixels - CAPTION_MARGIN_PIXELS);
        },
      });
      await handOverFile({ name: fileNameFrom(title, made.extension), type: made.type, content: made.content });
    } catch (error) {
      if (!stop.signal.aborted) fault.value = `The film could not be made: ${error instanceof Error ? error.message : String(error)}.`;
    } finally {
      film.value = null;
    }
  };
  const making = film.value;
  return (
    <>
      {making === null ? (
        <button type="button" disabled={scene === null} onClick={() => scene !== null && void make(scene())}>
          {label}
        </button>
      ) : (
        <>
          <span role="status">Filming: {Math.floor(making.share * 100)} %</span>
          <button type="button" class="plain" onClick={() => making.stop.abort()}>
            Stop
          </button>
        </>
      )}
      {fault.value !== '' && (
        <span class="small" role="alert">
          {fault.value}
        </span>
      )}
    </>
  );
}
