import { fc } from '../property.ts';

/** What breaks parsers: numbers at the edges, signs of structure, marks that turn or hide text. */
const HOSTILE = [
  '',
  ' ',
  '\n',
  '\r\n',
  '\t',
  '\0',
  '\u202E',
  '\uFEFF',
  '\uD800',
  '\u{1F4A8}',
  'é',
  '-',
  '+',
  '.',
  ',',
  ':',
  '/',
  '\\',
  '"',
  "'",
  '<',
  '>',
  '&',
  '&#0;',
  '&amp;',
  '<!DOCTYPE x>',
  '<!ENTITY a "b">',
  '<![CDATA[',
  ']]>',
  '<!--',
  '-->',
  '</',
  '/>',
  '{',
  '}',
  '[',
  ']',
  'null',
  'true',
  '__proto__',
  'constructor',
  'toString',
  '0',
  '-0',
  '00',
  '1e999',
  '-1e999',
  '1e-999',
  '9007199254740993',
  '999999999999999999999',
  'NaN',
  'Infinity',
  '0x10',
  '1_0',
  '٣',
  '4294967296',
  '-2147483649',
  'A'.repeat(300),
  '9'.repeat(400),
  '['.repeat(100),
  '<a>'.repeat(60),
] as const;

type Change = (text: string, pick: (below: number) => number, others: readonly string[]) => string;

const CHANGES: readonly Change[] = [
  // Cut off, as a broken download.
  (text, pick) => text.slice(0, pick(text.length + 1)),
  // A stretch taken out.
  (text, pick) => {
    const from = pick(text.length + 1);
    return text.slice(0, from) + text.slice(from + pick(40));
  },
  // Something hostile put in.
  (text, pick) => {
    const at = pick(text.length + 1);
    return text.slice(0, at) + HOSTILE[pick(HOSTILE.length)]! + text.slice(at);
  },
  // A number or a word replaced by something hostile.
  (text, pick) => {
    const tokens = [...text.matchAll(/[\w.+-]+/g)];
    const token = tokens[pick(Math.max(1, tokens.length))];
    return token === undefined ? text : text.slice(0, token.index) + HOSTILE[pick(HOSTILE.length)]! + text.slice(token.index + token[0].length);
  },
  // A stretch doubled.
  (text, pick) => {
    const from = pick(text.length + 1);
    const stretch = text.slice(from, from + pick(200));
    return text.slice(0, from) + stretch + text.slice(from);
  },
  // One character turned into another.
  (text, pick) => {
    const at = pick(Math.max(1, text.length));
    return text.slice(0, at) + String.fromCharCode(text.charCodeAt(at) ^ (1 << pick(8))) + text.slice(at + 1);
  },
  // The beginning of one file and the end of another.
  (text, pick, others) => {
    const other = others[pick(others.length)]!;
    return text.slice(0, pick(text.length + 1)) + other.slice(pick(other.length + 1));
  },
  // Two lines in each other's place.
  (text, pick) => {
    const lines = text.split('\n');
    const [one, other] = [pick(lines.length), pick(lines.length)];
    [lines[one], lines[other]] = [lines[other]!, lines[one]!];
    return lines.join('\n');
  },
];

/** Valid files, each changed one to four times; now and then text or JSON that never was one. */
export function mutated(valid: readonly string[]): fc.Arbitrary<string> {
  const changed = fc
    .tuple(fc.nat(valid.length - 1), fc.array(fc.tuple(fc.nat(CHANGES.length - 1), fc.infiniteStream(fc.nat(1 << 30))), { minLength: 1, maxLength: 4 }))
    .map(([which, steps]) =>
      steps.reduce((text, [change, numbers]) => {
        const pick = (below: number): number => (numbers.next().value as number) % Math.max(1, below);
        return CHANGES[change]!(text, pick, valid);
      }, valid[which]!),
    );
  return fc.oneof(
    { weight: 12, arbitrary: changed },
    { weight: 1, arbitrary: fc.string({ unit: 'binary', maxLength: 200 }) },
    { weight: 1, arbitrary: fc.json() },
  );
}
