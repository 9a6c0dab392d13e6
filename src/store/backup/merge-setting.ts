/**
 * A setting of a backup beside the one that is here: lists of things with ids become their union, those here first;
 * groups of such lists likewise. Anything else stays as it is here. The very value where nothing was added.
 */
export function mergedSetting(here: unknown, there: unknown): unknown {
  if (isListWithIds(here) && isListWithIds(there)) {
    const known = new Set(here.map(({ id }) => id));
    const fresh = there.filter(({ id }) => !known.has(id));
    return fresh.length === 0 ? here : [...here, ...fresh];
  }
  if (!isGroup(here) || !isGroup(there)) return here;
  const merged = Object.fromEntries(Object.entries(here).map(([key, value]) => [key, Array.isArray(value) ? mergedSetting(value, there[key]) : value]));
  return Object.keys(here).every((key) => merged[key] === here[key]) ? here : merged;
}

/** Whether two stored values are the same. */
export function isSame(one: unknown, other: unknown): boolean {
  if (one instanceof Uint8Array && other instanceof Uint8Array) return one.length === other.length && one.every((byte, index) => byte === other[index]);
  if (Array.isArray(one) && Array.isArray(other)) return one.length === other.length && one.every((item, index) => isSame(item, other[index]));
  if (isGroup(one) && isGroup(other)) {
    const keys = Object.keys(one);
    return keys.length === Object.keys(other).length && keys.every((key) => isSame(one[key], other[key]));
  }
  return Object.is(one, other);
}

function isListWithIds(value: unknown): value is readonly { readonly id: string }[] {
  return Array.isArray(value) && value.every((item: unknown) => isGroup(item) && typeof item['id'] === 'string');
}

function isGroup(value: unknown): value is Readonly<Record<string, unknown>> {
  return typeof value === 'object' && value !== null && !Array.isArray(value) && !ArrayBuffer.isView(value);
}
