// Remembers the pages the core drew last, so that a page opened again is on the screen before the core has started: see
// recall.js. It keeps only what was on the screen anyway. The state line and the toast are
// left out: what is saved and shared, and what has just happened, is never shown from here.
const prefix = 'garlandry-page ';
const build = document.documentElement.dataset.build || '';
const roleName = 'garlandry-role';
const most = 12;
const idle = window.requestIdleCallback || ((work) => setTimeout(work, 200));

let now = null; // the page on the screen: its place, title and drawn parts
let due = false;

// remember notes what was drawn and writes it when there is time.
export function remember(place, title, parts) {
  if (!now || now.place !== place) now = { place, title: '', parts: {} };
  if (title) now.title = title;
  Object.assign(now.parts, parts);
  for (const id of ['state', 'flash']) delete now.parts[id];
  if (due) return;
  due = true;
  idle(write, { timeout: 2000 });
}

// keepFor drops the pages of another role, when a page of the server's says for whom it was drawn.
export function keepFor(role) {
  try {
    if (localStorage.getItem(roleName) === role) return;
    forget();
    localStorage.setItem(roleName, role);
  } catch { /* no storage, so nothing is kept */ }
}

// forget drops every page, for when the phone belongs to somebody else now.
export function forget() {
  now = null;
  try {
    for (const key of places()) localStorage.removeItem(key);
  } catch { /* no storage, so nothing is kept */ }
}

function places() {
  return Object.keys(localStorage).filter((key) => key.startsWith(prefix));
}

function write() {
  due = false;
  if (!now) return;
  try {
    const pages = places().map((key) => ({ key, ...JSON.parse(localStorage.getItem(key)) }));
    const last = pages.reduce((latest, page) => Math.max(latest, page.last), 0);
    pages.sort((a, b) => a.last - b.last);
    const others = pages.filter((page) => page.key !== prefix + now.place);
    for (const page of others.filter((p) => p.build !== build)) localStorage.removeItem(page.key);
    for (const page of others.slice(0, Math.max(0, others.length - most + 1))) localStorage.removeItem(page.key);
    localStorage.setItem(prefix + now.place, JSON.stringify({ ...now, build, last: last + 1 }));
  } catch {
    forget(); // full or not readable: better none than some
  }
}
