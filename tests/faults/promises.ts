import type { NamedTest } from './named-test.ts';

/** A promise to whoever flies with it, and the tests that hold it. */
export interface Promised {
  readonly id: string;
  readonly promise: string;
  readonly tests: readonly NamedTest[];
}

/** P1 to P16; README.md beside this holds this table, and a test keeps the two together. */
export const PROMISES: readonly Promised[] = [
  {
    id: 'P1',
    promise: 'Acknowledged is durable: what counts as saved survives a killed page and a killed browser',
    tests: [
      ['e2e/faults/kills.spec.ts', 'kills of the browser at random times'],
      ['e2e/store-kill.spec.ts', 'every row that was counted as saved'],
    ],
  },
  {
    id: 'P2',
    promise: 'No silent loss: a gap is shown as a gap, never as a smooth track',
    tests: [
      ['tests/faults/storage.test.ts', 'fails once, whichever it is: no row is lost'],
      ['tests/app/debrief/stored.test.ts', 'shows the stretch that was lost, and never joins over it'],
    ],
  },
  {
    id: 'P3',
    promise: 'The flight log is append only; a torn tail is cut, never fatal',
    tests: [
      ['tests/store/flight-log.test.ts', 'cuts a torn tail'],
      ['tests/store/flight-log.test.ts', 'never overwrites a row'],
    ],
  },
  {
    id: 'P4',
    promise: 'Faults are visible: nothing saved for 3 s shows LOG NOT SAVING until it heals',
    tests: [
      ['e2e/write.spec.ts', 'says LOG NOT SAVING while the store fails'],
      ['e2e/faults/storage.spec.ts', 'no room left, filled with random bytes'],
    ],
  },
  {
    id: 'P5',
    promise: 'Guidance never waits on storage, network or sound',
    tests: [
      ['e2e/faults/storage.spec.ts', 'no room left, filled with random bytes'],
      ['tests/app/flight/patient-log.test.ts', 'says that nothing is saved after three seconds without a log'],
      ['e2e/closed-loop.spec.ts', 'is flown by its cues'],
    ],
  },
  {
    id: 'P6',
    promise: 'Stale is never shown as live: own position, another’s, a retained message',
    tests: [
      ['tests/faults/positions.test.ts', 'amber by 1.5 s after the last one'],
      ['tests/link/link-room.test.ts', 'shows a ship live while it speaks'],
    ],
  },
  {
    id: 'P7',
    promise: 'Cold start offline to the cue with the flight resumed in under 5 s',
    tests: [
      ['e2e/write.spec.ts', 'loses no acknowledged row to a killed browser'],
      ['e2e/shell.spec.ts', 'starts cold in under 5 s'],
    ],
  },
  {
    id: 'P8',
    promise: 'No change of code, schema or job under a flight in progress',
    tests: [
      ['e2e/faults/shell.spec.ts', 'a newer version arrives during a flight'],
      ['e2e/faults/storage.spec.ts', 'another page wants the data in a newer form'],
    ],
  },
  {
    id: 'P9',
    promise: 'One writer: a second tab only reads, edits of a job apart',
    tests: [
      ['e2e/write.spec.ts', 'has one writer: a second tab reads'],
      ['tests/store/one-writer.test.ts', 'lets the first tab write'],
    ],
  },
  {
    id: 'P10',
    promise: 'Import is all or nothing, refused with a reason within 2 s, and changes nothing else',
    tests: [
      ['e2e/shell-jobs.spec.ts', 'takes all files or none'],
      ['e2e/shell-jobs.spec.ts', 'refuses ${what} within 2 s'],
      ['tests/faults/storage.test.ts', 'while files are imported'],
    ],
  },
  {
    id: 'P11',
    promise: 'Export and import round-trip; yesterday’s files keep opening',
    tests: [
      ['tests/core/job/parse-job.test.ts', 'is the inverse of writeJob'],
      ['e2e/shell-jobs.spec.ts', 'gives a job away as a file that comes back the same'],
      ['tests/core/tracks/igc.test.ts', 'reads back as it was'],
      ['tests/faults/kept-files.test.ts', 'opens as it always did'],
    ],
  },
  {
    id: 'P12',
    promise: 'Evicted or damaged data is reported by name, never an empty list that looks normal',
    tests: [
      ['e2e/faults/storage.spec.ts', 'jobs that the browser has cleared are named'],
      ['e2e/shell-jobs.spec.ts', 'names damaged jobs'],
    ],
  },
  {
    id: 'P13',
    promise: 'Replay equals flight: the log through the same engine gives the same cues',
    tests: [
      ['tests/flight/desk-flight.test.ts', 'flies the same log to the same cues'],
      ['tests/core/debrief/replay.test.ts', 'every cue of the log is the cue that was shown'],
    ],
  },
  {
    id: 'P14',
    promise: 'Nothing needs a tap before the cue can be read; no dialog or prompt in flight',
    tests: [
      ['e2e/write.spec.ts', 'leave no way off the cues while the flight lasts'],
      ['e2e/faults/device.spec.ts', 'the permission is taken back in flight'],
    ],
  },
  {
    id: 'P15',
    promise: 'When in doubt, no cue: never the last value greyed, never a late ON',
    tests: [
      ['tests/faults/positions.test.ts', 'for 30 fixes blank the cue until five agree'],
      ['tests/core/guidance/reduce.test.ts', 'late by a stalled page is a go-around'],
    ],
  },
  {
    id: 'P16',
    promise: 'Nothing received from the ground can start, change or stop the flight, the job or the smoke',
    tests: [['tests/app/link/ground-calls.test.ts'], ['tests/hub/link-broker.test.ts', 'changes nothing']],
  },
  {
    id: 'P20',
    promise: 'What was typed is stored at most 1 s later, whatever happens then; a stale copy is never written over it',
    tests: [
      ['e2e/faults/typing.spec.ts', 'kills of the browser while somebody types'],
      ['tests/app/jobs/two-tabs.test.ts', 'a stale copy is never written'],
      ['tests/app/draw/job-editor.test.ts', 'saves within 0.6 s of the first key while typing goes on'],
    ],
  },
  {
    id: 'P22',
    promise: 'Nothing stored for one host is sent to another',
    tests: [['tests/app/link/offered-link.test.ts'], ['e2e/ground-join.spec.ts', 'a join code of another host empties name and password']],
  },
];
