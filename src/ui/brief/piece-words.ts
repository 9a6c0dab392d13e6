import type { CardPiece } from '../../core/plan/flight-card.ts';
import { degreesFromRadians } from '../../core/units/angle.ts';
import { formatBearing, formatNumber } from '../../core/text/number-formats.ts';

/** `L152°→047` for a turn left through 152 degrees onto 047, `4s` for four seconds straight. */
export function pieceWords(pieces: readonly CardPiece[], compassDegrees: (headingRadians: number) => number): string[] {
  return pieces.map((piece) =>
    piece.kind === 'straight'
      ? `${formatNumber(piece.seconds)}s`
      : `${piece.kind === 'left' ? 'L' : 'R'}${formatNumber(degreesFromRadians(piece.turnRadians))}°→${formatBearing(compassDegrees(piece.headingRadians))}`,
  );
}
