import { airLines, closestApproach, type ExportedLines, type Vertex } from './separation-checker.ts';

/**
 * Judges an exported plan by the export alone: it reads the GeoJSON's own numbers and lines, takes the wind off by its own
 * formulas, and shares no code with the planner. Turn radius from bank and speed: r = v^2 / (g tan bank), e.g. FAA
 * Pilot's Handbook of Aeronautical Knowledge, FAA-H-8083-25, chapter 5.
 */

interface ExportedPlan extends ExportedLines {
  readonly trueAirspeedKnots: number;
  readonly writingBankDegrees: number;
  readonly turningBankDegrees: number;
  readonly runInSeconds: number;
  readonly runOutSeconds: number;
  readonly separationMetres: number;
  readonly slipSeconds: number;
  readonly waitingCircles: readonly { readonly ship: string; readonly radiusMetres: number; readonly heightMetres: number }[];
}

interface AirLeg {
  readonly ship: string;
  readonly kind: 'smoke' | 'reposition' | 'hold';
  readonly letterIndex: number | null;
  readonly letter: string | null;
  readonly style: string | null;
  readonly vertices: readonly Vertex[];
}

const KNOT = 1852 / 3600;
const GRAVITY = 9.80665;
const DEGREE = Math.PI / 180;
/** Ends of legs meet within this. */
const MEET_METRES = 0.6;
/** The vertices' own rounding: a millisecond of time, and the chord of half a second of an arc. */
const SPEED_SHARE = { least: 0.93, most: 1.006 };
const TURN_SHARE = 1.03;
/** As straight as chords a half second long can tell. */
const STRAIGHT_DEGREES_PER_SECOND = 0.6;
/** A ship's own numbers are rounded to a millisecond: shorter steps tell no speed. */
const SHORTEST_STEP_SECONDS = 0.05;

function airLegs(plan: ExportedPlan): AirLeg[] {
  return airLines(plan).map((vertices, index) => {
    const { properties } = plan.features[index]!;
    return {
      ship: String(properties['ship']),
      kind: properties['kind'] as AirLeg['kind'],
      letterIndex: properties['letterIndex'] as number | null,
      letter: properties['letter'] as string | null,
      style: properties['style'] as string | null,
      vertices,
    };
  });
}

const startOf = ({ vertices }: AirLeg): Vertex => vertices[0]!;
const endOf = ({ vertices }: AirLeg): Vertex => vertices.at(-1)!;

interface Step {
  readonly fromSeconds: number;
  readonly toSeconds: number;
  readonly speed: number;
  readonly direction: number;
}

function stepsOf({ vertices }: AirLeg): Step[] {
  return vertices.slice(1).flatMap((to, index) => {
    const from = vertices[index]!;
    const seconds = to.seconds - from.seconds;
    if (seconds < SHORTEST_STEP_SECONDS) return [];
    const [dx, dy] = [to.x - from.x, to.y - from.y];
    return [{ fromSeconds: from.seconds, toSeconds: to.seconds, speed: Math.hypot(dx, dy) / seconds, direction: Math.atan2(dy, dx) }];
  });
}

const turned = (one: number, other: number): number => Math.abs(Math.atan2(Math.sin(other - one), Math.cos(other - one)));

/** Degrees a second at each meeting of two steps, with its time. */
function turns(steps: readonly Step[]): { readonly atSeconds: number; readonly degreesPerSecond: number }[] {
  return steps.slice(1).map((step, index) => {
    const before = steps[index]!;
    const seconds = (step.toSeconds - before.fromSeconds) / 2;
    return { atSeconds: step.fromSeconds, degreesPerSecond: turned(before.direction, step.direction) / DEGREE / seconds };
  });
}

/** How a plan reads to the one who has nothing but the file; empty when nothing is wrong. */
export function faultsOf(plan: ExportedPlan, letterCount: number): string[] {
  const faults: string[] = [];
  const legs = airLegs(plan);
  const speed = plan.trueAirspeedKnots * KNOT;
  const turnRate = (bankDegrees: number): number => (GRAVITY * Math.tan(bankDegrees * DEGREE)) / speed / DEGREE;
  for (const ship of new Set(legs.map((leg) => leg.ship)))
    faults.push(
      ...shipFaults(
        legs.filter((leg) => leg.ship === ship),
        plan,
        speed,
        turnRate,
      ),
    );
  faults.push(...letterFaults(legs, letterCount));
  const ships = new Set(legs.map(({ ship }) => ship)).size;
  if (ships > 1) {
    const nearest = closestApproach(plan, plan.slipSeconds, 1);
    // Chords of half a second, and slips looked at in steps of one.
    if (nearest.metres < plan.separationMetres - 1.5)
      faults.push(
        `${nearest.ships} ${nearest.metres.toFixed(0)} m apart at ${nearest.atSeconds.toFixed(0)} s, slipped by ${nearest.slipSeconds} s; promised ${plan.separationMetres.toFixed(0)}`,
      );
    if (new Set(plan.waitingCircles.map(({ heightMetres }) => Math.round(heightMetres / 10))).size < plan.waitingCircles.length)
      faults.push('two ships wait at one height');
    if (plan.waitingCircles.length !== ships) faults.push(`${plan.waitingCircles.length} waiting circles for ${ships} ships`);
  }
  return faults;
}

