import type { VNode } from 'preact';
import { missingFirstWords } from '../../../core/job/not-entered.ts';
import { ChoiceField } from '../../fields/ChoiceField.tsx';
import { ChecksView } from './ChecksView.tsx';
import { DaysView } from './DaysView.tsx';
import { DayView } from './DayView.tsx';
import type { Pane } from '../../../app/draw/desk.ts';
import { useDesk } from '../desk-context.ts';
import { LayersView } from './LayersView.tsx';
import { PilotView } from './PilotView.tsx';
import { PlacementView } from './PlacementView.tsx';
import { SkyView } from './SkyView.tsx';

const PANES: readonly { readonly value: Pane; readonly label: string; readonly short: string }[] = [
  { value: 'flown', label: 'As flown', short: 'Flown' },
  { value: 'sky', label: 'In the sky', short: 'Sky' },
  { value: 'ground', label: 'Over the ground', short: 'Ground' },
  { value: 'day', label: 'The day', short: 'Day' },
  { value: 'layers', label: 'Layers', short: 'Layers' },
  { value: 'checks', label: 'Go or no-go', short: 'Go' },
];

/** One picture of the plan at a time, kept in sight while the entries beside it scroll. */
export function PlanPictures(): VNode {
  const { pane, editor } = useDesk();
  const missing = missingFirstWords(editor.job.value);
  const placed = missing === null;
  return (
    <div class="plan-pictures">
      <ChoiceField label="Picture" value={pane.value} choices={PANES} onChange={(next) => (pane.value = next)} />
      {pane.value === 'flown' && <PilotView />}
      {placed && pane.value === 'sky' && <SkyView />}
      {placed && pane.value === 'ground' && <PlacementView />}
      {placed && pane.value === 'day' && (
        <>
          <DayView />
          <DaysView />
        </>
      )}
      {placed && pane.value === 'layers' && <LayersView />}
      {placed && pane.value === 'checks' && <ChecksView />}
      {!placed && pane.value !== 'flown' && (
        <p class="notice" role="status">
          {missing} Until then there is no place and no hour to show.
        </p>
      )}
    </div>
  );
}
