import { describe, expect, it } from 'vitest';
import { createOverlayDesk, type OverlayFile, type OverlayStore } from '../../../src/app/draw/overlay-desk.ts';

const feature = (name: string): string =>
  JSON.stringify({
    type: 'Feature',
    properties: { name },
    geometry: {
      type: 'Polygon',
      coordinates: [
        [
          [10, 44],
          [10.1, 44],
          [10.1, 44.1],
          [10, 44],
        ],
      ],
    },
  });
const file = (name: string, text: string, size = text.length): Pick<File, 'name' | 'size' | 'text'> => ({ name, size, text: () => Promise.resolve(text) });

function memory(kept: OverlayFile | null = null): OverlayStore & { kept: OverlayFile | null; fails: boolean } {
  const store = {
    kept,
    fails: false,
    read: () => (store.fails ? Promise.reject(new Error('The database is shut.')) : Promise.resolve(store.kept)),
    save(next: OverlayFile | null) {
      if (store.fails) return Promise.reject(new Error('The device is full.'));
      store.kept = next;
      return Promise.resolve();
    },
  };
  return store;
}
const settled = async (desk: ReturnType<typeof createOverlayDesk>): Promise<void> => {
  while (desk.busy.value !== null) await new Promise((resolve) => setTimeout(resolve, 5));
};

describe('the overlay of a job', () => {
  it('is opened again as it was kept', async () => {
    const store = memory();
    const first = createOverlayDesk(store);
    await settled(first);
    await first.take(file('lake.geojson', feature('Reserve')));
    expect(store.kept?.fileName).toBe('lake.geojson');
    const second = createOverlayDesk(store);
    await settled(second);
    expect(second.overlay.value?.areas.map(({ name }) => name)).toEqual(['Reserve']);
    expect(second.fileName.value).toBe('lake.geojson');
    await second.remove();
    expect([second.overlay.value, store.kept]).toEqual([null, null]);
  });

  it.each([
    ['broken', '{"type":'],
    ['another kind', '{"type":"Topology"}'],
    [
      'one bad feature among good ones',
      `{"type":"FeatureCollection","features":[${feature('a')},{"type":"Feature","properties":null,"geometry":{"type":"Polygon","coordinates":[[[1,2],[3,4]]]}}]}`,
    ],
  ])('takes nothing of a file that is %s: the one before stays, shown and kept', async (_, text) => {
    const store = memory();
    const desk = createOverlayDesk(store);
    await settled(desk);
    await desk.take(file('good.geojson', feature('Reserve')));
    await desk.take(file('bad.geojson', text));
    expect(desk.fault.value).toMatch(/^bad\.geojson was not taken: .*The overlay loaded before stays\.$/s);
    expect(desk.overlay.value?.areas[0]?.name).toBe('Reserve');
    expect(store.kept?.fileName).toBe('good.geojson');
  });

  it('is not opened at all when it is far too large', async () => {
    const desk = createOverlayDesk(memory());
    await settled(desk);
    let opened = false;
    await desk.take({ name: 'world.geojson', size: 90_000_000, text: () => ((opened = true), Promise.resolve('')) });
    expect(desk.fault.value).toBe('world.geojson was not taken: it is 90 MB; at most 20 MB are read. No overlay is loaded.');
    expect(opened).toBe(false);
  });

  it('that cannot be kept is not taken, and says why', async () => {
    const store = memory();
    const desk = createOverlayDesk(store);
    await settled(desk);
    store.fails = true;
    await desk.take(file('lake.geojson', feature('Reserve')));
    expect(desk.fault.value).toBe('lake.geojson was not taken, because it could not be kept: The device is full. No overlay is loaded.');
    expect(desk.overlay.value).toBeNull();
  });

  it('that was damaged where it was kept says so, and so does a store that cannot be read', async () => {
    const damaged = createOverlayDesk(memory({ fileName: 'lake.geojson', text: '{' }));
    await settled(damaged);
    expect(damaged.fault.value).toMatch(/^The overlay kept with this job cannot be taken: /);
    const store = memory();
    store.fails = true;
    const shut = createOverlayDesk(store);
    await settled(shut);
    expect(shut.fault.value).toContain('load its file again');
  });
});
