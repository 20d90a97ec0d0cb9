/**
 * The service worker written beside a page that is served: it keeps the page's files, so that the page opens without a
 * network, and takes newer ones when there are any.
 */
interface Keeper {
  readonly registration: { readonly scope: string };
  readonly clients: { readonly claim: () => Promise<void> };
  readonly skipWaiting: () => Promise<void>;
  readonly addEventListener: (kind: string, listener: (event: KeeperEvent) => void) => void;
}
interface KeeperEvent extends Event {
  readonly request: Request;
  readonly waitUntil: (work: Promise<unknown>) => void;
  readonly respondWith: (answer: Promise<Response>) => void;
}

const keeper = self as unknown as Keeper;
const store = 'soapstone';
const files = ['./', 'icon.svg', 'manifest.webmanifest'];

/** What the network has, kept for the next time; what is kept where there is no network. */
const answer = async (request: Request): Promise<Response> => {
  const kept = await caches.open(store);
  try {
    const fresh = await fetch(request);
    if (fresh.ok) await kept.put(request, fresh.clone());
    return fresh;
  } catch (error) {
    const found = await kept.match(request, { ignoreSearch: true });
    if (found === undefined) throw error;
    return found;
  }
};

keeper.addEventListener('install', (event) => {
  event.waitUntil(
    caches
      .open(store)
      .then((kept) => kept.addAll(files))
      .then(() => keeper.skipWaiting()),
  );
});
keeper.addEventListener('activate', (event) => event.waitUntil(keeper.clients.claim()));
keeper.addEventListener('fetch', (event) => {
  if (event.request.method === 'GET' && event.request.url.startsWith(keeper.registration.scope))
    event.respondWith(answer(event.request));
});
