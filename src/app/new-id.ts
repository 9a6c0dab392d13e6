/** An id no other job has: 16 letters and digits of chance. */
export function newId(): string {
  return crypto.randomUUID().replaceAll('-', '').slice(0, 16);
}
