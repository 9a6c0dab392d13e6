import { describe, expect, test } from 'vitest';
import { charactersOf, drawableText } from '../../../src/core/letters/drawable-text.ts';
import { glyphAlternatives } from '../../../src/core/letters/alphabet.ts';
import { nearestCharacter } from '../../../src/core/letters/nearest-character.ts';

const drawn = (character: string): boolean => glyphAlternatives(character, 0.25).length > 0;

describe('what is typed', () => {
  // Full width and ligatures: Unicode 16, annex 15 (NFKC). Picture forms: Unicode Technical Standard 51.
  test.each([
    ['i ❤️ you', 'I ♥ YOU'],
    ['i <3 you', 'I ♥ YOU'],
    ['⭐🌟', '★★'],
    ['ＳＡＩＬ！', 'SAIL!'],
    ['“it’s”', '"IT\'S"'],
    ['a–b', 'A-B'],
    ['ﬁn', 'FIN'],
    ['straße', 'STRASSE'],
    ['go➡️', 'GO→'],
    ['👍🏽', '👍'],
    [':) 🙂', '☺ ☺'],
  ])('%s is drawn as %s', (typed, expected) => expect(drawableText(typed)).toBe(expected));

  test('every sign asked for has a drawing that can be flown at 45 degrees and 1,200 m', () => {
    for (const sign of ':"()/=*%$€@¡¿ÆŒÞ♥★→☺⚡♪+○') expect(drawn(sign), sign).toBe(true);
  });

  test('what has no drawing is named with the nearest that has', () => {
    expect(['Ж', 'Д', '漢'].map((each) => nearestCharacter(each, drawn))).toEqual([null, null, null]);
    expect(['Ạ', 'В', 'Ħ', '[', '\\', '£', '«'].map((each) => nearestCharacter(each, drawn))).toEqual(['A', 'B', 'H', '(', '/', 'L', null]);
  });

  test('every nearest character is drawn, and nothing drawn has another one', () => {
    for (const code of Array.from({ length: 0x2800 }, (_, index) => index + 0x21)) {
      const [character = ''] = charactersOf(drawableText(String.fromCodePoint(code)));
      if (character === '' || drawn(character)) continue;
      const nearest = nearestCharacter(character, drawn);
      if (nearest !== null) expect(drawn(nearest), character).toBe(true);
    }
  });
});
