import type { VNode } from 'preact';
import { Comparison } from './Comparison.tsx';
import { CrowdView } from './CrowdView.tsx';
import { useDesk } from './desk.ts';
import { EditState } from './EditState.tsx';
import { Fold } from './Fold.tsx';
import { LetterSettings } from './LetterSettings.tsx';
import { LimitFigures } from './LimitFigures.tsx';
import { OrderSettings } from './OrderSettings.tsx';
import { PilotView } from './PilotView.tsx';
import { PlanFigures } from './PlanFigures.tsx';
import { PlacementView } from './PlacementView.tsx';
import { PlayerBar } from './PlayerBar.tsx';
import { ShipsSettings } from './ShipsSettings.tsx';
import { SkyView } from './SkyView.tsx';
import { TextEntry } from './TextEntry.tsx';
import { WindsEntry } from './WindsEntry.tsx';
import { PlaceSettings } from './PlaceSettings.tsx';

/** The Plan screen once its job is at hand: the words, the pictures, what they take, and what to turn. */
export function PlanDeskView(): VNode {
  const { editor } = useDesk();
  return (
    <div class="plan-desk">
      <header class="plan-head">
        <h1>{editor.job.value.name}</h1>
        <EditState />
      </header>
      <TextEntry />
      <CrowdView />
      <PlayerBar />
      <div class="plan-columns">
        <PilotView />
        <div class="plan-side">
          <PlanFigures />
          <Comparison />
        </div>
      </div>
      <div class="plan-folds">
        <Fold title="In the sky" open>
          <SkyView />
        </Fold>
        <Fold title="Letters" open>
          <LetterSettings />
          <LimitFigures />
        </Fold>
        <Fold title="Order and corners" open>
          <OrderSettings />
        </Fold>
        <Fold title="Ships" open>
          <ShipsSettings />
        </Fold>
        <Fold title="Where and when" open>
          <PlaceSettings />
          <PlacementView />
        </Fold>
        <Fold title="Winds aloft" open>
          <WindsEntry />
        </Fold>
      </div>
    </div>
  );
}
