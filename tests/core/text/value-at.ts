/** A deep copy with one value replaced, or removed when undefined; `winds.0.speedKnots` names the place. */
export function withValueAt(root: unknown, path: string, value: unknown): unknown {
  const copy = structuredClone(root) as Record<string, unknown>;
  const keys = path.split('.');
  const last = keys.pop() ?? '';
  let place = copy;
  for (const key of keys) place = place[key] as Record<string, unknown>;
  if (value === undefined) delete place[last];
  else place[last] = value;
  return copy;
}
