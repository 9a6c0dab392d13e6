import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { flightEventFromRow } from '../../src/app/flight/flight-event-from-row.ts';
import { flownAgain } from '../../src/app/flight/resume-flight.ts';
import { parseJob } from '../../src/core/job/parse-job.ts';
import { readTracks } from '../../src/core/tracks/track-read.ts';
import { planJob } from '../../src/core/plan/plan-job.ts';
import { readingFromRows } from '../../src/store/read-log.ts';
import type { StoredRow } from '../../src/store/schema.ts';

/** What this app wrote on 28 November 2026, as it was written; these files are added to and never rewritten. */
const kept = (name: string): string => readFileSync(new URL(`./kept/${name}`, import.meta.url), 'utf8');

describe('a file of an earlier day', () => {
  it('opens as it always did: a job, which still plans', () => {
    const reading = parseJob(kept('job.json'));
    if (!reading.ok) throw new Error(reading.reason);
    expect(reading.value).toMatchObject({ id: 'lake-ondine', text: 'SAIL', layer: { altitudeFeet: 10_500 } });
    expect(planJob(reading.value).ok).toBe(true);
  });

  it('opens as it always did: the rows of a flight, which still lead to its state', () => {
    const rows = JSON.parse(kept('rows.json')) as StoredRow[];
    const reading = readingFromRows(
      rows.map(({ sequence }) => sequence),
      rows,
    );
    expect(reading).toMatchObject({ gaps: [], damagedSequences: [], cutSequences: [], nextSequence: 60 });
    expect(reading.rows.every(({ event }) => flightEventFromRow(event) !== null)).toBe(true);
    const again = flownAgain(reading, null);
    expect(again).toMatchObject({ unreadRows: 0, state: { phase: 'repositioning' } });
  });

  it.each(['track.gpx', 'track.igc'])('opens as it always did: %s, with its smoke', (name) => {
    const reading = readTracks(kept(name));
    if (!reading.ok) throw new Error(reading.reason);
    const [track] = reading.value.tracks;
    expect(track!.points).toHaveLength(40);
    expect(track!.points.filter(({ smoke }) => smoke === 'on')).toHaveLength(9);
    expect(track!.points[0]!.latitudeDegrees).toBeCloseTo(46.08, 1);
  });
});
