import { useSignal } from '@preact/signals';
import type { VNode } from 'preact';
import { ChoiceField } from '../parts/ChoiceField.tsx';
import { PilotView } from './PilotView.tsx';
import { PlacementView } from './PlacementView.tsx';
import { SkyView } from './SkyView.tsx';

type Pane = 'flown' | 'sky' | 'ground';

const PANES: readonly { readonly value: Pane; readonly label: string }[] = [
  { value: 'flown', label: 'As flown' },
  { value: 'sky', label: 'In the sky' },
  { value: 'ground', label: 'Over the ground' },
];

/** One picture of the plan at a time, kept in sight while the entries beside it scroll. */
export function PlanPictures(): VNode {
  const pane = useSignal<Pane>('flown');
  return (
    <div class="plan-pictures">
      <ChoiceField label="Picture" value={pane.value} choices={PANES} onChange={(next) => (pane.value = next)} />
      {pane.value === 'flown' && <PilotView />}
      {pane.value === 'sky' && <SkyView />}
      {pane.value === 'ground' && <PlacementView />}
    </div>
  );
}
