/** The most drawings of a job, strokes of a drawing, and lines and arcs of a stroke. */
export const DRAWING_LENGTHS = { drawings: 3, strokes: 60, segments: 200 } as const;
