import type { VNode } from 'preact';
import { useId, useMemo } from 'preact/hooks';
import { type Hand, HANDS } from '../../../core/letters/hand.ts';
import type { PlannedJob } from '../../../core/plan/planned-job.ts';
import { readingOf } from '../../../core/sky/reading-of.ts';
import { LetterPicture } from '../../drawing/LetterPicture.tsx';
import { planePathFromAir } from '../../drawing/plane-path.ts';
import { useDesk } from '../desk-context.ts';
import { HAND_NAMES } from '../hand-names.ts';
import { handPriceWords } from '../hand-price-words.ts';
import { useUnitText } from '../../fields/units-context.ts';

/** What speaks for each hand. */
const HAND_WORDS: Readonly<Record<Hand, string>> = {
  capitals: 'every corner crisp',
  'round-capitals': 'known at once, corners rounded',
  quickest: 'N becomes an arch, W an omega',
  joined: 'for short names; known less surely',
};

/** The hands to choose from, each with the words as it writes them and what that takes. */
export function HandChoice(): VNode {
  const { editor, problem, settled, otherPlans } = useDesk();
  const name = useId();
  const now = settled.value;
  const chosen = editor.job.value.options.hand;
  const planned = (hand: Hand): PlannedJob | null | undefined => {
    // What stands on the screen is then the plan before.
    if (hand === chosen && problem.value !== null) return null;
    return now?.job.options.hand === hand && problem.value === null ? now : otherPlans.value.get(hand);
  };
  return (
    <fieldset class="hand-choice">
      <legend>Hand</legend>
      {HANDS.map((hand) => (
        <label key={hand} class="hand" data-hand={hand}>
          <input
            type="radio"
            name={name}
            value={hand}
            checked={hand === chosen}
            onChange={() => editor.edit('hand', (job) => ({ ...job, options: { ...job.options, hand } }))}
          />
          <span class="hand-words">
            <strong>{HAND_NAMES[hand]}</strong>
            <span class="visually-hidden">, {HAND_WORDS[hand]}</span>
          </span>
          <HandPrice hand={hand} planned={planned(hand)} />
        </label>
      ))}
      {chosen !== 'round-capitals' && (
        <p class="small hand-says" aria-hidden="true">
          {HAND_NAMES[chosen]}: {HAND_WORDS[chosen]}.
        </p>
      )}
    </fieldset>
  );
}

function HandPrice({ hand, planned }: { readonly hand: Hand; readonly planned: PlannedJob | null | undefined }): VNode {
  const units = useUnitText();
  const { calibration } = useDesk();
  const strokes = useMemo(
    () => planned?.plan.ships.flatMap(({ legs }) => legs.flatMap((leg) => (leg.kind === 'smoke' ? [planePathFromAir(leg.path)] : []))) ?? [],
    [planned?.plan],
  );
  const window = useMemo(() => (planned == null ? null : readingOf(planned, calibration.value).window), [planned, calibration.value]);
  if (planned == null) return <span class="small hand-price">{planned === null ? 'cannot be flown like this' : 'working it out'}</span>;
  const { plan } = planned;
  return (
    <>
      <LetterPicture
        strokes={strokes}
        letterHeightMetres={plan.letterHeightMetres}
        facingRadians={plan.frame.facingRadians}
        shares={null}
        maximumHeightPixels={50}
        description={`${plan.text} in ${HAND_NAMES[hand].toLowerCase()}`}
      />
      <span class="small hand-price">{window === null ? '' : handPriceWords(plan, window, units)}</span>
    </>
  );
}
