// Keeps the bench's pages, and what they are made of, on the device: shown when the server is out of reach.
const KEPT = 'bench-pages';
const MOST = 400; // pages and parts; own choice

/** @param {URL} url @returns {boolean} whether it is a page of the bench or a part of one */
function isKept(url) {
  return url.origin === location.origin
    && (/^\/jobs\/[^/]+\/bench(\/|$)/.test(url.pathname) || /^\/(static|lettering)\//.test(url.pathname));
}

/** @param {Request | string} what @param {Response} reply */
async function keep(what, reply) {
  if (!reply.ok || reply.redirected) return;
  const cache = await caches.open(KEPT);
  await cache.put(what, reply);
  const names = await cache.keys();
  await Promise.all(names.slice(0, Math.max(0, names.length - MOST)).map((one) => cache.delete(one)));
}

self.addEventListener('install', () => self.skipWaiting());
self.addEventListener('activate', (event) => event.waitUntil(self.clients.claim()));

self.addEventListener('message', (event) => {
  const wanted = (event.data?.keep ?? []).filter((one) => isKept(new URL(one, location.origin)));
  event.waitUntil((async () => {
    for (const one of wanted) {
      try {
        await keep(one, await fetch(one));
      } catch {
        return; // no connection: what is kept already stays
      }
    }
  })());
});

self.addEventListener('fetch', (event) => {
  const url = new URL(event.request.url);
  if (event.request.method !== 'GET' || !isKept(url)) return;
  event.respondWith((async () => {
    try {
      const reply = await fetch(event.request);
      event.waitUntil(keep(event.request, reply.clone()));
      return reply;
    } catch (lost) {
      const kept = await (await caches.open(KEPT)).match(event.request, { ignoreVary: true });
      if (kept) return kept;
      throw lost;
    }
  })());
});
