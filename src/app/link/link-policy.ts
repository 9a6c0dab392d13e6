import { linkHost, linkHosts } from './link-host.ts';

const MARK = 'data-link-host';

/**
 * Holds the page to one host of the link: from now on the browser opens no socket to any other. A page's policy can only
 * be made narrower while it lives, so true once it is held to this one, false when it already is to another.
 */
export function holdLinkTo(address: string, { head, createElement }: Pick<Document, 'head' | 'createElement'> = boundTo(document)): boolean {
  const host = linkHost(address);
  if (host === null) return true;
  const before = head.querySelector(`meta[${MARK}]`)?.getAttribute(MARK);
  if (before !== undefined && before !== null) return before === host;
  const policy = createElement('meta');
  policy.setAttribute('http-equiv', 'Content-Security-Policy');
  policy.setAttribute(
    'content',
    `connect-src 'self' https: http://localhost:* http://127.0.0.1:* ${linkHosts(address)
      .map((each) => `wss://${each} ws://${each}`)
      .join(' ')}`,
  );
  policy.setAttribute(MARK, host);
  head.append(policy);
  return true;
}

function boundTo(page: Document): Pick<Document, 'head' | 'createElement'> {
  return { head: page.head, createElement: page.createElement.bind(page) };
}
