// Photos of a job: makes a chosen one small and keeps it in this phone's cache, sends the shared ones, and lets points
// and balloons be dragged on one. What a photo means is the core's to say: here are only its bytes and the pointer.
import { onDrag, pointIn } from './drag.js';
import { hasLeft } from './leave.js';
import { pressForm } from './own.js';
import { toast } from './pass.js';

const cacheName = 'garlandry.photos'; // the service worker answers from it
const wantedURL = '/api/v1/photos';
const patience = 20000; // ms for one part
const mostRounds = 99; // parts of one photo
const soon = 4000; // ms until a photo that waits is tried again, doubled each time
const capable = Boolean(self.caches && self.crypto?.subtle && self.createImageBitmap && navigator.serviceWorker);

let sending = null;
let timer = 0;
let pause = soon;

// hookPhotos does what scripts add to the pages of photos.
export function hookPhotos(root) {
  if (!capable) return;
  for (const part of root.querySelectorAll('[data-photo-plain]')) part.hidden = true;
  for (const part of root.querySelectorAll('[data-photo-kept]')) part.hidden = false;
  if (!root.querySelector('[data-photo-waits]')) return;
  showWaiting();
  if (!timer) sendPhotos();
}

document.addEventListener('change', (event) => {
  const field = event.target;
  if (!capable || !field.files?.length || !('photoPx' in field.dataset)) return;
  toast('photo-work');
  keep(field.files[0], field.dataset).catch(() => toast('no-photo')).finally(() => { field.value = ''; });
});

// keep puts a photo into the cache under the hash of its bytes, then fills in and sends the form that adds it.
async function keep(file, { photoPx, photoBytes, photoAt }) {
  const { blob, canvas } = await shrunk(file, Number(photoPx), Number(photoBytes));
  const bytes = await bare(blob);
  const digest = new Uint8Array(await crypto.subtle.digest('SHA-256', bytes));
  const hash = [...digest].map((byte) => byte.toString(16).padStart(2, '0')).join('');
  try {
    await (await caches.open(cacheName)).put(photoAt + hash, answer(bytes, blob.type));
  } catch {
    return toast('photo-full');
  }
  const form = document.getElementById('add-photo');
  const values = {
    name: file.name, hash, type: blob.type, bytes: bytes.byteLength, width_px: canvas.width, height_px: canvas.height,
    mean: meanOf(canvas),
  };
  for (const [name, value] of Object.entries(values)) form.querySelector(`[name=${name}]`).value = value;
  pressForm(form);
}

function answer(bytes, type, tag) {
  return new Response(bytes, { headers: { 'Content-Type': type, ...(tag && { ETag: tag }) } });
}

// shrunk draws a photo upright on a canvas that is no larger than allowed, and encodes it: as WebP if this browser can.
async function shrunk(file, mostPX, mostBytes) {
  const image = await createImageBitmap(file);
  const canvas = document.createElement('canvas');
  for (let longest = mostPX; longest > 1; longest /= 2) {
    const scale = Math.min(1, longest / Math.max(image.width, image.height));
    canvas.width = Math.max(1, Math.floor(image.width * scale));
    canvas.height = Math.max(1, Math.floor(image.height * scale));
    const pen = canvas.getContext('2d');
    pen.imageSmoothingQuality = 'high';
    pen.fillStyle = '#fff';
    pen.fillRect(0, 0, canvas.width, canvas.height);
    pen.drawImage(image, 0, 0, canvas.width, canvas.height);
    for (const type of ['image/webp', 'image/jpeg']) {
      for (const quality of [0.85, 0.75, 0.65, 0.5]) {
        const blob = await new Promise((resolve) => { canvas.toBlob(resolve, type, quality); });
        if (blob?.type !== type) break;
        if (blob.size <= mostBytes) return { blob, canvas };
      }
    }
  }
  throw new Error('too large');
}

// meanOf gives the mean colour of a canvas: the browser draws it smaller and smaller.
function meanOf(canvas) {
  let from = canvas;
  for (const size of [64, 16, 4, 1]) {
    const to = document.createElement('canvas');
    to.width = to.height = size;
    const pen = to.getContext('2d');
    pen.imageSmoothingQuality = 'high';
    pen.drawImage(from, 0, 0, size, size);
    from = to;
  }
  return from.getContext('2d').getImageData(0, 0, 1, 1).data.slice(0, 3).join(' ');
}

// bare returns the bytes of a photo without what some browsers write into a JPEG beside the picture.
async function bare(blob) {
  const bytes = new Uint8Array(await blob.arrayBuffer());
  if (blob.type !== 'image/jpeg') return bytes;
  const view = new DataView(bytes.buffer);
  const parts = [bytes.subarray(0, 2)];
  let at = 2;
  for (; bytes[at + 1] !== 0xda; at += 2 + view.getUint16(at + 2)) { // up to the compressed data
    const marker = bytes[at + 1];
    if (marker > 0xe0 && marker !== 0xee && (marker < 0xf0 || marker === 0xfe)) continue;
    parts.push(bytes.subarray(at, at + 2 + view.getUint16(at + 2)));
  }
  parts.push(bytes.subarray(at));
  return new Uint8Array(await new Blob(parts).arrayBuffer());
}

