/** A picture that iOS shows while an app of the home screen starts: taken only where its size is that of the screen, to the pixel. */
export interface LaunchPicture {
  /** Below `public/`. */
  readonly path: string;
  readonly widthPixels: number;
  readonly heightPixels: number;
  /** Which screen it is for. */
  readonly media: string;
}

/**
 * Screens upright, in points, and pixels to a point: phones and tablets since 2014, from Apple's Human Interface Guidelines,
 * "Layout", the table of device dimensions (from memory).
 */
const SCREENS = [
  [375, 667, 2],
  [414, 736, 3],
  [375, 812, 3],
  [414, 896, 2],
  [414, 896, 3],
  [390, 844, 3],
  [428, 926, 3],
  [393, 852, 3],
  [430, 932, 3],
  [402, 874, 3],
  [420, 912, 3],
  [440, 956, 3],
  [744, 1133, 2],
  [768, 1024, 2],
  [810, 1080, 2],
  [820, 1180, 2],
  [834, 1112, 2],
  [834, 1194, 2],
  [834, 1210, 2],
  [1024, 1366, 2],
  [1032, 1376, 2],
] as const;

/** One for each screen, upright and on its side. */
export const LAUNCH_PICTURES: readonly LaunchPicture[] = SCREENS.flatMap(([width, height, scale]) =>
  (['portrait', 'landscape'] as const).map((orientation) => {
    const [across, down] = orientation === 'portrait' ? [width, height] : [height, width];
    return {
      path: `launch/${across * scale}x${down * scale}.png`,
      widthPixels: across * scale,
      heightPixels: down * scale,
      // A device's width stays that of the upright screen.
      media: `(device-width: ${width}px) and (device-height: ${height}px) and (-webkit-device-pixel-ratio: ${scale}) and (orientation: ${orientation})`,
    };
  }),
);
