import words from '../reference/words-open.json' with { type: 'json' };
import { measure, measureDubins, median } from './planner-measures.ts';

/** Prints what planning takes, by length of text, and what a turn-limited length takes beside a textbook version. */
export async function benchPlanner(): Promise<void> {
  measure('WARM');
  const texts = words.words.filter((word) => word.length <= 5).slice(0, 12);
  const groups = { '3 to 5 letters': texts, '14 letters': ['KINDNESS SPRING', 'DOLPHIN DIAMOND', 'RESPECT WELCOME'], '20 letters': ['RAINBOW WELCOME SPRING'] };
  for (const [name, group] of Object.entries(groups)) {
    const measured = group.map((text) => measure(text));
    const share = median(measured.map(({ shareOfPlain }) => shareOfPlain));
    const gap = Math.max(...measured.map((one) => one.gap));
    console.log(
      `${name}: ${median(measured.map(({ wallSeconds }) => wallSeconds)).toFixed(3)} s, ${share.toFixed(3)} of plain order, gap shown at most ${(100 * gap).toFixed(2)} %`,
    );
  }
  const { lengthSeconds, pathSeconds, textbookSeconds } = measureDubins();
  const nanoseconds = (value: number): string => `${(value * 1e9).toFixed(0)} ns`;
  console.log(`turn-limited length ${nanoseconds(lengthSeconds)}, with its path ${nanoseconds(pathSeconds)}, textbook ${nanoseconds(textbookSeconds)}`);
}
