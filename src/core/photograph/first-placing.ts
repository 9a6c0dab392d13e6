import { addRow, emptyEquations, inverseOf, times } from './least-squares.ts';
import type { FromEye, PhotoPoint } from './photo-camera.ts';
import { projector } from './photo-camera.ts';
import { cameraOf, movedBy, type PicturePose, poseOf, type PosePrior, STEPS, vectorOf } from './picture-pose.ts';

/** A point of the word, and where somebody sees it in the picture. */
export interface Handle {
  readonly point: FromEye;
  readonly seenAt: PhotoPoint;
}

const ROUNDS = 40;

/**
 * The pose under which some points of the word fall where they are seen, as nearly as what is believed beforehand
 * allows (Levenberg and Marquardt). Four handles dragged by hand are far from exact; {@link alignWord} goes on from here.
 *
 * @param handleSigmaPixels how well a hand places a point
 */
export function poseFromHandles(
  handles: readonly Handle[],
  prior: PosePrior,
  widthPixels: number,
  heightPixels: number,
  handleSigmaPixels: number,
): PicturePose {
  const mean = vectorOf(prior.mean);
  const weights = vectorOf(prior.sigma).map((sigma) => 1 / sigma ** 2);
  const handleWeight = 1 / handleSigmaPixels ** 2;
  const seen = (vector: readonly number[]): (PhotoPoint | null)[] => {
    const pose = poseOf(vector);
    const project = projector(cameraOf(pose, widthPixels, heightPixels));
    return handles.map(({ point }) => project(movedBy(pose, point)));
  };
  const costOf = (vector: readonly number[]): number => {
    let cost = vector.reduce((sum, value, index) => sum + weights[index]! * (value - mean[index]!) ** 2, 0);
    seen(vector).forEach((at, index) => {
      const { seenAt } = handles[index]!;
      cost += at === null ? 1e12 : handleWeight * ((at.x - seenAt.x) ** 2 + (at.y - seenAt.y) ** 2);
    });
    return cost;
  };
  let best = mean;
  let bestCost = costOf(best);
  let damping = 1e-3;
  for (let round = 0; round < ROUNDS; round++) {
    const equations = emptyEquations(mean.length);
    weights.forEach((weight, index) => {
      const row = mean.map((_, other) => (other === index ? 1 : 0));
      addRow(equations, row, mean[index]! - best[index]!, weight);
    });
    const here = seen(best);
    const moved = STEPS.map((step, index) => seen(best.map((value, other) => (other === index ? value + step : value))));
    here.forEach((at, index) => {
      if (at === null) return;
      const { seenAt } = handles[index]!;
      for (const axis of ['x', 'y'] as const) {
        const row = STEPS.map((step, unknown) => ((moved[unknown]![index]?.[axis] ?? at[axis]) - at[axis]) / step);
        addRow(equations, row, seenAt[axis] - at[axis], handleWeight);
      }
    });
    for (let index = 0; index < mean.length; index++) equations.matrix[index * mean.length + index]! *= 1 + damping;
    const inverse = inverseOf(equations.matrix, mean.length);
    if (inverse === null) break;
    const step = times(inverse, equations.right);
    const tried = best.map((value, index) => value + step[index]!);
    const cost = costOf(tried);
    if (cost < bestCost) {
      const gain = bestCost - cost;
      [best, bestCost] = [tried, cost];
      damping = Math.max(1e-9, damping / 4);
      if (gain < 1e-9 * bestCost) break;
    } else {
      damping *= 8;
      if (damping > 1e9) break;
    }
  }
  return poseOf(best);
}
