const KEY = 'rehearsal-pace';

/** Remembers how fast a rehearsal goes, for as long as the tab lives: loaded again it goes on so. */
export function keepPace(pace: number): void {
  try {
    sessionStorage.setItem(KEY, String(pace));
  } catch {
    // Without it the rehearsal goes on as it was begun.
  }
}

/** The pace that was kept; null where none was, or the browser keeps nothing. */
export function keptPace(): number | null {
  try {
    const pace = Number(sessionStorage.getItem(KEY));
    return pace >= 1 && pace <= 20 ? pace : null;
  } catch {
    return null;
  }
}
