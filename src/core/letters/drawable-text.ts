/** The text as the alphabet knows it: composed accents, capitals, one kind of apostrophe, dash and line break. */
export function drawableText(text: string): string {
  return text
    .toUpperCase()
    .normalize('NFC')
    .replace(/\r\n?|[\u2028\u2029]/g, '\n')
    .replace(/[\u2018\u2019\u02bc]/g, "'")
    .replace(/[\u2010-\u2015\u2212]/g, '-')
    .replace(/[\ufe0e\ufe0f\u200b-\u200f\u2060\ufeff]/g, '');
}

/** A line's characters, each with the accents that follow it. */
export function charactersOf(line: string): string[] {
  return line.match(/\P{M}\p{M}*|\p{M}+/gu) ?? [];
}
