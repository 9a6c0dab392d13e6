import { DemoMark } from '../drawing/DemoMark.tsx';
import type { VNode } from 'preact';
import { Comparison } from './Comparison.tsx';
import { CrowdView } from './pictures/CrowdView.tsx';
import { useDesk } from './desk-context.ts';
import { EditState } from './entries/EditState.tsx';
import { LetterAges } from './LetterAges.tsx';
import { PlanEntries } from './entries/PlanEntries.tsx';
import { PlanExport } from './PlanExport.tsx';
import { PlanFigures } from './PlanFigures.tsx';
import { PlanPictures } from './pictures/PlanPictures.tsx';
import { PlanStrip } from './PlanStrip.tsx';
import { PlayerBar } from './PlayerBar.tsx';
import { TwoVersions } from './entries/TwoVersions.tsx';
import { TextEntry } from './entries/TextEntry.tsx';

/** The Draw screen once its job is at hand: the words, the pictures, what they take, and what to turn. */
export function DrawDeskView(): VNode {
  return (
    <div class="plan-desk">
      <header class="plan-head">
        <JobTitle />
        <EditState />
      </header>
      <TwoVersions versions={useDesk().versions} />
      <DeskMark />
      <TextEntry />
      <CrowdView />
      <PlayerBar />
      <PlanStrip />
      <div class="plan-columns">
        <div class="plan-shown">
          <PlanPictures />
          <PlanFigures />
          <LetterAges />
          <PlanGiven />
          <Comparison />
        </div>
        <div class="plan-side">
          <PlanEntries />
        </div>
      </div>
    </div>
  );
}

/** The plan as a file, named after its words. */
function PlanGiven(): VNode | null {
  const now = useDesk().planned.value;
  return now === null ? null : <PlanExport job={now.job} plan={now.plan} title={`${now.job.name} ${now.plan.text}`} />;
}

/** Apart for the same reason as the title. */
function DeskMark(): VNode {
  return <DemoMark job={useDesk().editor.job.value} />;
}

/** Apart, so that an edit of the job does not draw the whole desk anew. */
function JobTitle(): VNode {
  return <h1>{useDesk().editor.job.value.name}</h1>;
}
