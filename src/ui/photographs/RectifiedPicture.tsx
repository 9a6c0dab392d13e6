import { useSignal } from '@preact/signals';
import type { VNode } from 'preact';
import { useEffect, useRef } from 'preact/hooks';
import { fileNameFrom, handOverFile } from '../../app/hand-over-file.ts';
import type { RectifiedWord } from '../../core/photograph/rectify.ts';

/** The photograph's part with the word, as it would look from straight below, to be kept as PNG. */
export function RectifiedPicture({ rectified, name }: { readonly rectified: RectifiedWord; readonly name: string }): VNode {
  const canvas = useRef<HTMLCanvasElement>(null);
  const fault = useSignal('');
  const { widthPixels, heightPixels, values } = rectified;
  useEffect(() => {
    const context = canvas.current?.getContext('2d');
    if (context == null) return;
    const image = context.createImageData(widthPixels, heightPixels);
    // Smoke on a blue sky, as bright as the picture has it.
    values.forEach((value, index) => {
      image.data[4 * index] = 47 + 208 * value;
      image.data[4 * index + 1] = 102 + 153 * value;
      image.data[4 * index + 2] = 168 + 87 * value;
      image.data[4 * index + 3] = 255;
    });
    context.putImageData(image, 0, 0);
  }, [rectified]);
  const keep = (): void => {
    canvas.current?.toBlob((blob) => {
      if (blob === null) fault.value = 'The browser made no picture.';
      else
        handOverFile({ name: fileNameFrom(`${name} from below`, 'png'), type: 'image/png', content: blob }).catch((error: unknown) => {
          fault.value = `The picture was not kept: ${error instanceof Error ? error.message : String(error)}`;
        });
    }, 'image/png');
  };
  return (
    <figure class="rectified">
      <canvas ref={canvas} width={widthPixels} height={heightPixels} role="img" aria-label="The photographed word, from straight below" />
      <figcaption>From straight below, drawn from the photograph</figcaption>
      <button type="button" onClick={keep}>
        Save the picture
      </button>
      {fault.value !== '' && <p class="fault">{fault.value}</p>}
    </figure>
  );
}
