// The service worker. In front of this file the server puts `build` and `files`, made from what was built.
// The shell comes from the cache at once; data never passes through here.
/* global build, files */
const cacheName = 'garlandry-' + build;
const shell = '/shell';
const later = 'garlandry.later'; // a cache that leave.js opens when this phone signed out without signal
const photos = 'garlandry.photos'; // chosen on this phone or seen here; photo.js and leave.js open it too
const photoFile = /^\/api\/v1\/jobs\/[^/]+\/photos\/[0-9a-f]{64}$/;
const serverOnly = /^\/(api\/|out($|\/)|j($|[/?])|join|scan|security|invite|look\/|healthz|sw\.js|manifest|dev\/)/;
const serverOnlyBelow = /^\/(jobs\/[^/]+\/(share|own|calendar\.ics)|phone\/(devices|code|name|end))($|\/)/;
const stillLimit = 3000; // ms without a byte
const askedAgain = 5000; // ms in which the shell asks again
const pageLimit = 20000; // ms for a whole page or file
const assetLimit = 60000; // the core is more than a megabyte, and signal may be thin

self.addEventListener('install', (event) => {
  event.waitUntil(fill());
  // Browsers with static routing serve cached files without starting this worker.
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
  if (event.data && event.data.type === 'claim') event.waitUntil(self.clients.claim());
});

self.addEventListener('fetch', (event) => {
  const request = event.request;
  const url = new URL(request.url);
  if (request.method !== 'GET' || url.origin !== self.location.origin) return;
  if (request.mode === 'navigate') {
    const { pathname, searchParams } = url;
    if (serverOnly.test(pathname) || serverOnlyBelow.test(pathname) ||
        searchParams.get('from') === 'server' || pathname.endsWith('/export')) {
      event.respondWith(fromServer(request));
    } else {
      event.respondWith(fromCache(shell).then((hit) => hit || fromServer(request)));
    }
    return;
  }
  if (photoFile.test(url.pathname)) return event.respondWith(photo(request, url.pathname));
  if (!url.pathname.startsWith('/a/')) return;
  const fromNetwork = () => fetch(request, { signal: AbortSignal.timeout(assetLimit) });
  event.respondWith(fromCache(url.pathname).then((hit) => hit || fromNetwork()));
});

// photo answers with a photo that this phone keeps, else with the server's, which it then keeps.
async function photo(request, path) {
  const cache = await caches.open(photos).catch(() => null);
  const hit = await cache?.match(path);
  if (hit) return hit;
  const answer = await fetch(request, { signal: AbortSignal.timeout(assetLimit) });
  if (answer.ok) await cache?.put(path, answer.clone()).catch(() => {}); // no room: it is shown all the same
  return answer;
}

async function fromCache(path) {
  const own = await caches.open(cacheName);
  return (await own.match(path)) || caches.match(path);
}

// signedOut tells the server about a sign-out made without signal, and returns whether that still has to be done.
async function signedOut() {
  if (!(await caches.has(later))) return false;
  try {
    const answer = await fetch('/phone/out', {
      method: 'POST', headers: { Accept: 'application/json' }, credentials: 'same-origin', redirect: 'error',
      signal: AbortSignal.timeout(stillLimit),
    });
    return !(answer.ok && await caches.delete(later));
  } catch {
    return true;
  }
}

// fromServer gives a page that the server draws, or the shell where it does not come. The shell asks again for what its
// core does not hold; that is not waited for twice.
const failures = new Map(); // by path: when it did not come
async function fromServer(request) {
  const { pathname } = new URL(request.url);
  if (await signedOut() && !/^\/(j|scan|out\/later)$/.test(pathname)) {
    return (await fromCache('/out/later')) || Response.error();
  }
  try {
    if (Date.now() - (failures.get(pathname) || 0) < askedAgain) throw new Error('it did not come just now');
    return await whole(request, stillLimit, pageLimit);
  } catch {
    if (failures.has(pathname)) failures.delete(pathname);
    else failures.set(pathname, Date.now());
    return (await fromCache(pathname.startsWith('/out') ? pathname : shell)) || Response.error();
  }
}

// whole returns an answer once all of it has arrived. It fails if the answer is cut off or stalls for too long.
async function whole(request, still, all) {
  const stop = new AbortController();
  const last = setTimeout(() => stop.abort(), all);
  let timer = 0;
  const wait = () => { clearTimeout(timer); timer = setTimeout(() => stop.abort(), still); };
  try {
    wait();
    const answer = await fetch(request, { signal: stop.signal });
    failures.clear();
    if (!answer.body) return answer; // a redirect, which the browser follows itself
    const parts = [];
    for (const reader = answer.body.getReader(); ;) {
      wait();
      const { done, value } = await reader.read();
      if (done) break;
      parts.push(value);
    }
    const headers = new Headers(answer.headers);
    headers.delete('Content-Encoding'); // it is decoded
    headers.delete('Content-Length');
    return new Response(new Blob(parts), { status: answer.status, statusText: answer.statusText, headers });
  } finally {
    clearTimeout(timer);
    clearTimeout(last);
  }
}