// sendPhotos sends what the server lacks of the photos that are here, one at a time and beside everything else.
export function sendPhotos() {
  clearTimeout(timer);
  timer = 0;
  sending ||= round().catch(() => true).then((again) => {
    sending = null;
    if (!again || hasLeft()) return;
    timer = setTimeout(sendPhotos, pause);
    pause = Math.min(pause * 2, 300000);
  });
}

// round asks the server once, and returns whether a photo on the page still waits.
async function round() {
  if (!capable || hasLeft() || !(await caches.has(cacheName))) return false;
  const cache = await caches.open(cacheName);
  const asked = await fetch(wantedURL, { signal: AbortSignal.timeout(patience) });
  if (asked.status === 403) await caches.delete(cacheName); // this phone has no access any more
  if (!asked.ok) return asked.status !== 403;
  const { part, only, wanted, gone } = await asked.json();
  for (const { url } of await cache.keys()) if (!new URL(url).pathname.startsWith(only)) await cache.delete(url);
  for (const url of gone) await cache.delete(url);
  for (const { url, have } of wanted) {
    const hit = await cache.match(url);
    if (hit) await send(cache, url, hit, have, part);
  }
  return showWaiting();
}

async function send(cache, url, hit, have, part) {
  const blob = await hit.blob();
  for (let at = have, n = 0; n < mostRounds; n++) {
    const sent = await fetch(`${url}/parts?from=${at}`, {
      method: 'POST', headers: { 'Content-Type': 'application/octet-stream' }, body: blob.slice(at, at + part),
      signal: AbortSignal.timeout(patience),
    });
    if (!sent.ok && sent.status !== 409) return; // another time
    const { have: there, whole } = await sent.json();
    if (whole) return cache.put(url, answer(blob, blob.type, 'sent'));
    at = there;
  }
}

// showWaiting says of the photos on the page which are not sent yet, and returns whether one is. What came from the
// server, or is there, has a tag in the cache.
async function showWaiting() {
  const cache = await caches.open(cacheName).catch(() => null);
  let waits = false;
  for (const line of document.querySelectorAll('[data-photo-waits]')) {
    const url = line.dataset.photoWaits;
    let hit = await cache?.match(url);
    if (hit && !hit.headers.has('ETag') && navigator.onLine) {
      const asked = await fetch(url + '/parts').catch(() => null); // the last answer may have been lost
      if (asked?.ok && (await asked.json()).whole) {
        const blob = await hit.blob();
        hit = answer(blob, blob.type, 'sent');
        await cache.put(url, hit.clone());
      }
    }
    line.hidden = !hit || hit.headers.has('ETag');
    waits ||= !line.hidden;
  }
  if (!waits) pause = soon;
  return waits;
}

// A photo that is not here: the page says so.
document.addEventListener('error', (event) => {
  if (!event.target.matches?.('[data-photo]')) return;
  for (const line of document.querySelectorAll('[data-photo-missing]')) line.hidden = false;
}, true);
document.addEventListener('load', (event) => {
  if (!event.target.matches?.('[data-photo]')) return;
  for (const line of document.querySelectorAll('[data-photo-missing]')) line.hidden = true;
}, true);

for (const name of ['online', 'load']) window.addEventListener(name, () => { pause = soon; sendPhotos(); });
document.addEventListener('visibilitychange', () => { if (!document.hidden) sendPhotos(); });

// Dragging: the pointer's place on the photo goes into the number inputs, and the page is drawn anew from them.
let next = 'first';

// share gives a place or a way in a picture as shares of its width and height, in percent.
function share(svg, { x, y }) {
  const { width, height } = svg.viewBox.baseVal;
  return { across: 100 * x / width, down: 100 * y / height };
}

function inputs(name) {
  return ['x', 'y'].map((axis) => document.querySelector(`#edit-photo [name=${name}_${axis}_pct]`));
}

function put(name, across, down) {
  const fields = inputs(name);
  if (!fields[0]) return;
  [across, down].forEach((value, i) => { fields[i].value = Number(value.toFixed(1)); });
  fields[1].dispatchEvent(new Event('input', { bubbles: true }));
}

onDrag('[data-drag]', ({ dataset, ownerSVGElement }) => {
  const name = dataset.drag;
  const fields = inputs(name);
  return fields[0] && { name, svg: ownerSVGElement, was: fields.map(({ value }) => Number(value)) };
}, ({ name, svg, was }, x, y) => {
  const { across, down } = share(svg, { x, y });
  put(name, was[0] + across, was[1] + down);
});

document.addEventListener('click', (event) => {
  const svg = event.target.closest?.('svg.wall');
  if (!svg || event.target.closest('[data-drag]')) return;
  const { across, down } = share(svg, pointIn(svg, event));
  put(next, across, down);
  next = next === 'first' ? 'second' : 'first';
});
