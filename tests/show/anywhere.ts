import { readWinds } from '../../src/core/winds/read-winds.ts';
import { mutated } from '../fuzz/mutated.ts';
import { PARSERS, WIND_FORMS } from '../fuzz/parsers.ts';
import { fc } from '../property.ts';
import { typedOutcomes } from './anywhere-forms.ts';
import { flyWithReceiver } from './anywhere-receiver.ts';
import type { Figure, Shown } from './figures.ts';
import { atLeast, atMost, reported } from './limits.ts';
import { played } from './played.ts';

const CASES = Number(process.env['QUILLWIND_FUZZ'] ?? 100_000);
const WORD = 'SKY';

/** Any country: what is typed, what is pasted, what a receiver sends. */
export async function showAnywhere(): Promise<Shown> {
  const outcomes = typedOutcomes();
  for (const { what, typed, outcome, reading } of outcomes)
    process.stdout.write(`      ${outcome.padEnd(7)} ${what.padEnd(14)} ${JSON.stringify(typed)}: ${reading}\n`);
  const of = (outcome: string): number => outcomes.filter((each) => each.outcome === outcome).length;
  const meant = outcomes.filter(({ meant: value }) => value !== null);
  const refusedRight = outcomes.filter(({ meant: value, outcome }) => value === null && outcome === 'refused').length;
  const figures: Figure[] = [
    atLeast('ways to type numbers, positions and units', outcomes.length, 200, '', 0),
    atMost('taken for something else', of('WRONG'), 0, '', 0),
    atLeast(
      'right or asked, of those that mean something',
      meant.filter(({ outcome }) => outcome === 'right' || outcome === 'asked').length,
      meant.length,
      `of ${meant.length}`,
      0,
    ),
    reported('of them asked', String(of('asked'))),
    atLeast('refused in words, of those that mean nothing', refusedRight, outcomes.length - meant.length, `of ${outcomes.length - meant.length}`, 0),
  ];
  const options = { nearMilliseconds: Date.UTC(2027, 5, 19), aerodromeFeet: 1640 };
  const readable = WIND_FORMS.filter(([, ...samples]) => samples.every((text) => readWinds(text, options).ok));
  figures.push(atLeast('forms of winds and weather that are read', readable.length, WIND_FORMS.length, `of ${WIND_FORMS.length}`, 0));
  for (const { name, valid, parse } of PARSERS.filter((parser) => parser.name.startsWith('winds'))) figures.push(fuzz(name, valid, parse));
  const flight = await flyWithReceiver(WORD);
  figures.push(
    { name: 'word read, flown by NMEA at 10 Hz through a fake port', value: flight.read, limit: WORD, ok: flight.read === WORD && flight.finished },
    reported('fixes through the sentences', String(flight.fixes)),
    atMost('from the last byte to the fix, median', flight.medianMilliseconds, 20, 'ms'),
    reported('and at most', `${flight.worstMilliseconds.toFixed(1)} ms`),
  );
  const metric = played('e2e/units.spec.ts', 'is the same plan to the metre', {});
  figures.push(
    atMost('the demo\u2019s day in metres, km/h, litres and decimal comma, to printed sheets: plans or sheets that differ', metric.ok ? 0 : 1, 0, '', 0),
  );
  return {
    figures,
    headline: `${outcomes.length} ways to type: ${of('right')} right, ${of('asked')} asked, ${of('WRONG')} silently wrong; ${readable.length} forms of winds read; ${flight.read} flown by NMEA at 10 Hz, ${flight.medianMilliseconds.toFixed(2)} ms late.`,
  };
}

/** Broken and hostile texts: each answered in words, none slower than a second. */
function fuzz(name: string, valid: readonly string[], parse: (typeof PARSERS)[number]['parse']): Figure {
  let slowest = 0;
  let raw = 0;
  for (let done = 0; done < CASES; done += 5000) {
    for (const text of fc.sample(mutated(valid), { numRuns: Math.min(5000, CASES - done), seed: 900 + done })) {
      const started = performance.now();
      const read = parse(text);
      slowest = Math.max(slowest, performance.now() - started);
      if (!read.ok && 'reason' in read && (read.reason.length < 6 || /undefined|Error\b|token/.test(read.reason))) raw += 1;
    }
  }
  return {
    name: `fuzz of ${name}`,
    value: `${CASES} cases, ${raw} raw, slowest ${slowest.toFixed(0)} ms`,
    limit: '0 raw, under 1000 ms',
    ok: raw === 0 && slowest < 1000,
  };
}
