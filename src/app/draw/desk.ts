import type { ReadonlySignal, Signal } from '@preact/signals';
import type { JobConditions } from '../../core/job/job.ts';
import type { SmokeCalibration } from '../../core/sky/smoke-calibration.ts';
import type { PlannedJob } from '../../core/plan/planned-job.ts';
import type { GoNoGo } from '../../core/checks/go-no-go.ts';
import type { PlanningProblem } from '../planning-problem.ts';
import type { JobEditor } from './job-editor.ts';
import type { JobVersions } from './job-versions.ts';
import type { OverlayDesk } from './overlay-desk.ts';
import type { RulesChoice } from './rules-choice.ts';
import type { KeptShelf } from '../kept/kept-things.ts';
import type { Player } from '../player.ts';
import type { Reading } from '../../core/sky/reading-of.ts';

/** The pictures of a plan, of which one is shown at a time. */
export type Pane = 'flown' | 'sky' | 'ground' | 'day' | 'layers' | 'checks';

/** What is at the top of the pilot's picture. */
export type PilotUp = 'north' | 'first-stroke';

/** Everything the parts of the Draw screen share. */
export interface PlanDesk {
  readonly editor: JobEditor;
  /** The last plan that worked; it stays while the next is being made and while there is none. */
  readonly planned: ReadonlySignal<PlannedJob | null>;
  readonly problem: ReadonlySignal<PlanningProblem | null>;
  /** A first plan is on its way: its room is kept. */
  readonly awaited: ReadonlySignal<boolean>;
  /** How far the next plan is, 0 to 1; null when none is being made. */
  readonly busyFraction: ReadonlySignal<number | null>;
  /** The settled job with one choice made otherwise, by name; see `otherJobs`. */
  readonly otherPlans: ReadonlySignal<ReadonlyMap<string, PlannedJob | null>>;
  /** The plan once it has stood for a moment: for what takes longer to work out than a keystroke leaves. */
  readonly settled: ReadonlySignal<PlannedJob | null>;
  /** What becomes of the settled plan in the sky; worked out when first asked for. */
  readonly sky: ReadonlySignal<Reading | null>;
  readonly player: Player;
  /** Plan A of a comparison; B is the one on the desk. */
  readonly keptPlan: Signal<PlannedJob | null>;
  /** Go or no-go of the settled plan, worked out when first asked for. */
  readonly checks: ReadonlySignal<GoNoGo | null>;
  /** Which picture is shown. */
  readonly pane: Signal<Pane>;
  /** What was looked up on the day, as the job has it. */
  readonly conditions: ReadonlySignal<JobConditions>;
  setConditions(conditions: JobConditions): void;
  /** How fast smoke spread when a debrief last measured it; null for the published values. */
  readonly calibration: ReadonlySignal<SmokeCalibration | null>;
  readonly overlay: OverlayDesk;
  /** What two tabs typed into the same fields. */
  readonly versions: JobVersions;
  /** What is entered once and used in many jobs. */
  readonly kept: KeptShelf;
  /** Whose rules of the air the checks hold against. */
  readonly rules: RulesChoice;
  readonly pilotUp: Signal<PilotUp>;
  /** The ship whose strokes are numbered. */
  readonly shipIndex: Signal<number>;
}
