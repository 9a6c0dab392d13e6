/** A count with its word: `counted(1, 'opening')` is `1 opening`; `many` where an s does not make the plural. */
export function counted(count: number, one: string, many = `${one}s`): string {
  return `${count} ${count === 1 ? one : many}`;
}
