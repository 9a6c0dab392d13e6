/** Keyboard and picture forms of what the alphabet draws. */
const FORMS: readonly (readonly [RegExp, string])[] = [
  [/<3|[❤♡❣💓-💟🧡🤍🤎🖤💙💚💛💜🩷🩵🩶]/gu, '♥'],
  [/[⭐🌟✨☆✩✪✫✭✮✯]/gu, '★'],
  [/->|[➡➔➙➜➝➞⇒⟶]/gu, '→'],
  [/:-?\)|[☻🙂😀-😆😊😎]/gu, '☺'],
  [/[🗲🌩]/gu, '⚡'],
  [/[♩♫♬🎵🎶]/gu, '♪'],
  [/[⭕◯⚪◦]/gu, '○'],
  [/[✚➕]/gu, '+'],
  [/[‘’‚‛ʼ′`´]/g, "'"],
  [/[“”„‟″«»]/g, '"'],
  [/[\u2010-\u2015\u2212]/g, '-'],
  [/×/g, 'X'],
  [/[·•]/g, '.'],
  // Skin tones, joiners and the marks that choose between a character's text and picture form.
  [/[\ufe0e\ufe0f\u200b-\u200f\u2060\ufeff]|[\u{1f3fb}-\u{1f3ff}]/gu, ''],
];

/**
 * The text as the alphabet knows it: composed accents, capitals, half-width forms, one kind of apostrophe, quotation
 * mark, dash and line break; hearts, stars, arrows, faces and notes of every kind as the one that is drawn.
 */
export function drawableText(text: string): string {
  const plain = FORMS.reduce((written, [form, drawn]) => written.replace(form, drawn), text);
  return plain
    .normalize('NFKC')
    .toUpperCase()
    .normalize('NFC')
    .replace(/\r\n?|[\u2028\u2029]/g, '\n');
}

/** A line's characters, each with the accents that follow it. */
export function charactersOf(line: string): string[] {
  return line.match(/\P{M}\p{M}*|\p{M}+/gu) ?? [];
}
