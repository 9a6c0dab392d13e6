import type { Page } from '@playwright/test';

/** A row of a flight's log, read past the app. */
export interface RawRow {
  readonly sequence: number;
  readonly kind: string;
}

/** Every stored row of a flight, in order of its number. */
export function storedRows(page: Page, flightId: string): Promise<RawRow[]> {
  return page.evaluate(
    (id) =>
      new Promise<RawRow[]>((resolve, reject) => {
        const open = indexedDB.open('quillwind');
        open.onerror = () => reject(open.error);
        open.onsuccess = () => {
          const rows = open.result
            .transaction('rows')
            .objectStore('rows')
            .getAll(IDBKeyRange.bound([id, 0], [id, Number.MAX_SAFE_INTEGER]));
          rows.onsuccess = () => {
            open.result.close();
            resolve(
              (rows.result as { sequence: number; eventText: string }[]).map(({ sequence, eventText }) => ({
                sequence,
                kind: (JSON.parse(eventText) as { kind: string }).kind,
              })),
            );
          };
        };
      }),
    flightId,
  );
}

/** The flight on the screen, and the last of its rows that the store has acknowledged. */
export async function acknowledged(page: Page): Promise<{ readonly flightId: string; readonly sequence: number }> {
  return page.locator('[data-log-confirmed]').evaluate((element) => ({
    flightId: element.getAttribute('data-flight') ?? '',
    sequence: Number(element.getAttribute('data-log-confirmed')),
  }));
}
