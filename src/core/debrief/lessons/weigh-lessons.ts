import type { Lesson } from './lessons.ts';
import type { Measured } from '../measured.ts';

/** A lesson that was taken over from one real flight. */
export interface LearntLesson {
  /** Flight and kind: a flight teaches one thing once. */
  readonly id: string;
  readonly flightId: string;
  readonly atMilliseconds: number;
  readonly kind: Lesson['kind'];
  /** Whose it is: a ship, its pilot, or the oil. */
  readonly owner: string;
  readonly value: number;
  readonly sigma: number;
  readonly count: number;
}

/**
 * What several flights teach together, each weighed by how sure it is and by how much flights differ from each other
 * (random effects: DerSimonian and Laird 1986, Controlled Clinical Trials 7, 177-188). Two flights that agree within
 * their errors count by 1 / sigma^2; flights that disagree come to count alike. Null for none.
 */
export function weighLessons(lessons: readonly Pick<LearntLesson, 'value' | 'sigma' | 'count'>[]): Measured | null {
  const [first] = lessons;
  if (first === undefined) return null;
  const count = lessons.reduce((sum, lesson) => sum + lesson.count, 0);
  if (lessons.length === 1) return { value: first.value, sigma: first.sigma, count };
  const plain = lessons.map(({ sigma }) => 1 / Math.max(sigma, 1e-6) ** 2);
  const sum = total(plain);
  const mean = total(lessons.map(({ value }, index) => value * (plain[index] ?? 0))) / sum;
  const spread = total(lessons.map(({ value }, index) => (plain[index] ?? 0) * (value - mean) ** 2));
  const scale = sum - total(plain.map((weight) => weight * weight)) / sum;
  const between = scale > 0 ? Math.max(0, (spread - (lessons.length - 1)) / scale) : 0;
  const weights = lessons.map(({ sigma }) => 1 / (Math.max(sigma, 1e-6) ** 2 + between));
  const whole = total(weights);
  return { value: total(lessons.map(({ value }, index) => value * (weights[index] ?? 0))) / whole, sigma: Math.sqrt(1 / whole), count };
}

const total = (values: readonly number[]): number => values.reduce((sum, value) => sum + value, 0);
