import { readFileSync, writeFileSync } from 'node:fs';
import { cpus, loadavg } from 'node:os';

/** One number of a show: what it is, what was found, what it must be, and whether it is. */
export interface Figure {
  readonly name: string;
  readonly value: string;
  readonly limit: string;
  readonly ok: boolean;
}

/** What a show found: its figures, and the one sentence that a reader should keep. */
export interface Shown {
  readonly figures: readonly Figure[];
  readonly headline: string;
}

/** The lines of a show, each figure with its limit and OK or SHORT, the headline last. */
export function shownLines({ figures, headline }: Shown): string[] {
  const width = (textOf: (figure: Figure) => string): number => Math.max(0, ...figures.map((figure) => textOf(figure).length));
  const names = width(({ name }) => name);
  const values = width(({ value }) => value);
  const limits = width(({ limit }) => limit);
  const rows = figures.map(({ name, value, limit, ok }) => `${name.padEnd(names)}  ${value.padStart(values)}  ${limit.padEnd(limits)}  ${ok ? 'OK' : 'SHORT'}`);
  const short = figures.filter(({ ok }) => !ok).length;
  return [...rows, '', short === 0 ? headline : `${headline} ${short} of ${figures.length} figures fall short.`];
}

const PAGE = new URL('./README.md', import.meta.url);
const [FROM, TO] = ['<!-- figures -->', '<!-- end of figures -->'] as const;

/** Puts what a show printed into tests/show/README.md, in place of what stood there of it, with the day and the load. */
function keepShown(name: string, lines: readonly string[]): void {
  const page = readFileSync(PAGE, 'utf8');
  const [head = '', rest = ''] = page.split(FROM);
  const [kept = '', tail = ''] = rest.split(TO);
  const others = kept.split(/^(?=## )/m).filter((section) => section.startsWith('## ') && !section.startsWith(`## ${name}\n`));
  const load = loadavg()[0]!.toFixed(1);
  const mine = `## ${name}\n\n${new Date().toISOString().slice(0, 10)}, load ${load} at the end, ${cpus().length} cores.\n\n\`\`\`\n${lines.join('\n')}\n\`\`\`\n\n`;
  const sections = [...others.map((section) => `${section.trimEnd()}\n\n`), mine].sort();
  writeFileSync(PAGE, `${head}${FROM}\n\n${sections.join('')}${TO}${tail}`);
}

/** Prints a show; the process ends with 1 when a figure falls short. With QUILLWIND_KEEP_FIGURES it is kept on the page beside. */
export function printShown(shown: Shown, name: string): void {
  const lines = shownLines(shown);
  for (const line of lines) console.log(line);
  if (process.env['QUILLWIND_KEEP_FIGURES'] !== undefined) keepShown(name, lines);
  if (shown.figures.some(({ ok }) => !ok)) process.exitCode = 1;
}
