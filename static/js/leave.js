// Signs out: removes everything this browser stored of the app, in every tab, and tells the server. The core decides
// what to remove and when.
import { addressOf } from './own.js';

const prefix = 'garlandry';
const leftName = 'garlandry-left'; // changes with each sign-out, so that a page that slept through one notices
const laterName = 'garlandry-later'; // signed out without signal: the server has yet to be told
const laterCache = 'garlandry.later'; // the same for the service worker, which sees no other storage
const photos = 'garlandry.photos'; // the cache of photos, see photo.js
const leavePath = '/phone/out';
const outPath = '/out';
const limit = 8000;
const seen = read(leftName);
const others = self.BroadcastChannel ? new BroadcastChannel('garlandry-left') : null;

let stop = () => {}; // ends this tab's core and whatever else of it writes
let gone = false;

// watchLeaving makes this tab follow when another one signs out. halt stops everything that writes in this tab.
export function watchLeaving(halt) {
  stop = halt;
  if (others) others.onmessage = () => follow();
  window.addEventListener('storage', (event) => { if (event.key === leftName && event.newValue) follow(); });
  for (const name of ['pageshow', 'visibilitychange']) {
    window.addEventListener(name, () => { if (![null, seen].includes(read(leftName))) follow(); });
  }
  document.addEventListener('submit', (event) => {
    if (gone) {
      event.preventDefault();
      event.stopPropagation();
    } else if (addressOf(event.target).pathname === '/j') { // somebody joins: that is not to be ended
      forgetLater();
    }
  }, true);
}

// hasLeft reports whether this page is signing out. Nothing may be stored then.
export function hasLeft() { return gone; }

// leave signs out: it stops all writing, tells the server, then removes everything stored.
export async function leave() {
  if (gone) return;
  quit();
  tellOthers();
  const told = await tellServer();
  await wipe();
  if (!told) await putOff();
  tellOthers(); // also those that slept, whatever was wiped meanwhile
  location.replace(told ? outPath : outPath + '/later');
}

// afterLeaving is for the pages on which a sign-out ends: it clears what the server's answer to a plain form left here,
// and tells a server that could not be told before. It says whether the page is not to go on as usual.
export function afterLeaving() {
  if (document.documentElement.dataset.left) {
    tellOthers();
    history.replaceState(null, '', outPath);
    wipe();
    forgetLater();
    return true;
  }
  if (read(laterName) === null) return false;
  const tell = async () => {
    if (read(laterName) === null || !(await tellServer())) return false;
    forgetLater();
    return true;
  };
  const joins = location.pathname === '/j' || location.pathname === '/scan';
  const here = location.pathname.startsWith(outPath);
  if (!joins && !here) document.body.hidden = true;
  tell().then((told) => {
    if (told && !joins) location.replace(outPath);
    else if (!told && !joins && !here) location.replace(outPath + '/later');
  });
  window.addEventListener('online', () => tell().then((told) => { if (told && !joins) location.replace(outPath); }));
  return !joins;
}

// forgetJob removes what names a job: its photos, remembered pages and sent forms.
export function forgetJob(id) {
  forgetPhotos(`/jobs/${id}/`).catch(() => {});
  for (const store of stores()) {
    for (const key of ours(store)) {
      if ((key + ' ' + store.getItem(key)).includes(id)) store.removeItem(key);
    }
  }
}

// forgetPhotos removes the photos whose address holds a text, all of them for an empty one.
export async function forgetPhotos(text = '') {
  if (!self.caches || !(await caches.has(photos))) return;
  if (!text) return caches.delete(photos);
  const cache = await caches.open(photos);
  for (const { url } of await cache.keys()) if (url.includes(text)) await cache.delete(url);
}

// follow leaves this tab after another one has signed out.
function follow() {
  if (gone) return;
  quit();
  document.body.replaceChildren();
  wipeSmall();
  location.replace(outPath);
}

function quit() {
  gone = true;
  stop();
  document.title = 'Garlandry';
}

function tellOthers() {
  write(leftName, String(Math.random()));
  if (others) others.postMessage('left');
}

// tellServer asks the server to end the session and returns whether it did.
async function tellServer() {
  try {
    const headers = { Accept: 'application/json' };
    const signal = AbortSignal.timeout(limit);
    const answer = await fetch(leavePath, { method: 'POST', headers, redirect: 'error', keepalive: true, signal });
    return answer.ok;
  } catch {
    return false;
  }
}

// putOff notes that the server has yet to be told, for this page's script and for the service worker.
async function putOff() {
  write(laterName, 'yes');
  try { await caches.open(laterCache); } catch { /* no service worker here either */ }
}

function forgetLater() {
  for (const store of stores()) store.removeItem(laterName);
  if (self.caches) caches.delete(laterCache).catch(() => {});
}

async function wipe() {
  wipeSmall();
  await forgetPhotos().catch(() => {});
  try {
    const known = indexedDB.databases ? await indexedDB.databases() : [{ name: prefix }];
    for (const { name } of known) if (name.startsWith(prefix)) await dropDatabase(name);
  } catch { /* no storage */ }
  wipeSmall();
}

function wipeSmall() {
  for (const store of stores()) for (const key of ours(store)) store.removeItem(key);
}

// dropDatabase empties a database, then deletes it. A tab that holds it open can block the deletion but not the
// emptying.
async function dropDatabase(name) {
  await new Promise((resolve) => {
    const opening = indexedDB.open(name);
    opening.onerror = resolve;
    opening.onsuccess = () => {
      const handle = opening.result;
      handle.onversionchange = () => handle.close();
      const names = [...handle.objectStoreNames];
      if (!names.length) {
        handle.close();
        return resolve();
      }
      const clearing = handle.transaction(names, 'readwrite');
      for (const store of names) clearing.objectStore(store).clear();
      clearing.oncomplete = clearing.onabort = () => { handle.close(); resolve(); };
    };
  });
  await new Promise((resolve) => {
    const dropping = indexedDB.deleteDatabase(name);
    dropping.onsuccess = dropping.onerror = resolve;
    setTimeout(resolve, limit);
  });
}

function stores() {
  try { return [localStorage, sessionStorage]; } catch { return []; } // no storage, so nothing was kept
}

function ours(store) {
  return Object.keys(store).filter((key) => key.startsWith(prefix) && key !== leftName && key !== laterName);
}

function read(key) {
  try { return localStorage.getItem(key); } catch { return null; }
}

function write(key, value) {
  try { localStorage.setItem(key, value); } catch { /* no storage */ }
}
