import { registerRoute } from 'workbox-routing';

/** Where the system's share sheet sends files, as the manifest says. */
const ADDRESS = '/share';
const CACHE = 'shared-files';

/**
 * Takes what another app shared (Web Share Target): the files are laid aside, and the page that is opened with them takes
 * them up. They go to no server.
 */
export function takeSharedFiles(): void {
  registerRoute(({ url, sameOrigin }) => sameOrigin && url.pathname === ADDRESS, keep, 'POST');
}

async function keep({ request }: { readonly request: Request }): Promise<Response> {
  const form = await request.formData();
  const cache = await caches.open(CACHE);
  let count = 0;
  for (const value of form.values()) {
    if (typeof value === 'string') continue;
    count += 1;
    await cache.put(`/shared-file/${count}/${encodeURIComponent(value.name)}`, new Response(value));
  }
  return Response.redirect('/#/jobs', 303);
}
