import type { ShearVector } from '../earth/wind-profile.ts';
import { letterDepth, letterSmokes } from './letter-smoke.ts';
import { contrastFromDepth } from './plume.ts';
import { type ReadableRadius, readableRadius } from './readable-radius.ts';
import type { SmokeCase } from './smoke-range.ts';
import type { Trail } from './trail.ts';

/** What a readable radius depends on besides the smoke's own age. */
export interface ReadableRequest {
  readonly letterHeightMetres: number;
  readonly aboveGroundMetres: number;
  /** Null where the winds do not tell. */
  readonly shear: ShearVector | null;
  /** Null for air that takes no contrast. */
  readonly visibilityMetres: number | null;
  readonly smoke: SmokeCase;
}

/**
 * From how far around the point below it a text is read at a time since the first smoke, by its faintest letter.
 *
 * @returns radius 0, faint, without smoke
 * @throws RangeError as {@link readableRadius}
 */
export function readableAt(trails: readonly Trail[], atSeconds: number, request: ReadableRequest): ReadableRadius {
  const { letterHeightMetres, aboveGroundMetres, shear, visibilityMetres, smoke } = request;
  const depths = letterSmokes(trails, letterHeightMetres, shear).map((letter) => letterDepth(letter, smoke, atSeconds));
  const contrast = depths.length === 0 ? 0 : contrastFromDepth(Math.min(...depths));
  return readableRadius(letterHeightMetres, aboveGroundMetres, contrast, visibilityMetres);
}
