import { type ComponentChild, type ComponentType, h } from 'preact';
import { useEffect, useState } from 'preact/hooks';

type Loaded<Props> = { readonly component: ComponentType<Props> } | { readonly failed: true } | null;

/**
 * A component whose code is fetched when it is first shown, from the precache when offline. Not for anything a
 * flight needs. A chunk that cannot be had says so and offers the reload that mends it.
 *
 * @param meanwhile shown until the code is there, and instead of it when it cannot be had; or the name to say this by
 */
export function lazily<Props extends object>(load: () => Promise<ComponentType<Props>>, meanwhile: ComponentType<Props> | string): ComponentType<Props> {
  return function Lazily(props: Props): ComponentChild {
    const [loaded, setLoaded] = useState<Loaded<Props>>(null);
    useEffect(() => {
      load().then(
        (component) => setLoaded({ component }),
        () => setLoaded({ failed: true }),
      );
    }, []);
    if (loaded !== null && 'component' in loaded) return h(loaded.component, props);
    if (typeof meanwhile !== 'string') return h(meanwhile, props);
    if (loaded === null)
      return (
        <p class="quiet" role="status">
          Opening {meanwhile}
        </p>
      );
    return (
      <section class="notice caution" role="alert">
        <p>{meanwhile} could not be loaded. Everything stored is still there.</p>
        <button type="button" onClick={() => location.reload()}>
          Load the page again
        </button>
      </section>
    );
  };
}

/** Shown meanwhile where nothing need be. */
export function Nothing(): null {
  return null;
}
