import { addRoute, createHandlerBoundToURL } from 'workbox-precaching';
import { NavigationRoute, registerRoute } from 'workbox-routing';

/**
 * Answers every request from what was stored: any navigation gets the page without asking the network, so a
 * server that hangs cannot delay a cold start; files come from the precache by name.
 */
export function answerFromPrecache(): void {
  registerRoute(new NavigationRoute(createHandlerBoundToURL('/index.html')));
  addRoute({ directoryIndex: 'index.html', cleanURLs: false, ignoreURLParametersMatching: [] });
}