function shipFaults(legs: readonly AirLeg[], plan: ExportedPlan, speed: number, turnRate: (bankDegrees: number) => number): string[] {
  const faults: string[] = [];
  legs.forEach((leg, index) => {
    const where = `${leg.ship}, ${leg.kind} ${index}${leg.letter === null ? '' : ` of ${leg.letter}`}`;
    const next = legs[index + 1];
    if (next !== undefined) {
      const gap = Math.hypot(startOf(next).x - endOf(leg).x, startOf(next).y - endOf(leg).y);
      if (gap > MEET_METRES) faults.push(`${where}: ends ${gap.toFixed(1)} m from where the next begins`);
      if (Math.abs(startOf(next).seconds - endOf(leg).seconds) > 0.002) faults.push(`${where}: the next begins at another time`);
    }
    const steps = stepsOf(leg);
    const most = leg.kind === 'smoke' ? turnRate(plan.writingBankDegrees) : Math.max(turnRate(plan.turningBankDegrees), turnRate(plan.writingBankDegrees));
    const steepest = Math.max(0, ...turns(steps).map(({ degreesPerSecond }) => degreesPerSecond));
    if (steepest > most * TURN_SHARE) faults.push(`${where}: turns at ${steepest.toFixed(2)} degrees a second, the bank allows ${most.toFixed(2)}`);
    const slow = Math.min(...steps.map((step) => step.speed));
    const fast = Math.max(...steps.map((step) => step.speed));
    // A way that changes its sense waits for its rolls; a ship of a formation is planned a little slow.
    if (fast > speed * SPEED_SHARE.most) faults.push(`${where}: flown at ${(fast / KNOT).toFixed(1)} kt of ${plan.trueAirspeedKnots.toFixed(1)}`);
    if (leg.kind === 'smoke' && slow < speed * SPEED_SHARE.least)
      faults.push(`${where}: smokes at ${(slow / KNOT).toFixed(1)} kt of ${plan.trueAirspeedKnots.toFixed(1)}`);
    if (leg.kind === 'smoke') faults.push(...straightFaults(legs, index, plan, where));
  });
  return faults;
}

/** Wings level for the run-in before a stroke and the run-out after it, where the neighbour is no stroke that runs on. */
function straightFaults(legs: readonly AirLeg[], index: number, { runInSeconds, runOutSeconds }: ExportedPlan, where: string): string[] {
  const faults: string[] = [];
  const straight = (leg: AirLeg, fromSeconds: number, toSeconds: number): boolean =>
    turns(stepsOf(leg))
      .filter(({ atSeconds }) => atSeconds > fromSeconds + 0.6 && atSeconds < toSeconds - 0.6)
      .every(({ degreesPerSecond }) => degreesPerSecond < STRAIGHT_DEGREES_PER_SECOND);
  const [before, after, leg] = [legs[index - 1], legs[index + 1], legs[index]!];
  const runsOn = (other: AirLeg): boolean => straight(other, startOf(other).seconds, endOf(other).seconds);
  if (before?.kind === 'reposition' && !runsOn(before) && !straight(before, startOf(leg).seconds - runInSeconds, startOf(leg).seconds))
    faults.push(`${where}: its run-in turns`);
  if (after?.kind === 'reposition' && !runsOn(after) && !straight(after, endOf(leg).seconds, endOf(leg).seconds + runOutSeconds))
    faults.push(`${where}: its run-out turns`);
  return faults;
}

/** Every letter written, each in one style; letters that are joined are one piece that names them all. */
function letterFaults(legs: readonly AirLeg[], letterCount: number): string[] {
  const pieces = new Map<number, { readonly characters: string; readonly styles: Set<string> }>();
  for (const { kind, letterIndex, letter, style } of legs) {
    if (kind !== 'smoke' || letterIndex === null) continue;
    const piece = pieces.get(letterIndex) ?? { characters: letter ?? '', styles: new Set() };
    pieces.set(letterIndex, piece);
    piece.styles.add(style ?? '');
  }
  const written = [...pieces.values()].reduce((sum, { characters }) => sum + [...characters].length, 0);
  return [
    ...(written === letterCount ? [] : [`${written} of ${letterCount} letters are written`]),
    ...[...pieces.values()]
      .filter(({ styles }) => styles.size > 1)
      .map(({ characters, styles }) => `${characters} is written in ${styles.size} styles at once`),
  ];
}
