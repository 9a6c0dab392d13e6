import { createHub } from '../../src/hub/create-hub.ts';
import { listenFrom } from '../../src/hub/listen.ts';
import { distDirectory } from '../serve-dist.ts';
import { type Engine, until } from './engine.ts';

/** Buttons and links by the words on them. */
const press = (words: string): string =>
  `(() => { const found = [...document.querySelectorAll('button, a')].find((one) => one.textContent.trim().startsWith(${JSON.stringify(words)})); if (!found || found.disabled) return false; found.click(); return true; })()`;
const cue = (name: string): string => `document.querySelector('[data-cue="${name}"]')?.getAttribute('data-value')`;

const SCREENS = [
  ['draw', 'Draw'],
  ['brief', 'Brief'],
  ['write', 'Write'],
  ['ground', 'Ground'],
  ['debrief', 'Debrief'],
] as const;

/**
 * Load, offline, job, plan, a rehearsal to its first smoke, and the log: each step in turn, told as it is reached. The
 * server is gone from the second step on.
 */
export async function smokeTest(engine: Engine, firstPort: number, told: (step: string) => void): Promise<void> {
  const hub = createHub({ distDirectory: distDirectory() });
  const address = `http://localhost:${await listenFrom(hub, firstPort)}/`;
  const stop = (): void => {
    hub.closeAllConnections();
    hub.close();
  };
  try {
    await engine.open(address);
    await until(engine, 'the Jobs screen with the demo job', `document.querySelector('article')?.textContent.includes('Lake Ondine') === true`);
    told('loads, with the demo job stored');
    await until(engine, 'every file stored', `document.querySelector('[data-shell]')?.getAttribute('data-shell') === 'complete'`, 60);
  } finally {
    stop();
  }
  await engine.open(`${address}#/jobs`);
  // The page that goes away shows the jobs too for a moment: what is pressed on it is pressed on nothing.
  await engine.evaluate('(window.goingAway = true, location.reload(), true)').catch(() => null);
  await until(
    engine,
    'the Jobs screen without a server',
    `window.goingAway === undefined && document.querySelector('article')?.textContent.includes('Lake Ondine') === true`,
  );
  told('opens again with the server gone');
  await until(engine, 'a copy of the job', press('Duplicate'));
  await until(engine, 'two jobs', `document.querySelectorAll('article').length === 2`);
  told('stores a job');
  for (const [screen, heading] of SCREENS) {
    await engine.evaluate(`(location.hash = '#/${screen}/lake-ondine')`);
    await until(
      engine,
      `the ${screen} screen`,
      `document.title.startsWith('${heading}') && document.querySelector('main.screen-${screen}')?.textContent.trim().length > 100`,
      60,
    );
  }
  told('opens every screen');
  await engine.evaluate(`(location.hash = '#/draw/lake-ondine')`);
  await until(engine, 'a plan of the demo word', `document.querySelector('.plan-strip[data-state="planned"] .strip-words')?.textContent === 'SAIL'`, 120);
  told('plans it');
  await engine.evaluate(`(location.hash = '#/write/lake-ondine')`);
  await until(engine, 'the start panel', `document.querySelector('.fly-start')?.disabled === false`, 120);
  await engine.evaluate(
    `(() => { const field = [...document.querySelectorAll('input')].find((one) => one.closest('label')?.textContent.startsWith('Pace') || one.getAttribute('aria-label')?.startsWith('Pace')); Object.getOwnPropertyDescriptor(HTMLInputElement.prototype, 'value').set.call(field, '20'); field.dispatchEvent(new Event('input', { bubbles: true })); field.dispatchEvent(new Event('change', { bubbles: true })); return field.value; })()`,
  );
  await until(engine, 'the rehearsal begun', press('Start rehearsal'));
  await until(engine, 'the first smoke', `${cue('smoke')} === 'on'`, 120);
  told('flies a rehearsal to the first smoke');
  await until(engine, 'rows on the disk', `Number(document.querySelector('[data-log-confirmed]')?.getAttribute('data-log-confirmed')) > 100`, 30);
  const rows = await engine.evaluate(
    `new Promise((resolve, reject) => { const open = indexedDB.open('quillwind'); open.onerror = () => reject(open.error); open.onsuccess = () => { const all = open.result.transaction('rows').objectStore('rows').getAll(); all.onsuccess = () => { open.result.close(); resolve(all.result.filter(({ flightId }) => flightId === document.querySelector('[data-flight]').getAttribute('data-flight')).map(({ sequence }) => sequence)); }; }; })`,
  );
  const sequences = rows as readonly number[];
  if (sequences.length < 100 || sequences.some((sequence, index) => sequence !== index))
    throw new Error(`${engine.name}: the log has ${sequences.length} rows, not numbered from 0`);
  told(`keeps its log: ${sequences.length} rows, none missing`);
}
