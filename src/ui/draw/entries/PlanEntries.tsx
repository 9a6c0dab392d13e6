import type { ComponentChildren, VNode } from 'preact';
import type { Job } from '../../../core/job/job.ts';
import { formatBearing, formatNumber } from '../../../core/text/number-formats.ts';
import { isEntered, missingEntries, missingFirstWords } from '../../../core/job/not-entered.ts';
import { ArtworkEntry } from './ArtworkEntry.tsx';
import { BookingEntry } from './office/BookingEntry.tsx';
import { useDesk } from '../desk-context.ts';
import { Fold } from '../../fields/Fold.tsx';
import { HAND_NAMES } from '../hand-names.ts';
import { HandChoice } from './HandChoice.tsx';
import { HeightStepFigures } from '../HeightStepFigures.tsx';
import { LetterSettings } from './LetterSettings.tsx';
import { LimitFigures } from '../LimitFigures.tsx';
import { OrderSettings } from './OrderSettings.tsx';
import { PlaceSettings } from './PlaceSettings.tsx';
import { SectionChecks } from './SectionChecks.tsx';
import { SmokeCrossings } from '../SmokeCrossings.tsx';
import { ShipsSettings } from './ShipsSettings.tsx';
import { UnitsEntry } from './UnitsEntry.tsx';
import { WindsEntry } from './winds/WindsEntry.tsx';
import type { UnitText } from '../../../core/text/unit-text.ts';
import { useUnitText } from '../../fields/units-context.ts';

/** Everything of the job that the plan depends on, folded under what it is set to. */
export function PlanEntries(): VNode {
  const units = useUnitText();
  const { editor } = useDesk();
  const job = editor.job.value;
  return (
    <div class="plan-entries">
      <Question asks="What?">
        <Fold title="Letters" said={lettersSaid(job, units)} open>
          <HandChoice />
          <LetterSettings />
          <SectionChecks of={['reading']} />
          <LimitFigures />
        </Fold>
        <Fold title="Drawings" said={job.drawings.length === 0 ? 'from an SVG file' : job.drawings.map(({ name }) => name).join(', ')}>
          <ArtworkEntry />
        </Fold>
      </Question>
      <Question asks="When and where?">
        <Fold title="Where and when" said={placeSaid(job, units)}>
          <PlaceSettings />
          <SectionChecks of={['height', 'oxygen', 'daylight', 'sun', 'cloud', 'visibility', 'areas', 'variation']} />
        </Fold>
        <Fold title="Winds aloft" said={job.winds.length === 0 ? 'none' : `${job.winds.length} ${job.winds.length === 1 ? 'height' : 'heights'}`}>
          <WindsEntry />
          <SectionChecks of={['wind', 'shear']} />
        </Fold>
      </Question>
      <Question asks="Who flies?">
        <Fold title="Ships" said={shipsSaid(job, units)}>
          <ShipsSettings />
          <SectionChecks of={['oil', 'fuel', 'bank', 'separation', 'balance']} />
          <HeightStepFigures />
          <SmokeCrossings />
        </Fold>
      </Question>
      <Question asks="How?">
        <Fold title="Order" said={orderSaid(job)}>
          <OrderSettings />
        </Fold>
      </Question>
      <Question asks="For whom?">
        <Fold title="Booking" said={bookingSaid(job)}>
          <BookingEntry />
          <SectionChecks of={['permission', 'call']} />
        </Fold>
        <UnitsEntry />
      </Question>
    </div>
  );
}

/** What a pilot asks, over the entries that answer it. */
function Question({ asks, children }: { readonly asks: string; readonly children: ComponentChildren }): VNode {
  return (
    <section class="plan-question" aria-label={asks}>
      <p class="plan-question-words">{asks}</p>
      {children}
    </section>
  );
}

function bookingSaid(job: Job): string {
  const missing = missingEntries(job).length;
  return missing === 0 ? job.name : `${job.name}, ${missing} not entered`;
}

function lettersSaid({ letters, options }: Job, units: UnitText): string {
  return `${HAND_NAMES[options.hand].toLowerCase()}, ${units.height.own(letters.heightFeet)}, gap ${formatNumber(letters.spacingHeights, 2)}`;
}

function orderSaid({ options }: Job): string {
  return `${options.letterOrder === 'reading' ? 'letter after letter' : 'any order'}, ${options.progress === 'into-wind' ? 'into the wind' : 'either way'}`;
}

function shipsSaid(job: Job, units: UnitText): string {
  const { ships } = job;
  const lead = ships[0];
  if (lead === undefined) return 'none';
  if (!isEntered(job, 'ships.trueAirspeedKnots')) return `${ships.length}, not entered`;
  const banks =
    lead.writingBankDegrees === lead.turningBankDegrees
      ? `${formatNumber(lead.writingBankDegrees)}\u00b0`
      : `${formatNumber(lead.writingBankDegrees)}\u00b0 and ${formatNumber(lead.turningBankDegrees)}\u00b0`;
  return `${ships.length}, ${units.speed.own(lead.trueAirspeedKnots)}, bank ${banks}`;
}

function placeSaid(job: Job, units: UnitText): string {
  const { facingDegreesTrue, viewElevationDegrees, layer } = job;
  if (missingFirstWords(job) !== null) return 'not all entered';
  return `facing ${formatBearing(facingDegreesTrue)}\u00b0, ${formatNumber(viewElevationDegrees)}\u00b0 high, ${units.height.own(layer.altitudeFeet)}`;
}
