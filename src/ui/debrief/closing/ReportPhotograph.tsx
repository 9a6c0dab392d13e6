import type { VNode } from 'preact';
import { useEffect, useMemo } from 'preact/hooks';
import { type Photograph, pictureOf } from '../../../app/photographs/photograph-shelf.ts';
import type { RectifiedWord } from '../../../core/photograph/rectify.ts';
import { RectifiedPicture } from '../../photographs/RectifiedPicture.tsx';
import { clockText } from '../../words/clock.ts';

/** A photograph on which the word was found, and the word as from below. */
export interface PhotographProof {
  readonly photograph: Photograph;
  readonly rectified: RectifiedWord;
}

/** The photograph on the client's report: which is photograph and which computation, and the digest that holds it. */
export function ReportPhotograph({ proof: { photograph, rectified }, timeZone }: { readonly proof: PhotographProof; readonly timeZone: string }): VNode {
  const address = useMemo(() => URL.createObjectURL(pictureOf(photograph)), [photograph.id]);
  useEffect(() => () => URL.revokeObjectURL(address), [address]);
  return (
    <section class="report-photograph">
      <h2>Photographed</h2>
      <img src={address} alt="The word as it was photographed" />
      <p class="small">
        A photograph, unchanged, taken {clockText(photograph.takenAtMilliseconds, timeZone, { seconds: true, day: 'date' })}. SHA-256 {photograph.sha256}.
      </p>
      <RectifiedPicture rectified={rectified} name="word" />
      <p class="small">Drawn from this photograph by computation, as it would look from straight below.</p>
    </section>
  );
}
