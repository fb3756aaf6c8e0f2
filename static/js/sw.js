// The service worker. In front of this file the server puts `build` and `files`, made from what was built.
// The shell comes from the cache at once; data never passes through here.
/* global build, files */
const cacheName = 'garlandry-' + build;
const shell = '/shell';
const serverOnly = /^\/(api\/|j($|[/?])|join|scan|invite|healthz|sw\.js|manifest|dev\/)|^\/jobs\/[^/]+\/(share|own|calendar\.ics)($|\/)/;
const limit = 3000;
const assetLimit = 60000; // the core is a megabyte, and signal may be thin

self.addEventListener('install', (event) => {
  event.waitUntil(fill());
  // Where the browser can, it takes from the cache itself what this worker would, and need not start it first.
  if (event.addRoutes) {
    event.waitUntil(event.addRoutes([
      { condition: { urlPattern: { pathname: '/a/*' } }, source: { cacheName } },
      { condition: { requestMode: 'navigate', urlPattern: { pathname: '/', search: '' } }, source: { cacheName } },
    ]).catch(() => {}));
  }
});

async function fill() {
  const cache = await caches.open(cacheName);
  await cache.addAll(files.map((url) => new Request(url, { cache: url.startsWith('/a/') ? 'default' : 'reload' })));
  await cache.put('/', await cache.match(shell));
}

self.addEventListener('activate', (event) => {
  event.waitUntil((async () => {
    for (const name of await caches.keys()) {
      if (name.startsWith('garlandry-') && name !== cacheName) await caches.delete(name);
    }
    await self.clients.claim();
  })());
});

self.addEventListener('message', (event) => {
  if (event.data && event.data.type === 'take-over') self.skipWaiting();
});

self.addEventListener('fetch', (event) => {
  const request = event.request;
  const url = new URL(request.url);
  if (request.method !== 'GET' || url.origin !== self.location.origin) return;
  if (request.mode === 'navigate') {
    if (serverOnly.test(url.pathname) || url.searchParams.get('from') === 'server' || url.pathname.endsWith('/export')) {
      event.respondWith(fromServer(request));
    } else {
      event.respondWith(fromCache(shell).then((hit) => hit || fromServer(request)));
    }
    return;
  }
  if (url.pathname.startsWith('/a/')) event.respondWith(fromCache(url.pathname).then((hit) => hit || fetch(request, { signal: AbortSignal.timeout(assetLimit) })));
});

async function fromCache(path) {
  const own = await caches.open(cacheName);
  return (await own.match(path)) || caches.match(path);
}

async function fromServer(request) {
  const stop = new AbortController();
  const timer = setTimeout(() => stop.abort(), limit);
  try {
    return await fetch(request, { signal: stop.signal });
  } catch {
    return (await fromCache(shell)) || Response.error();
  } finally {
    clearTimeout(timer);
  }
}
