/**
 * Checks ships against each other from an exported plan alone. It shares no code with the planner: it reads the
 * GeoJSON, projects it by its own formulas, takes the wind off and compares the lines between the vertices.
 */

/** What an exported plan must have to be taken into the air. */
export interface ExportedLines {
  readonly windFromDegrees: number;
  readonly windKnots: number;
  readonly features: readonly {
    readonly properties: Readonly<Record<string, unknown>>;
    readonly geometry: { readonly coordinates: readonly (readonly number[])[] };
  }[];
}

export interface Vertex {
  readonly seconds: number;
  readonly x: number;
  readonly y: number;
}

export interface ClosestApproach {
  readonly metres: number;
  readonly ships: string;
  readonly atSeconds: number;
  readonly slipSeconds: number;
}

// Radii of curvature of the WGS 84 ellipsoid (NIMA TR8350.2, table 3.1; Rapp 1991, eqs 3.87 and 3.99).
const A = 6378137;
const E2 = 0.00669437999014;

/** The vertices of each feature in the air: the ground's points less what the wind has moved them, seconds from the first. */
export function airLines(plan: ExportedLines): Vertex[][] {
  const [lon0, lat0] = plan.features[0]!.geometry.coordinates[0] as [number, number];
  const t0 = Date.parse((plan.features[0]!.properties['coordTimes'] as string[])[0]!) / 1000;
  const phi = (lat0 * Math.PI) / 180;
  const w = Math.sqrt(1 - E2 * Math.sin(phi) ** 2);
  const perLat = ((A * (1 - E2)) / w ** 3) * (Math.PI / 180);
  const perLon = (A / w) * Math.cos(phi) * (Math.PI / 180);
  const from = (plan.windFromDegrees * Math.PI) / 180;
  const speed = plan.windKnots * (1852 / 3600);
  return plan.features.map(({ properties, geometry }) => {
    const times = properties['coordTimes'] as string[];
    return geometry.coordinates.map(([lon, lat], index) => {
      const seconds = Date.parse(times[index]!) / 1000 - t0;
      return {
        seconds,
        x: (lon! - lon0) * perLon + Math.sin(from) * speed * seconds,
        y: (lat! - lat0) * perLat + Math.cos(from) * speed * seconds,
      };
    });
  });
}

/** Vertices of each ship in time order, in the air. */
function airTracks(plan: ExportedLines): Map<string, Vertex[]> {
  const ships = new Map<string, Vertex[]>();
  for (const [index, line] of airLines(plan).entries()) {
    const ship = String(plan.features[index]!.properties['ship']);
    const track = ships.get(ship) ?? [];
    ships.set(ship, track);
    for (const vertex of line) if (track.length === 0 || vertex.seconds > track.at(-1)!.seconds) track.push(vertex);
  }
  return ships;
}

function at(track: readonly Vertex[], seconds: number, hint: { index: number }): { x: number; y: number } | null {
  if (seconds < track[0]!.seconds || seconds > track.at(-1)!.seconds) return null;
  while (hint.index > 0 && track[hint.index]!.seconds > seconds) hint.index -= 1;
  while (hint.index < track.length - 2 && track[hint.index + 1]!.seconds < seconds) hint.index += 1;
  const a = track[hint.index]!;
  const b = track[hint.index + 1] ?? a;
  const share = b.seconds > a.seconds ? (seconds - a.seconds) / (b.seconds - a.seconds) : 0;
  return { x: a.x + (b.x - a.x) * share, y: a.y + (b.y - a.y) * share };
}

/** The nearest any two ships come, over all times and all slips of one against the other up to `slipSeconds`. */
export function closestApproach(plan: ExportedLines, slipSeconds: number, stepSeconds = 0.5): ClosestApproach {
  const tracks = [...airTracks(plan)];
  let closest: ClosestApproach = { metres: Infinity, ships: '', atSeconds: 0, slipSeconds: 0 };
  tracks.forEach(([one, first], index) => {
    for (const [other, second] of tracks.slice(index + 1)) {
      for (let slip = -slipSeconds; slip <= slipSeconds + 1e-9; slip += stepSeconds) {
        const here = { index: 0 };
        const there = { index: 0 };
        for (let seconds = first[0]!.seconds; seconds <= first.at(-1)!.seconds; seconds += stepSeconds) {
          const p = at(first, seconds, here);
          const q = at(second, seconds + slip, there);
          if (p === null || q === null) continue;
          const metres = Math.hypot(p.x - q.x, p.y - q.y);
          if (metres < closest.metres) closest = { metres, ships: `${one} and ${other}`, atSeconds: seconds, slipSeconds: slip };
        }
      }
    }
  });
  return closest;
}
