import type { Plan } from '../../src/core/plan/plan.ts';
import words from '../reference/words-open.json' with { type: 'json' };
import { measure, median } from './planner-measures.ts';

/** Seconds of smoke and of flying between strokes. */
function shares(plan: Plan): { readonly smoke: number; readonly between: number } {
  let smoke = 0;
  let between = 0;
  for (const leg of plan.ships.flatMap(({ legs }) => legs)) {
    const seconds = leg.endSeconds - leg.startSeconds;
    if (leg.kind === 'smoke') smoke += seconds;
    else between += seconds;
  }
  return { smoke, between };
}

/** The order in which a plan writes: letter index, style and strokes of each leg. */
function written(plan: Plan): string {
  return plan.ships
    .flatMap(({ legs }) => legs)
    .flatMap((leg, index, legs) => {
      if (leg.kind !== 'smoke') return [];
      const before = legs[index - 1];
      const gap = before === undefined || before.kind === 'smoke' ? '' : `(${(before.endSeconds - before.startSeconds).toFixed(0)}) `;
      return [`${gap}${leg.character}.${leg.style}:${leg.sources.map(({ drawnStrokeIndex }) => drawnStrokeIndex).join('+')}`];
    })
    .join(' ');
}

/** Prints for each word where the time goes, in plain letter order and as planned, and which drawings are used. */
export async function benchPlannerWords(): Promise<void> {
  measure('WARM');
  const used = new Map<string, number>();
  const rows = words.words.filter((word) => word.length <= 5).map((word) => measure(word));
  for (const { text, plain, plan, shareOfPlain } of rows.toSorted((one, other) => one.shareOfPlain - other.shareOfPlain)) {
    const before = shares(plain);
    const after = shares(plan);
    const whole = (seconds: number): string => seconds.toFixed(0).padStart(4);
    console.log(
      `${text.padEnd(6)}${shareOfPlain.toFixed(3)}  plain ${whole(plain.durationSeconds)} = smoke ${whole(before.smoke)} + between ${whole(before.between)}` +
        `  planned ${whole(plan.durationSeconds)} = ${whole(after.smoke)} + ${whole(after.between)}  ${written(plan)}`,
    );
    const styles = new Set(plan.ships[0]!.legs.flatMap((leg) => (leg.kind === 'smoke' ? [`${leg.letterIndex} ${leg.character} ${leg.style}`] : [])));
    for (const style of styles) {
      const name = style.slice(style.indexOf(' ') + 1);
      used.set(name, (used.get(name) ?? 0) + 1);
    }
  }
  console.log(
    [...used]
      .map(([name, times]) => `${name} ${times}`)
      .toSorted((one, other) => one.localeCompare(other))
      .join(', '),
  );
  console.log(`median ${median(rows.map(({ shareOfPlain }) => shareOfPlain)).toFixed(3)}`);
}
