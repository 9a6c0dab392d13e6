import { useSignal } from '@preact/signals';
import type { VNode } from 'preact';
import { useMemo } from 'preact/hooks';
import { crowdEyes } from '../../../core/job/crowd-place.ts';
import { driftMetres, siteFromAir } from '../../../core/plan/place.ts';
import { driftCorridor } from '../../../core/place/drift-corridor.ts';
import { plumeSpread } from '../../../core/sky/plume.ts';
import { readableAt } from '../../../core/sky/readable-at.ts';
import { ChoiceField } from '../../fields/ChoiceField.tsx';
import { CorridorMap } from '../../map/CorridorMap.tsx';
import type { PlannedJob } from '../../../core/plan/planned-job.ts';
import { useDesk } from '../desk-context.ts';
import { PlacementFigures } from '../PlacementFigures.tsx';
import type { Reading } from '../../../core/sky/reading-of.ts';

const UNTILS = [
  { value: 'read', label: 'It reads at the longest' },
  { value: 'gone', label: 'It is gone' },
] as const;

/** Where the text is written so that it is read where it should be, and where it drifts from there. */
export function PlacementView(): VNode | null {
  const { settled, sky } = useDesk();
  const [now, its] = [settled.value, sky.value];
  return now === null || its === null ? null : <Placement planned={now} sky={its} />;
}

function Placement({ planned, sky }: { readonly planned: PlannedJob; readonly sky: Reading }): VNode {
  const { overlay } = useDesk().overlay;
  const { plan, job, air, readSeconds } = planned;
  const { goneSeconds, window, trails, smoke } = sky;
  const { visibilityMetres } = air;
  const until = useSignal<'read' | 'gone'>('read');
  const endSeconds = Math.max(until.value === 'read' ? window.until.highSeconds : goneSeconds, readSeconds, plan.durationSeconds);
  const corridor = useMemo(() => {
    const { likely } = smoke;
    const shear = air.shear === null ? likely.assumedShearPerSecond : Math.hypot(air.shear.eastPerSecond, air.shear.northPerSecond);
    return driftCorridor(plan, air.wind, air.layerAboveSiteMetres, endSeconds, plumeSpread(endSeconds, shear, likely.air).horizontalMetres);
  }, [plan, air, endSeconds, smoke]);
  const laid = useMemo(() => trails.map(({ points }) => points.map((point) => siteFromAir(point, air.wind, point.laidAtSeconds))), [trails, air]);
  const eyes = useMemo(() => crowdEyes(job), [job]);
  const readable = useMemo(
    () =>
      readableAt(trails, Math.max(readSeconds, window.fromSeconds), {
        letterHeightMetres: plan.letterHeightMetres,
        aboveGroundMetres: air.layerAboveSiteMetres,
        shear: air.shear,
        visibilityMetres,
        smoke: smoke.likely,
      }),
    [trails, plan, air, readSeconds, window, visibilityMetres, smoke],
  );
  return (
    <div class="placement">
      <div class="placement-map">
        <CorridorMap
          plan={plan}
          corridor={corridor}
          laid={laid}
          driftAtRead={driftMetres(air.wind, readSeconds)}
          driftAtEnd={driftMetres(air.wind, endSeconds)}
          readable={{ centre: siteFromAir(plan.frame.middle, air.wind, readSeconds), radiusMetres: readable.radiusMetres }}
          siteName={job.site.name}
          facingRadians={plan.frame.facingRadians}
          overlay={overlay.value}
          site={air.site}
          namedPoints={job.namedPoints}
          eyes={eyes}
        />
        <ChoiceField label="Drift shown until" value={until.value} choices={UNTILS} onChange={(next) => (until.value = next)} />
      </div>
      <PlacementFigures planned={planned} sky={sky} corridor={corridor} readable={readable} />
    </div>
  );
}
