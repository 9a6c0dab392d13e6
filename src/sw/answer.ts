import { type PrecacheController, PrecacheRoute } from 'workbox-precaching';
import { NavigationRoute, registerRoute } from 'workbox-routing';

/**
 * Answers every request from what was stored: any navigation gets the page without asking the network, so a
 * server that hangs cannot delay a cold start; files come from the precache by name.
 */
export function answerFromPrecache(precache: PrecacheController): void {
  registerRoute(new NavigationRoute(precache.createHandlerBoundToURL('/index.html')));
  registerRoute(new PrecacheRoute(precache, { directoryIndex: 'index.html', cleanURLs: false, ignoreURLParametersMatching: [] }));
}
