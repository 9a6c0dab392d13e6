/** A point of a drawing, in CSS pixels from its lower left corner; SVG and canvas turn `up` over when they draw. */
export interface PicturePoint {
  readonly xPixels: number;
  readonly upPixels: number;
}

/** A plane frame laid on a picture: mirrored or not, turned, scaled, then moved. */
export interface PictureView {
  readonly pixelsPerMetre: number;
  /** Turned anticlockwise, after mirroring. */
  readonly turnRadians: number;
  /** The frame's second axis reversed first: how smoke flown in the air-mass frame looks from below. */
  readonly mirrored: boolean;
  readonly originXPixels: number;
  readonly originUpPixels: number;
}

/** The extent of a drawing turned and mirrored as a view wants it, metres from the frame's origin. */
export interface PlaneBox {
  readonly lowXMetres: number;
  readonly highXMetres: number;
  readonly lowYMetres: number;
  readonly highYMetres: number;
}

/** Where a frame's point falls on the picture. */
export function picturePoint(xMetres: number, yMetres: number, view: PictureView): PicturePoint {
  const cosine = view.pixelsPerMetre * Math.cos(view.turnRadians);
  const sine = view.pixelsPerMetre * Math.sin(view.turnRadians);
  const y = view.mirrored ? -yMetres : yMetres;
  return {
    xPixels: view.originXPixels + cosine * xMetres - sine * y,
    upPixels: view.originUpPixels + sine * xMetres + cosine * y,
  };
}

/** A frame's direction on the picture, anticlockwise from its right. */
export function pictureDirection(directionRadians: number, view: PictureView): number {
  return (view.mirrored ? -directionRadians : directionRadians) + view.turnRadians;
}

/**
 * The largest view that shows a turned box inside a picture with a margin all around, centred. A box without
 * extent is shown at one pixel a metre.
 *
 * @param turned the extent for the same turn and mirroring
 */
export function fittingView(
  turned: PlaneBox,
  size: { readonly widthPixels: number; readonly heightPixels: number },
  marginPixels: number,
  turnRadians: number,
  mirrored: boolean,
): PictureView {
  const wideMetres = turned.highXMetres - turned.lowXMetres;
  const highMetres = turned.highYMetres - turned.lowYMetres;
  const across = Math.max(1, size.widthPixels - 2 * marginPixels) / wideMetres;
  const up = Math.max(1, size.heightPixels - 2 * marginPixels) / highMetres;
  const smaller = Math.min(across, up);
  const pixelsPerMetre = Number.isFinite(smaller) ? smaller : 1;
  return {
    pixelsPerMetre,
    turnRadians,
    mirrored,
    originXPixels: size.widthPixels / 2 - (pixelsPerMetre * (turned.lowXMetres + turned.highXMetres)) / 2,
    originUpPixels: size.heightPixels / 2 - (pixelsPerMetre * (turned.lowYMetres + turned.highYMetres)) / 2,
  };
}
