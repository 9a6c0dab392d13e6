import { useSignal } from '@preact/signals';
import type { VNode } from 'preact';
import { useEffect, useMemo } from 'preact/hooks';
import type { CompassPointing } from '../../app/compass-pointing.ts';
import { createPointingWatch } from '../../app/photographs/pointing-watch.ts';
import type { GeodeticPoint } from '../../core/earth/site-frame.ts';
import { formatBearing, formatNumber } from '../../core/text/number-formats.ts';
import { takePhotographs } from '../../app/photographs/take-photographs.ts';
import { useGround } from './ground-context.ts';
import { useApplication } from '../application-context.ts';
import { TakePhotograph } from '../photographs/TakePhotograph.tsx';

const POINTING_WORDS: Readonly<Record<CompassPointing['kind'], string>> = {
  pointing: 'Bearing and tilt are noted with each photograph: hold the device on the word for a moment before and after.',
  nowhere: 'Held too flat or too steep to point anywhere.',
  silent: 'Asking the device where it points.',
  refused: 'The device was not allowed to say where it points. Photographs are placed by hand.',
  unsupported: 'This device has no compass. Photographs are placed by hand.',
};

/** Keeps photographs of the word with the job; they are measured on Debrief. */
export function GroundPhotograph({ jobId, place }: { readonly jobId: string; readonly place: GeodeticPoint }): VNode {
  const { database } = useApplication();
  const { observerPlace } = useGround();
  const lines = useSignal<readonly string[]>([]);
  const watch = useMemo(() => createPointingWatch(place, () => Date.now()), [jobId]);
  useEffect(() => () => watch.end(), [watch]);
  const pointing = watch.pointing.value;
  const take = async (files: readonly File[]): Promise<void> => {
    lines.value = ['Keeping the picture'];
    const { kept, refused } = await takePhotographs(database, jobId, files, () => Date.now(), { pointedAt: watch.at, standsAt: observerPlace.position.peek() });
    lines.value = [
      ...kept.map(
        ({ fileName, pointed }) =>
          `${fileName} is kept with this job${pointed === null ? '' : `, pointing ${formatBearing(pointed.bearingDegreesTrue)}\u00b0 true and ${formatNumber(pointed.tiltDegrees)}\u00b0 up`}; Debrief lays the word over it.`,
      ),
      ...refused,
    ];
  };
  return (
    <section class="ground-photograph">
      <h2>Photograph the word</h2>
      <p class="small">All of it in the picture, from where you say that you stand, right after the last smoke and again some minutes later.</p>
      {pointing === null ? (
        <p>
          <button type="button" onClick={() => watch.start()}>
            Note where the camera points
          </button>
        </p>
      ) : (
        <p class="small" role="status" data-pointing={pointing.kind}>
          {POINTING_WORDS[pointing.kind]}
        </p>
      )}
      <TakePhotograph onFiles={(files) => void take(files)} />
      {lines.value.map((line) => (
        <p key={line} role="status">
          {line}
        </p>
      ))}
    </section>
  );
}
