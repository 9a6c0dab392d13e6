/**
 * What the database is known to hold, written down beside it: a browser that clears one and not the other is found out.
 * It is lost when everything is cleared, and nothing depends on it.
 */
const KEY = 'quillwind-witness';

/** A stored thing by its name, as a person knows it. */
export interface Witnessed {
  readonly id: string;
  readonly name: string;
}

/** What was last written down; empty for nothing or for what cannot be read. A browser may refuse even to name its storage. */
export function readWitness(storage: () => Pick<Storage, 'getItem'>): readonly Witnessed[] {
  try {
    const stored: unknown = JSON.parse(storage().getItem(KEY) ?? '[]');
    return Array.isArray(stored) ? stored.filter(isWitnessed) : [];
  } catch {
    return [];
  }
}

/** Writes down what is stored now; a browser that takes nothing is no fault. */
export function writeWitness(storage: () => Pick<Storage, 'setItem'>, witnessed: readonly Witnessed[]): void {
  try {
    storage().setItem(KEY, JSON.stringify(witnessed.map(({ id, name }) => ({ id, name }))));
  } catch {
    // Only the report of a loss would be missed.
  }
}

function isWitnessed(value: unknown): value is Witnessed {
  return typeof value === 'object' && value !== null && 'id' in value && typeof value.id === 'string' && 'name' in value && typeof value.name === 'string';
}
