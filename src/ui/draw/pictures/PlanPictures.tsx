import type { VNode } from 'preact';
import { ChoiceField } from '../../fields/ChoiceField.tsx';
import { ChecksView } from './ChecksView.tsx';
import { DayView } from './DayView.tsx';
import type { Pane } from '../../../app/draw/desk.ts';
import { useDesk } from '../desk-context.ts';
import { LayersView } from './LayersView.tsx';
import { PilotView } from './PilotView.tsx';
import { PlacementView } from './PlacementView.tsx';
import { SkyView } from './SkyView.tsx';

const PANES: readonly { readonly value: Pane; readonly label: string }[] = [
  { value: 'flown', label: 'As flown' },
  { value: 'sky', label: 'In the sky' },
  { value: 'ground', label: 'Over the ground' },
  { value: 'day', label: 'The day' },
  { value: 'layers', label: 'Layers' },
  { value: 'checks', label: 'Go or no-go' },
];

/** One picture of the plan at a time, kept in sight while the entries beside it scroll. */
export function PlanPictures(): VNode {
  const { pane } = useDesk();
  return (
    <div class="plan-pictures">
      <ChoiceField label="Picture" value={pane.value} choices={PANES} onChange={(next) => (pane.value = next)} />
      {pane.value === 'flown' && <PilotView />}
      {pane.value === 'sky' && <SkyView />}
      {pane.value === 'ground' && <PlacementView />}
      {pane.value === 'day' && <DayView />}
      {pane.value === 'layers' && <LayersView />}
      {pane.value === 'checks' && <ChecksView />}
    </div>
  );
}
