import type { PathSink } from '../../core/letters/letter-drawing.ts';
import { type PictureView, pictureDirection, picturePoint } from './picture-view.ts';

/** Passes a drawing on as it looks through a view: metres of the frame in, picture pixels (up positive) out. */
export function viewSink(view: PictureView, sink: PathSink): PathSink {
  return {
    moveTo(x, y) {
      const { xPixels, upPixels } = picturePoint(x, y, view);
      sink.moveTo(xPixels, upPixels);
    },
    lineTo(x, y) {
      const { xPixels, upPixels } = picturePoint(x, y, view);
      sink.lineTo(xPixels, upPixels);
    },
    arcTo(arc) {
      const centre = picturePoint(arc.centreX, arc.centreY, view);
      const end = picturePoint(arc.endX, arc.endY, view);
      sink.arcTo({
        centreX: centre.xPixels,
        centreY: centre.upPixels,
        radius: arc.radius * view.pixelsPerMetre,
        startRadians: pictureDirection(arc.startRadians, view),
        sweepRadians: view.mirrored ? -arc.sweepRadians : arc.sweepRadians,
        endX: end.xPixels,
        endY: end.upPixels,
      });
    },
  };
}
