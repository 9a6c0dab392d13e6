/**
 * Judges whether ships kept apart, from nothing but where each truly was and when: it knows no plan, no clock of a
 * ship and none of the planner's code.
 */
export interface TruePlace {
  readonly atSeconds: number;
  readonly eastMetres: number;
  readonly northMetres: number;
  readonly heightFeet: number;
}

export interface Approach {
  readonly metres: number;
  readonly heightApartFeet: number;
  readonly atSeconds: number;
  readonly ships: readonly [number, number];
}

/** Two ships so far apart in height are apart. */
export const APART_IN_HEIGHT_FEET = 300;

/**
 * The nearest that any two ships came while within 300 ft of each other's height, from when both had a first fix until
 * the last of all has left. Null when no two were ever within that height.
 *
 * @param tracks of one clock, in order of time; each begins with its ship's first fix
 */
export function nearestAtOneHeight(tracks: readonly (readonly TruePlace[])[], untilSeconds: number): Approach | null {
  let nearest: Approach | null = null;
  for (let one = 0; one < tracks.length; one += 1) {
    for (let other = one + 1; other < tracks.length; other += 1) {
      const second = tracks[other]!;
      let there = 0;
      for (const here of tracks[one]!) {
        if (here.atSeconds > untilSeconds) break;
        while (there < second.length - 1 && second[there]!.atSeconds < here.atSeconds - 1e-6) there += 1;
        const place = second[there];
        if (place === undefined || Math.abs(place.atSeconds - here.atSeconds) > 0.26) continue;
        const heightApartFeet = Math.abs(here.heightFeet - place.heightFeet);
        if (heightApartFeet >= APART_IN_HEIGHT_FEET) continue;
        const metres = Math.hypot(here.eastMetres - place.eastMetres, here.northMetres - place.northMetres);
        if (nearest === null || metres < nearest.metres) nearest = { metres, heightApartFeet, atSeconds: here.atSeconds, ships: [one, other] };
      }
    }
  }
  return nearest;
}
