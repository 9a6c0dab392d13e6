import { type ReadonlySignal, useComputed } from '@preact/signals';
import type { VNode } from 'preact';
import type { Cues } from '../../core/guidance/cues.ts';
import type { UnitText } from '../../core/text/unit-text.ts';
import { CueValue } from './CueValue.tsx';
import { heightFigures, lateWords } from './formation-words.ts';

/** What a ship of a formation reads beside its turns: the height to hold, in large figures, and how it keeps the timetable. */
export function FormationBand({ cues, units }: { readonly cues: ReadonlySignal<Cues>; readonly units: ReadonlySignal<UnitText | null> }): VNode {
  const shown = useComputed(() => cues.value.part !== null);
  return (
    <div class="write-formation" data-shown={shown.value ? 'yes' : 'no'}>
      <CueValue cues={cues} name="height" class="write-height">
        {useComputed(() => heightFigures(cues.value.heightFeet, units.value))}
      </CueValue>
      <CueValue cues={cues} name="established" class="write-established">
        {useComputed(() => (cues.value.established === null ? '' : cues.value.established ? 'ESTABLISHED' : 'NOT ESTABLISHED'))}
      </CueValue>
      <CueValue cues={cues} name="late" class="write-late">
        {useComputed(() => lateWords(cues.value))}
      </CueValue>
    </div>
  );
}
