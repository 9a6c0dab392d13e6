/** The same function, which makes each thing once and keeps it: for what takes long to make and little to keep. What it throws is not kept. */
export function madeOnce<Asked extends readonly (string | number | boolean)[], Made extends object>(
  make: (...asked: Asked) => Made,
): (...asked: Asked) => Made {
  const kept = new Map<string, Made>();
  return (...asked) => {
    const key = asked.join();
    const made = kept.get(key) ?? make(...asked);
    kept.set(key, made);
    return made;
  };
}
