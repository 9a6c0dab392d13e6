import { type Endpoint, releaseProxy, type Remote, wrap } from 'comlink';
import type { OffPageServices } from './off-page-services.ts';

/** Each service across the border; comlink's own type gives a promise of a nested object, whose calls it takes all the same. */
type RemoteServices = { readonly [Name in keyof OffPageServices]: Remote<OffPageServices[Name]> };

/** A worker at the service of one purpose. */
export interface OffPage {
  readonly services: RemoteServices;
  /** Rejects when the worker breaks off or could not be started; never settles otherwise. */
  readonly broken: Promise<never>;
  /** Ends the worker, whatever it is doing. */
  end(): void;
}

/** The services behind any endpoint that `off-page.worker.ts` listens on, or tests. */
export function offPageOn(endpoint: Endpoint, name: string, terminate: () => void = () => {}): OffPage {
  const services = wrap<OffPageServices>(endpoint);
  const broken = new Promise<never>((_resolve, reject) => {
    const breakOff = (): void => reject(new Error(`the ${name} could not be started or broke off`));
    endpoint.addEventListener('error', breakOff);
    endpoint.addEventListener('messageerror', breakOff);
  });
  // Nobody may be waiting when it breaks.
  broken.catch(() => {});
  return {
    services: services as unknown as RemoteServices,
    broken,
    end() {
      services[releaseProxy]();
      terminate();
    },
  };
}

/** Starts a worker; its name is what the browser's tools and its errors call it. */
export function startOffPage(name: string): OffPage {
  const worker = new Worker(new URL('./off-page.worker.ts', import.meta.url), { type: 'module', name });
  return offPageOn(worker, name, () => worker.terminate());
}
