import { DRAWING_LENGTHS } from './drawing-lengths.ts';
import { choice, group, list, name, number, yesOrNo } from '../text/field-schemas.ts';

const stroke = group({
  xDepths: number([-20, 20], 'Where it begins, from the drawing\u2019s middle along reading, in depths of the drawing.'),
  yDepths: number([-20, 20], 'Towards the top.'),
  directionDegrees: number([0, 360], 'Anticlockwise from the reading direction, as the crowd sees it.'),
  closed: yesOrNo('Whether it ends where and as it began.'),
  segments: list(
    group({
      lengthDepths: number([0, 100]),
      curvaturePerDepth: number([-1000, 1000], 'Positive turning left as the crowd sees it; 0 is straight.'),
    }),
    [1, DRAWING_LENGTHS.segments],
  ),
});

/** A drawing that stands with the words, as strokes a ship flies: lines and arcs that pass into each other. */
export const DRAWINGS_SCHEMA = list(
  group({
    name: name(),
    place: choice(['before', 'after', 'above', 'below'], 'Where it stands to the words; without words the drawings stand side by side.'),
    depthFeet: number([100, 20_000], 'From its lowest point to its highest.'),
    strokes: list(stroke, [1, DRAWING_LENGTHS.strokes]),
  }),
  [0, DRAWING_LENGTHS.drawings],
  'Drawings beside the words. May be missing.',
);
