import { describe, expect, it } from 'vitest';
import { observerLogsAmong } from '../../../src/app/debrief/observer-logs-among.ts';
import type { ObserverLog } from '../../../src/core/wire/observer-log.ts';
import { writeObserverLog } from '../../../src/core/wire/parse-observer-log.ts';

const LOG: ObserverLog = {
  format: 'quillwind-observer',
  version: 1,
  jobId: 'lake',
  jobDigest: null,
  observerId: 'anna1',
  observerName: 'Anna',
  entries: [{ sequence: 0, atMilliseconds: 1_800_000_000_000, sinceDatumSeconds: 12.3, kind: 'noted', text: 'thin cloud' }],
};
const file = (name: string, text: string): File => new File([text], name);

describe('observers\u2019 logs among files for the debrief', () => {
  it('are told by what they hold, whatever they are called', async () => {
    const track = file('track.gpx', '<gpx/>');
    const { logs, refused, rest } = await observerLogsAmong('lake', [file('anything.txt', writeObserverLog(LOG)), track]);
    expect(logs).toEqual([LOG]);
    expect(refused).toEqual([]);
    expect(rest).toEqual([track]);
  });

  it('of another job, or damaged, are refused by name', async () => {
    const text = writeObserverLog(LOG);
    const { logs, refused } = await observerLogsAmong('pier', [file('a.json', text), file('b.json', text.slice(0, -20))]);
    expect(logs).toEqual([]);
    expect(refused[0]).toMatch(/^a\.json: .*another job/);
    expect(refused[1]).toMatch(/^b\.json: /);
  });

  it('leaves what is too large, or a job, to whoever comes next', async () => {
    const files = [file('big.json', `{"format":"quillwind-observer",${' '.repeat(1_000_001)}}`), file('job.json', '{"format":"quillwind-job"}')];
    expect((await observerLogsAmong('lake', files)).rest).toEqual(files);
  });
});
