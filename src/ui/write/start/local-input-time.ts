/** The value of a `datetime-local` field, in the device's own zone, to the second. Inverse: {@link millisecondsFromLocalInput}. */
export function localInputValue(wallMilliseconds: number): string {
  const date = new Date(wallMilliseconds);
  const pad = (value: number): string => String(value).padStart(2, '0');
  return `${date.getFullYear()}-${pad(date.getMonth() + 1)}-${pad(date.getDate())}T${pad(date.getHours())}:${pad(date.getMinutes())}:${pad(date.getSeconds())}`;
}

/** The instant that a `datetime-local` field names in the device's own zone; null for an empty or broken value. */
export function millisecondsFromLocalInput(value: string): number | null {
  const milliseconds = new Date(value).getTime();
  return Number.isFinite(milliseconds) ? milliseconds : null;
}
