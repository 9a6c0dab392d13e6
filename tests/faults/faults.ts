import type { NamedTest } from './named-test.ts';

/** A fault, how it is injected, and what is promised then. */
export interface Fault {
  readonly fault: string;
  readonly promises: readonly string[];
  readonly injected: string;
  readonly holds: string;
  readonly tests: readonly NamedTest[];
}

const POSITIONS = 'tests/faults/positions.test.ts';
const DEVICE = 'e2e/faults/device.spec.ts';
const STORAGE = 'e2e/faults/storage.spec.ts';

/** Every fault that is injected; README.md beside this holds this table, and a test keeps the two together. */
export const FAULTS: readonly Fault[] = [
  {
    fault: 'browser killed at random times',
    promises: ['P1', 'P2', 'P7'],
    injected: 'SIGKILL to every process, at seeded moments',
    holds: 'every acknowledged row there, numbers whole, the flight goes on by itself',
    tests: [
      ['e2e/faults/kills.spec.ts', 'kills of the browser at random times'],
      ['e2e/store-kill.spec.ts', 'every row that was counted as saved'],
      ['e2e/write.spec.ts', 'loses no acknowledged row to a killed browser'],
    ],
  },
  {
    fault: 'renderer crash',
    promises: ['P1', 'P2'],
    injected: 'the browser’s own crash page',
    holds: 'as after a kill',
    tests: [['e2e/faults/kills.spec.ts', 'a crashed page is opened again']],
  },
  {
    fault: 'the nth database operation fails, once',
    promises: ['P1', 'P2', 'P10'],
    injected: 'each call in turn throws',
    holds: 'no row lost or doubled; an import is whole or nothing',
    tests: [
      ['tests/faults/storage.test.ts', 'fails once, whichever it is: no row is lost'],
      ['tests/faults/storage.test.ts', 'while files are imported'],
    ],
  },
  {
    fault: 'the nth database operation fails, for ever',
    promises: ['P1', 'P4', 'P5'],
    injected: 'every call from the nth on throws',
    holds: 'LOG NOT SAVING after 3 s, cues on, all rows written when it heals',
    tests: [
      ['tests/faults/storage.test.ts', 'fails for ever from any one on'],
      ['e2e/write.spec.ts', 'says LOG NOT SAVING while the store fails'],
      ['tests/store/flight-log.test.ts', 'says LOG NOT SAVING after 3 s'],
    ],
  },
  {
    fault: 'the database handle dies',
    promises: ['P2'],
    injected: 'every transaction on it throws; the browser terminates it',
    holds: 'dropped, opened again, the whole transaction repeated',
    tests: [
      ['tests/store/database.test.ts', 'succeeds on a fresh handle when %s three times'],
      ['tests/store/database.test.ts', 'replaces a handle that the browser terminated'],
      ['tests/store/flight-log.test.ts', 'loses and doubles nothing when %s'],
    ],
  },
  {
    fault: 'an open never settles',
    promises: ['P2', 'P4'],
    injected: 'the request fires nothing',
    holds: 'given up after 3 s, tried again, said when it fails',
    tests: [
      ['tests/store/database.test.ts', 'gives up with a reason after the fourth time %s'],
      ['tests/store/database.test.ts', 'closes a handle that arrives after its time'],
    ],
  },
  {
    fault: 'a transaction never completes',
    promises: ['P1', 'P2'],
    injected: '`complete` is never fired',
    holds: 'not counted as saved, repeated without doubling',
    tests: [
      ['tests/store/flight-log.test.ts', 'loses and doubles nothing when %s'],
      ['tests/store/flight-log.test.ts', 'never has more confirmed than is on disk'],
    ],
  },
  {
    fault: 'no room left',
    promises: ['P2', 'P4', 'P5'],
    injected: 'random bytes until the browser refuses',
    holds: 'LOG NOT SAVING, cues on, everything written once there is room',
    tests: [[STORAGE, 'no room left, filled with random bytes']],
  },
  {
    fault: 'site data cleared',
    promises: ['P2', 'P12'],
    injected: 'the browser’s own clearing, in flight and on the ground',
    holds: 'cues and log go on with a visible gap, the flight is found again; lost jobs are named',
    tests: [
      [STORAGE, 'site data cleared under a flight'],
      [STORAGE, 'jobs that the browser has cleared are named'],
    ],
  },
  {
    fault: 'second tab',
    promises: ['P9'],
    injected: 'opened beside a flight',
    holds: 'reads and says so; takes over when the first is gone',
    tests: [
      ['e2e/write.spec.ts', 'has one writer: a second tab reads'],
      ['e2e/shell.spec.ts', 'a second tab only reads'],
    ],
  },
  {
    fault: 'schema upgrade wanted in flight',
    promises: ['P8'],
    injected: 'another page opens a newer version',
    holds: 'it waits; the flight is logged on',
    tests: [
      [STORAGE, 'another page wants the data in a newer form'],
      ['tests/store/database.test.ts', 'does not give way while a flight is in progress'],
    ],
  },
  {
    fault: 'schema upgrade blocked',
    promises: ['P4'],
    injected: 'an old handle is held',
    holds: 'said; opens once it is let go',
    tests: [['tests/store/database.test.ts', 'says that another tab blocks the upgrade']],
  },
  {
    fault: 'damaged rows',
    promises: ['P2', 'P3', 'P12'],
    injected: 'stored values altered',
    holds: 'a torn tail is cut, a hole is a gap with its numbers, damaged things go by name',
    tests: [
      ['tests/store/flight-log.test.ts', 'cuts a torn tail'],
      ['tests/store/flight-log.test.ts', 'reports a damaged row by its number'],
      ['e2e/debrief.spec.ts', 'a lost stretch of the log is shown as lost'],
      ['e2e/shell-jobs.spec.ts', 'names damaged jobs'],
    ],
  },
  {
    fault: 'data of a newer version',
    promises: ['P12'],
    injected: 'the database opened as version 99 before',
    holds: 'said to be that, left alone',
    tests: [[STORAGE, 'data of a newer version is said to be that']],
  },
  {
    fault: 'new service worker in flight',
    promises: ['P8', 'P14'],
    injected: 'a newer build is published and fetched',
    holds: 'no offer, no reload, not even after a kill',
    tests: [
      ['e2e/faults/shell.spec.ts', 'a newer version arrives during a flight'],
      ['e2e/shell.spec.ts', 'is not offered while a flight is in progress'],
    ],
  },
  {
    fault: 'a cache entry missing or altered',
    promises: ['P7'],
    injected: 'entries deleted and replaced',
    holds: 'found before the flight, mended with a network, said without one',
    tests: [
      ['e2e/faults/shell.spec.ts', 'a stored file is missing, another altered'],
      ['e2e/faults/shell.spec.ts', 'every stored file is held against a digest'],
    ],
  },
  {
    fault: 'offline cold start',
    promises: ['P7'],
    injected: 'browser closed, server gone',
    holds: 'any screen in under 5 s',
    tests: [
      ['e2e/shell.spec.ts', 'starts cold in under 5 s'],
      ['e2e/write.spec.ts', 'loses no acknowledged row to a killed browser'],
    ],
  },
  {
    fault: 'a server that hangs',
    promises: ['P7'],
    injected: 'requests taken and never answered',
    holds: 'not waited for',
    tests: [['e2e/shell.spec.ts', 'does not wait for a server that hangs']],
  },
  {
    fault: 'fixes stop',
    promises: ['P6', 'P15'],
    injected: 'a receiver gone silent, on the desk and in the browser',
    holds: 'amber, blank at 3 s of age, a stroke alone held to 8 s and marked, cues again afterwards',
    tests: [
      [POSITIONS, 'amber by 1.5 s after the last one'],
      [DEVICE, 'the receiver falls silent'],
    ],
  },
  {
    fault: 'permission revoked',
    promises: ['P6', 'P14'],
    injected: 'taken back in flight',
    holds: 'blank, said why, no question over the cue',
    tests: [
      [DEVICE, 'the permission is taken back in flight'],
      ['tests/sensors/device-position.test.ts', 'does not ask again for a permission refused'],
    ],
  },
  {
    fault: 'jumps of 3 km for 1, 5, 30 fixes',
    promises: ['P6', 'P15'],
    injected: 'reports displaced',
    holds: 'rejected; blank until five agree',
    tests: [
      [POSITIONS, 'for %i fixes move no cue'],
      [POSITIONS, 'for 30 fixes blank the cue until five agree'],
    ],
  },
  {
    fault: 'frozen coordinates',
    promises: ['P6'],
    injected: 'the same place again and again',
    holds: 'no fix: the cue goes blank',
    tests: [[POSITIONS, 'are no fix: the age grows']],
  },
  {
    fault: 'duplicate, reordered, future stamps',
    promises: ['P6'],
    injected: 'reports doubled, delayed past the next, stamped wrong',
    holds: 'every look within 150 m of the truth',
    tests: [
      [POSITIONS, 'every report twice leads nowhere else'],
      [POSITIONS, 'reports out of order never lead the aircraft back'],
      [POSITIONS, '%s say nothing of age: the arrival counts'],
    ],
  },
  {
    fault: 'null and NaN speed',
    promises: ['P6'],
    injected: 'as receivers give them',
    holds: 'derived from positions, never 0 or north',
    tests: [[POSITIONS, 'given as %s are derived from positions']],
  },
  {
    fault: 'accuracy 30 m to 3 km',
    promises: ['P6', 'P15'],
    injected: 'radius and error grown in steps',
    holds: 'good ones used, imprecise ones blank the cue',
    tests: [
      [POSITIONS, 'from 30 m to 3 km'],
      ['e2e/write.spec.ts', 'an approximate location is called one'],
    ],
  },
  {
    fault: '10 Hz, then 0.2 Hz',
    promises: ['P15'],
    injected: 'the rate changed in flight',
    holds: 'no smoke cued on sparse fixes',
    tests: [[POSITIONS, '10 Hz, then one in 5 s']],
  },
  {
    fault: 'suspended for 3.5 s',
    promises: ['P6', 'P15'],
    injected: 'SIGSTOP to the page’s process; sleep on the desk',
    holds: 'blank at the waking, no row lost',
    tests: [
      [DEVICE, 'the page stands still for 3.5 s'],
      [POSITIONS, '%s: nothing stale is cued at its waking'],
    ],
  },
  {
    fault: 'suspended for 10 min',
    promises: ['P6', 'P15'],
    injected: 'clock run on, timers fire once',
    holds: 'blank at the waking, then the flight goes on',
    tests: [
      [DEVICE, 'ten minutes asleep'],
      ['tests/sensors/clock-watch.test.ts', 'tells ten minutes of sleep'],
    ],
  },
  {
    fault: 'clock plus 6 h',
    promises: ['P6'],
    injected: 'the wall clock set',
    holds: 'blank until a fresh fix',
    tests: [
      [POSITIONS, 'set by %i s: blank at once'],
      ['e2e/write.spec.ts', 'blank the cue when the wall clock is set'],
    ],
  },
  {
    fault: 'dead socket',
    promises: ['P6'],
    injected: 'a broker that stalls; a wire cut',
    holds: 'noticed, built anew, nothing lost, nothing stale called live',
    tests: [
      ['tests/link/link-session.test.ts', 'gives a broker that accepts and stalls'],
      ['tests/link/link-session.test.ts', 'heals after a cut'],
      ['tests/link/link-room.test.ts', 'loses no event and doubles none'],
    ],
  },
  {
    fault: 'duplicated and replayed messages',
    promises: ['P6', 'P16'],
    injected: 'sent again, late, out of order',
    holds: 'counted once; the past is never live',
    tests: [
      ['tests/link/event-ledger.test.ts', 'counts each event once'],
      ['tests/link/link-room.test.ts', 'shows a ship live while it speaks'],
    ],
  },
  {
    fault: 'hostile messages and clients',
    promises: ['P16'],
    injected: 'an intruder with a user’s rights and without',
    holds: 'thrown away; learns nothing, changes nothing',
    tests: [
      ['tests/link/link-room.test.ts', 'throws away what is hostile'],
      ['tests/hub/link-broker.test.ts', 'learns nothing'],
      ['tests/hub/link-broker.test.ts', 'changes nothing'],
      ['tests/app/link/ground-calls.test.ts'],
    ],
  },
  {
    fault: 'XML bomb',
    promises: ['P10'],
    injected: 'DOCTYPE, entities, 100 MB, 400 levels',
    holds: 'refused before any parser, within 2 s',
    tests: [
      ['tests/core/tracks/gpx.test.ts', 'refuses a document type or an entity'],
      ['tests/core/tracks/gpx.test.ts', 'answers 100 MB and 400 nested elements'],
      ['e2e/debrief.spec.ts', 'hostile and broken ones are refused'],
    ],
  },
  {
    fault: 'JSON bomb',
    promises: ['P10'],
    injected: '2 MB, a million brackets, 200,000 faults',
    holds: 'refused with a reason within 2 s, nothing changed',
    tests: [
      ['e2e/shell-jobs.spec.ts', 'refuses ${what} within 2 s'],
      ['tests/core/job/parse-job.test.ts', 'refuses more than 32 levels'],
    ],
  },
  {
    fault: 'zip bomb',
    promises: ['P10'],
    injected: '60 MB of nothing, deflated into codes',
    holds: 'bytes counted while inflating, refused',
    tests: [['tests/core/wire/link-frames.test.ts', 'is damaged when its bytes are, and when it grows']],
  },
  {
    fault: 'wake lock refused',
    promises: ['P4'],
    injected: 'the request rejects',
    holds: 'said before and in flight, cues on',
    tests: [
      [DEVICE, 'the wake lock is refused'],
      ['tests/sensors/wake-lock.test.ts', 'shows a refusal'],
    ],
  },
  {
    fault: 'sound interrupted',
    promises: ['P4', 'P5'],
    injected: 'suspended, its clock frozen',
    holds: 'SOUND OFF within seconds, cues on, gone when it plays',
    tests: [
      [DEVICE, 'the sound is interrupted'],
      ['tests/sound/sound.test.ts', 'says SOUND OFF within two seconds'],
    ],
  },
  {
    fault: 'main thread stalled 2 s',
    promises: ['P15', 'P2'],
    injected: 'a loop in the page; a stalled desk',
    holds: 'no late ON, no row lost',
    tests: [
      [DEVICE, 'the main thread is stalled for 2 s'],
      ['tests/core/guidance/reduce.test.ts', 'late by a stalled page is a go-around'],
    ],
  },
  {
    fault: 'three hours without a pause',
    promises: ['P2', 'P5'],
    injected: 'a rehearsal on a fast clock, nightly',
    holds: 'no row missing, no growth of memory or of the time of a step',
    tests: [['e2e/faults/soak.spec.ts', 'hours of flight']],
  },
  {
    fault: 'hostile markup and code',
    promises: ['P10', 'P16'],
    injected: 'tried in the page itself',
    holds: 'trusted types refuse it; the whole app runs under them',
    tests: [
      ['e2e/faults/hostile-markup.spec.ts', 'the whole app runs under trusted types'],
      ['e2e/shell-jobs.spec.ts', 'shows a hostile name as text'],
    ],
  },
  {
    fault: 'exports read by a stranger',
    promises: ['P11'],
    injected: 'a password kept on the device',
    holds: 'it is in no export, log, code or address',
    tests: [['e2e/faults/secrets.spec.ts', 'password is in no export']],
  },
  {
    fault: '320 px',
    promises: ['P14'],
    injected: 'the narrowest split view',
    holds: 'phase, heading and smoke on the screen',
    tests: [[DEVICE, '320 pixels wide'], ['e2e/write-look.spec.ts']],
  },
  {
    fault: 'browser killed while somebody types',
    promises: ['P20'],
    injected: 'SIGKILL to every process between two keys, at seeded moments',
    holds: 'all but the last second of keys is there, and everything that was called saved',
    tests: [['e2e/faults/typing.spec.ts', 'kills of the browser while somebody types']],
  },
  {
    fault: 'page left in the middle of a word',
    promises: ['P20'],
    injected: 'navigated away in the very step of the last key',
    holds: 'written down beside the database at once, taken up at the next start',
    tests: [
      ['e2e/faults/typing.spec.ts', 'a page that is left in the middle of a word keeps it'],
      ['tests/app/jobs/unsaved-edits.test.ts', 'is taken up at the next start'],
    ],
  },
  {
    fault: 'two tabs edit one job',
    promises: ['P9', 'P20'],
    injected: 'fifty random interleavings, tabs that hear of each other and tabs that do not',
    holds: 'put together by field; what both typed is offered as two versions; undo takes back one’s own alone',
    tests: [
      ['tests/app/jobs/two-tabs.test.ts', 'random interleavings'],
      ['e2e/faults/typing.spec.ts', 'two tabs on one job'],
    ],
  },
  {
    fault: 'strangers send without a password',
    promises: ['P16'],
    injected: '200 clients in five ways, 138 MB; lengths of 256 MB, messages without an end, packets behind a wrong password',
    holds: 'cut at the first bytes that are too many; nothing is gathered for them',
    tests: [['tests/hub/attack.test.ts', 'leaned on from outside'], ['tests/hub/packet-gate.test.ts']],
  },
  {
    fault: 'passwords tried by the hundred',
    promises: ['P16'],
    injected: '900 wrong logins at once',
    holds: 'they slow their own address and name; another’s first login goes before them',
    tests: [['tests/hub/attack.test.ts', 'leaned on from outside'], ['tests/hub/login-order.test.ts']],
  },
  {
    fault: 'a name pointed at the hub by a stranger’s page',
    promises: ['P16'],
    injected: 'requests under that name, with and without an origin',
    holds: 'refused: the hub knows its numbers, this machine, its certificate’s names and what was allowed',
    tests: [['tests/hub/origin.test.ts']],
  },
  {
    fault: 'a join code that leads to another host',
    promises: ['P22'],
    injected: 'a code with a stranger’s address on a device with a password, and addresses typed in every order',
    holds: 'both hosts are shown and asked about; name and password are empty for the other; the page reaches no host that was not chosen',
    tests: [['tests/app/link/offered-link.test.ts'], ['e2e/ground-join.spec.ts', 'a join code of another host empties name and password']],
  },
  {
    fault: 'a database that does not answer at the start',
    promises: ['P5', 'P7', 'P12'],
    injected: 'an opening that hangs for 12 s and for ever, of a newer version, damaged',
    holds: 'Write says what it waits for, asks again, and within 5 s offers to start without a log; a newer one is exported',
    tests: [
      ['e2e/faults/start.spec.ts', 'leaves a way on within 5 s'],
      ['e2e/faults/start.spec.ts', 'what a newer version stored is exported whole'],
      ['tests/app/spare-job.test.ts'],
    ],
  },
  {
    fault: 'an install that is broken off',
    promises: ['P7'],
    injected: 'one file’s transfer cut',
    holds: 'said with the file, begun again by itself',
    tests: [['e2e/faults/shell.spec.ts', 'an install that is broken off']],
  },
  {
    fault: 'a node of the broker dies, another is cut off from the rest',
    promises: ['P6', 'P16'],
    injected: 'SIGKILL at a random moment; the wires between the nodes cut',
    holds: 'devices go on to the next address; nothing lost, doubled, forged or called live when old',
    tests: [['tests/link/cluster.test.ts']],
  },
];
