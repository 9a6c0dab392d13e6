/** A field that an I record appends to every B record: its code, and where it stands (first character is 0). */
export interface IgcExtension {
  readonly code: string;
  readonly start: number;
  readonly end: number;
}

/** What a B record says. */
export interface IgcFix {
  /** Since the UTC day's beginning. */
  readonly ofDayMilliseconds: number;
  readonly latitudeDegrees: number;
  readonly longitudeDegrees: number;
  /** Above 1013.25 hPa; null for the `00000` of a recorder without a pressure sensor. */
  readonly pressureHeightMetres: number | null;
  /** From the satellite receiver; null without a three-dimensional position. */
  readonly receiverHeightMetres: number | null;
}

const FIX = /^B(\d\d)(\d\d)(\d\d)(\d\d)(\d\d)(\d{3})([NS])(\d{3})(\d\d)(\d{3})([EW])([AV])(-\d{4}|\d{5})(-\d{4}|\d{5})/;

/** The fields of an I record; none for a record that does not hold what it announces. `I023638FXA3940SIU` holds two. */
export function igcExtensionsFrom(line: string): readonly IgcExtension[] {
  const count = Number(line.slice(1, 3));
  const fields = [...line.slice(3).matchAll(/(\d\d)(\d\d)([A-Z0-9]{3})/gy)];
  if (fields.length < count) return [];
  return fields.slice(0, count).map(([, start, end, code]) => ({ code: code ?? '', start: Number(start) - 1, end: Number(end) }));
}

/**
 * What a B record says, or why it cannot be read. Appended digits of the minutes (LAD, LOD) and of the seconds (TDS)
 * are used.
 */
export function igcFixFrom(line: string, extensions: readonly IgcExtension[]): IgcFix | string {
  const match = FIX.exec(line);
  if (match === null) return line.trim().length < 35 ? 'the fix (B record) is broken off' : 'the fix (B record) is not written as the format wants it';
  const [
    ,
    hours,
    minutes,
    seconds,
    latitude,
    latitudeMinutes,
    latitudeThousandths,
    northSouth,
    longitude,
    longitudeMinutes,
    longitudeThousandths,
    eastWest,
    validity,
    pressure,
    receiver,
  ] = match;
  const digitsOf = (code: string): string => {
    const field = extensions.find((extension) => extension.code === code);
    const text = field === undefined ? '' : line.slice(field.start, field.end);
    return /^\d+$/.test(text) ? text : '';
  };
  if (Number(hours) > 23 || Number(minutes) > 59 || Number(seconds) > 60) return `the fix's time ${hours}:${minutes}:${seconds} is no time`;
  if (Number(latitudeMinutes) > 59 || Number(longitudeMinutes) > 59) return 'the position has more than 59 minutes';
  const latitudeDegrees = Number(latitude) + Number(`${latitudeMinutes}.${latitudeThousandths}${digitsOf('LAD')}`) / 60;
  const longitudeDegrees = Number(longitude) + Number(`${longitudeMinutes}.${longitudeThousandths}${digitsOf('LOD')}`) / 60;
  if (latitudeDegrees > 90 || longitudeDegrees > 180) return 'the position lies off the earth';
  const fraction = digitsOf('TDS');
  const signedLongitude = eastWest === 'W' ? -longitudeDegrees : longitudeDegrees;
  return {
    ofDayMilliseconds: ((Number(hours) * 60 + Number(minutes)) * 60 + Number(seconds)) * 1000 + (fraction === '' ? 0 : Number(`0.${fraction}`) * 1000),
    latitudeDegrees: northSouth === 'S' ? 0 - latitudeDegrees : latitudeDegrees,
    longitudeDegrees: signedLongitude === 180 ? -180 : signedLongitude + 0,
    pressureHeightMetres: pressure === '00000' ? null : Number(pressure),
    receiverHeightMetres: validity === 'V' ? null : Number(receiver),
  };
}

/** A height as five characters of a B record; clamped to what they can hold. */
export function igcHeightText(heightMetres: number): string {
  const rounded = Math.round(Math.min(99_999, Math.max(-9999, heightMetres)));
  return rounded < 0 ? `-${String(-rounded).padStart(4, '0')}` : String(rounded + 0).padStart(5, '0');
}

/** An angle as whole degrees and minutes with five decimals, all as digits: `ddmmmmm` and the two that LAD or LOD append. */
export function igcAngleText(degrees: number, degreeDigits: 2 | 3): { readonly base: string; readonly appended: string } {
  const hundredThousandths = Math.round(Math.abs(degrees) * 60 * 1e5);
  const wholeDegrees = Math.floor(hundredThousandths / 6e6);
  const minutes = String(hundredThousandths - wholeDegrees * 6e6).padStart(7, '0');
  return { base: String(wholeDegrees).padStart(degreeDigits, '0') + minutes.slice(0, 5), appended: minutes.slice(5) };
}
