// watchUpdates keeps the service worker fresh. A new version waits for a tap on "Update", except at a cold start that
// nobody has touched yet, with nothing waiting to be sent.
import { attribute } from './own.js';

const coldLimit = 15000;
const kept = 'garlandry-typed';
const marks = document.documentElement.dataset;

export async function watchUpdates() {
  if (!('serviceWorker' in navigator) || !marks.build) return;
  putBack();
  let reloading = false;
  let asked = false;
  let touched = false;
  for (const sign of ['click', 'input', 'keydown']) {
    document.addEventListener(sign, () => { touched = true; }, { capture: true });
  }
  if (!navigator.serviceWorker.controller) await coreCame();
  const registration = await navigator.serviceWorker.register('/sw.js', { updateViaCache: 'none' }).catch(() => null);
  marks.worker = registration ? 'accepted' : 'refused';
  if (!registration) return;
  // A page that was opened while the worker began may have been missed by it.
  navigator.serviceWorker.ready.then(({ active }) => {
    if (!navigator.serviceWorker.controller) active.postMessage({ type: 'claim' });
  });

  navigator.serviceWorker.addEventListener('controllerchange', () => {
    if (!asked || reloading) return;
    reloading = true;
    keep();
    location.reload();
  });
  const offer = () => {
    if (asked || !registration.waiting || !navigator.serviceWorker.controller) return;
    if (performance.now() < coldLimit && !touched) {
      if (marks.waiting === undefined && marks.ready !== 'no') return; // the core has yet to say what waits
      if (marks.waiting === '0') return take();
    }
    const bar = document.getElementById('update');
    if (bar) bar.hidden = false;
  };
  const take = () => {
    asked = true;
    if (registration.waiting) registration.waiting.postMessage({ type: 'take-over' });
  };
  registration.addEventListener('updatefound', () => {
    const fresh = registration.installing;
    if (fresh) fresh.addEventListener('statechange', () => { if (fresh.state === 'installed') offer(); });
  });
  document.addEventListener('click', (event) => { if (event.target.closest('[data-update]')) take(); });
  document.addEventListener('visibilitychange', () => { if (!document.hidden) registration.update().catch(() => {}); });
  new MutationObserver(offer).observe(document.documentElement, { attributeFilter: ['data-waiting', 'data-ready'] });
  setTimeout(offer, Math.max(0, coldLimit - performance.now()));
  offer();
}

// coreCame waits until the core is here or is known not to come. On a first visit the service worker then finds it in
// the browser's cache, and does not download it a second time beside the first.
function coreCame() {
  const known = () => marks.ready === 'yes' || (marks.ready === 'no' && marks.why !== 'slow');
  return new Promise((resolve) => {
    const watch = new MutationObserver(() => {
      if (!known()) return;
      watch.disconnect();
      resolve();
    });
    watch.observe(document.documentElement, { attributeFilter: ['data-ready', 'data-why'] });
    if (known()) resolve();
  });
}

// fields lists what can be typed into, with a name that is the same after a reload.
function fields() {
  const seen = new Map();
  return [...document.querySelectorAll('#page input[name], #page textarea[name], #page select[name]')]
    .filter((field) => !['hidden', 'file', 'password', 'submit', 'button'].includes(field.type))
    .map((field) => {
      const name = (field.form ? attribute(field.form, 'id') : '') + ' ' + field.name;
      seen.set(name, (seen.get(name) || 0) + 1);
      return { field, name: name + ' ' + seen.get(name), ticks: field.type === 'checkbox' || field.type === 'radio' };
    });
}

// keep remembers what is typed and not yet sent, and where the page stands, while it loads again.
function keep() {
  const typed = fields().map(({ field, name, ticks }) => [name, ticks ? field.checked : field.value]);
  try {
    const path = location.pathname + location.search;
    sessionStorage.setItem(kept, JSON.stringify({ path, scroll: window.scrollY, typed }));
  } catch { /* no storage: the page reloads without */ }
}

// putBack fills in what was kept, after the core has drawn the page.
function putBack() {
  let was;
  try {
    was = JSON.parse(sessionStorage.getItem(kept) || 'null');
    sessionStorage.removeItem(kept);
  } catch { /* nothing kept */ }
  if (!was || was.path !== location.pathname + location.search) return;
  const typed = new Map(was.typed);
  const fill = () => {
    if (marks.waiting === undefined || marks.shell) return false;
    for (const { field, name, ticks } of fields()) {
      if (!typed.has(name) || (ticks ? field.checked : field.value) === typed.get(name)) continue;
      if (ticks) field.checked = typed.get(name);
      else field.value = typed.get(name);
      field.dispatchEvent(new Event('input', { bubbles: true }));
    }
    window.scrollTo(0, was.scroll);
    return true;
  };
  if (fill()) return;
  const drawn = new MutationObserver(() => { if (fill()) drawn.disconnect(); });
  drawn.observe(document.documentElement, { attributeFilter: ['data-waiting', 'data-shell'] });
}
