import { useSignal } from '@preact/signals';
import type { VNode } from 'preact';
import { takePhotographs } from '../../app/photographs/take-photographs.ts';
import { useApplication } from '../application-context.ts';
import { TakePhotograph } from '../photographs/TakePhotograph.tsx';

/** Keeps photographs of the word with the job; they are measured on Debrief. */
export function GroundPhotograph({ jobId }: { readonly jobId: string }): VNode {
  const { database } = useApplication();
  const lines = useSignal<readonly string[]>([]);
  const take = async (files: readonly File[]): Promise<void> => {
    lines.value = ['Keeping the picture'];
    const { kept, refused } = await takePhotographs(database, jobId, files, () => Date.now());
    lines.value = [...kept.map(({ fileName }) => `${fileName} is kept with this job; Debrief lays the word over it.`), ...refused];
  };
  return (
    <section class="ground-photograph">
      <h2>Photograph the word</h2>
      <p class="small">All of it in the picture, from where the crowd stands, right after the last smoke and again some minutes later.</p>
      <TakePhotograph onFiles={(files) => void take(files)} />
      {lines.value.map((line) => (
        <p key={line} role="status">
          {line}
        </p>
      ))}
    </section>
  );
}
