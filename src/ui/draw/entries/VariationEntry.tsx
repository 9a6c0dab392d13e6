import type { VNode } from 'preact';
import { useState } from 'preact/hooks';
import type { JobSite } from '../../../core/job/job.ts';
import { jobLimits } from '../../../core/job/job-limits.ts';
import { type JobVariation, jobVariation } from '../../../core/job/job-variation.ts';
import { isEntered } from '../../../core/job/not-entered.ts';
import { formatNumber } from '../../../core/text/number-formats.ts';
import { LocalTimeField } from '../../fields/LocalTimeField.tsx';
import { NumberCell } from '../../fields/NumberCell.tsx';
import { utcText } from '../../words/zoned-time.ts';
import { useDesk } from '../desk-context.ts';

const UNPLACED: JobVariation = { ok: false, reason: 'The model tells it once the site\u2019s position is entered', byHandOf: null };

/** Magnetic variation: the model's, and the pilot's own with its day, for always or for when the model ends. */
export function VariationEntry(): VNode {
  const { editor } = useDesk();
  const job = editor.job.value;
  const hand = job.site.variationByHand;
  const [today] = useState(() => utcText(Date.now()));
  const set = (variationByHand: JobSite['variationByHand']): void =>
    editor.edit('variation by hand', (before) => ({ ...before, site: { ...before.site, variationByHand } }));
  const placed = ['site.latitudeDegrees', 'site.longitudeDegrees'].every((path) => isEntered(job, path));
  const used = placed || hand?.always === true ? jobVariation(job, 0, Date.parse(job.readTime)) : UNPLACED;
  return (
    <div class="variation-entry">
      <div class="fields">
        <div class="field">
          <span aria-hidden="true">Variation by hand, {'\u00b0'}, east positive</span>
          <NumberCell
            label="Magnetic variation by hand, degrees, east positive; empty takes the model's"
            value={hand?.eastDegrees ?? Number.NaN}
            limits={jobLimits('site.variationByHand.eastDegrees')}
            placeholder="the model\u2019s"
            onChange={(eastDegrees) => set({ eastDegrees, ofTime: hand?.ofTime ?? today, always: hand?.always ?? true })}
            onEmpty={() => set(null)}
          />
        </div>
        {hand !== null && (
          <LocalTimeField label="Of" time={hand.ofTime} timeZone={job.site.timeZone} onChange={(ofTime) => ofTime !== null && set({ ...hand, ofTime })} />
        )}
      </div>
      {hand !== null && (
        <label class="check-line">
          <input type="checkbox" checked={hand.always} onChange={(event) => set({ ...hand, always: event.currentTarget.checked })} /> always, not only where the
          model ends
        </label>
      )}
      <p class="small" data-variation={used.ok ? used.variationDegrees.toFixed(2) : ''}>
        {used.ok
          ? `Magnetic is true ${used.variationDegrees < 0 ? 'plus' : 'less'} ${formatNumber(Math.abs(used.variationDegrees), 1)}\u00b0, ${used.byHandOf === null ? 'by the World Magnetic Model 2025' : `entered by hand for ${used.byHandOf.slice(0, 10)}`}.`
          : `${used.reason}.`}
      </p>
    </div>
  );
}
