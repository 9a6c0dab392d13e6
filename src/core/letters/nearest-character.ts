/** Characters without a drawing, in rows: each row's first character is drawn, and stands nearest to all that follow. */
const ROWS = [
  '(<[{⟨⌈⌊',
  ')>]}⟩⌉⌋',
  '/\\⁄∕',
  'I|¦ƗӀΙІ',
  '-~_¬≈',
  '=≡≠',
  ':;',
  "'^¨",
  '○°●◎◉⊙',
  '★✶✷✸✹☀✡',
  '→←↑↓↔⇐⇑⇓',
  '+†‡✝✞✠',
  '♥♠♣♦',
  'L£',
  'Y¥Υ',
  'CС©Ϲ',
  'R®',
  'AАΑΛ',
  'BВΒ',
  'DÐ',
  'EЕΕ€Ə',
  'HНΗĦ',
  'KКΚ',
  'MМΜ',
  'NΝŊИ',
  'OОΟΩ',
  'PРΡ',
  'SЅ§Ʃ',
  'TТΤŦ',
  'UЏ',
  'XХΧ',
  'YУ',
  'ZΖƵ',
  '3Зʒ',
] as const;

/**
 * A drawn character that stands near one that is not: it without its accents where that is drawn, or one that looks
 * like it; null where there is none.
 *
 * `nearestCharacter('Ạ', drawn)` is A.
 *
 * @param drawn whether a character has a drawing
 */
export function nearestCharacter(character: string, drawn: (character: string) => boolean): string | null {
  const [plain = ''] = character.normalize('NFD');
  if (plain !== character && drawn(plain)) return plain;
  const row = ROWS.find((each) => [...each].slice(1).includes(plain));
  const [nearest] = row ?? '';
  return nearest !== undefined && drawn(nearest) ? nearest : null;
}
