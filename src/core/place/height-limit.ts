/** A floor or a ceiling as it is written, brought to feet above mean sea level on the careful side. */
export interface HeightLimit {
  /** Null for none: the ground as a floor, the sky as a ceiling, or what cannot be told from above the ground. */
  readonly feet: number | null;
  /** As it was written, for a person. */
  readonly written: string;
}

const FEET_PER_METRE = 1 / 0.3048;
/** A flight level stands on the standard pressure: on a day of 980 or 1046 hPa it is this far off (30 ft a hectopascal). */
const STANDARD_PRESSURE_FEET = 1000;

/**
 * Reads `2500 ft AMSL`, `FL95`, `1000 ft AGL`, `600 m MSL`, `GND`, `SFC`, `UNL`. What counts from the ground has no height
 * above the sea without the ground's: a floor is then taken as low as it can be, a ceiling as none. A flight level is
 * widened by 1,000 ft. Null for text that is no height.
 */
export function heightLimit(text: string, side: 'floor' | 'ceiling'): HeightLimit | null {
  const written = text.trim().slice(0, 40);
  const plain = written.toUpperCase().replace(/\s+/g, ' ');
  if (/^(GND|SFC|GROUND|SURFACE|0 ?(FT|M)? ?(AGL|GND)?)$/.test(plain)) return { feet: null, written };
  if (/^(UNL|UNLIMITED|UNLTD)$/.test(plain)) return { feet: null, written };
  const level = /^FL ?(\d{1,3})$/.exec(plain);
  if (level !== null) return { feet: Number(level[1]) * 100 + (side === 'floor' ? -STANDARD_PRESSURE_FEET : STANDARD_PRESSURE_FEET), written };
  const [, number, unit = 'FT', datum = 'AMSL'] = /^(\d{1,6}(?:\.\d+)?) ?(FT|FEET|M|METRES)? ?(AMSL|MSL|ALT|AGL|ASFC|GND|SFC)?$/.exec(plain) ?? [];
  if (number === undefined) return null;
  const feet = Number(number) * (unit.startsWith('M') ? FEET_PER_METRE : 1);
  if (/^(AGL|ASFC|GND|SFC)$/.test(datum)) return { feet: side === 'floor' ? feet : null, written };
  return { feet, written };
}
