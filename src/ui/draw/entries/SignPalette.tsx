import type { VNode } from 'preact';
import { useMemo } from 'preact/hooks';
import { glyphAlternatives } from '../../../core/letters/alphabet.ts';
import { letterPathFromGlyph } from '../../../core/letters/glyph-path.ts';
import { createSvgPathSink, drawSegments } from '../../../core/letters/letter-drawing.ts';

/** Signs that no keyboard of a tablet shows first, with the names a person asks for them by. */
const SIGNS: readonly (readonly [sign: string, name: string])[] = [
  ['♥', 'Heart'],
  ['★', 'Star'],
  ['→', 'Arrow'],
  ['☺', 'Smile'],
  ['⚡', 'Bolt'],
  ['♪', 'Note'],
  ['○', 'Ring'],
  ['&', 'And'],
  ['@', 'At'],
  ['#', 'Hash'],
  ['%', 'Per cent'],
  ['€', 'Euro'],
  ['$', 'Dollar'],
  ['Æ', 'Æ'],
  ['Œ', 'Œ'],
  ['Ø', 'Ø'],
  ['Þ', 'Þ'],
  ['¡', 'Opening exclamation mark'],
  ['¿', 'Opening question mark'],
];

/** The radius a sign is shown with, in its heights: that of usual letters and banks. */
const SHOWN_RADIUS_HEIGHTS = 0.25;

/** Signs to pick from, each as it will be drawn. */
export function SignPalette({ onPick }: { readonly onPick: (sign: string) => void }): VNode {
  return (
    <details class="sign-palette">
      <summary>Signs</summary>
      <div class="signs">
        {SIGNS.map(([sign, name]) => (
          <button key={sign} type="button" class="sign" aria-label={name} title={name} onClick={() => onPick(sign)}>
            <SignPicture sign={sign} />
          </button>
        ))}
      </div>
    </details>
  );
}

function SignPicture({ sign }: { readonly sign: string }): VNode | null {
  const drawn = useMemo(() => {
    const [glyph] = glyphAlternatives(sign, SHOWN_RADIUS_HEIGHTS);
    if (glyph === undefined) return null;
    const sink = createSvgPathSink(3);
    for (const stroke of glyph.strokes) {
      const { start, segments } = letterPathFromGlyph(stroke, 1, 0, 0);
      drawSegments(start.xMetres, start.yMetres, start.directionRadians, segments, sink);
    }
    return { pathData: sink.pathData(), widthHeights: glyph.widthHeights };
  }, [sign]);
  if (drawn === null) return null;
  return (
    <svg viewBox={`${drawn.widthHeights / 2 - 0.9} -1.4 1.8 1.8`} aria-hidden="true">
      <path d={drawn.pathData} fill="none" stroke="currentColor" stroke-width={0.11} stroke-linecap="round" />
    </svg>
  );
}
