// Tells the core about the browser: its name, what it keeps, whether this is the installed app. The core decides what
// follows from it.
const marks = document.documentElement.dataset;
let tell = () => {};
let kept = ''; // "yes" once the browser has promised to keep the storage, "no" once it has refused
let asked = false;
let prompt = null; // the browser's own question whether to install the app

// watchBrowser reports at once, and again whenever something of it changes.
export function watchBrowser(report) {
  tell = report;
  window.addEventListener('beforeinstallprompt', (event) => {
    event.preventDefault();
    prompt = event;
    showInstall();
  });
  window.addEventListener('appinstalled', () => {
    prompt = null;
    showInstall();
    askToKeep();
  });
  document.addEventListener('click', (event) => {
    if (prompt && event.target.closest('[data-install]')) prompt.prompt();
  });
  if (navigator.serviceWorker) navigator.serviceWorker.addEventListener('controllerchange', reportBrowser);
  new MutationObserver(reportBrowser).observe(document.documentElement, { attributeFilter: ['data-worker'] });
}

// showInstall shows the button that asks the browser to install the app, where it can be asked.
export function showInstall() {
  for (const button of document.querySelectorAll('[data-install]')) button.hidden = !prompt;
}

// askToKeep asks the browser, once, not to clear the storage. Only a page can ask, and some browsers ask the person.
export async function askToKeep() {
  if (asked || kept === 'yes' || !navigator.storage || !navigator.storage.persist) return;
  asked = true;
  kept = await navigator.storage.persist().catch(() => false) ? 'yes' : 'no';
  reportBrowser();
}

// reportBrowser sends the core what is known now.
export async function reportBrowser() {
  const storage = navigator.storage || {};
  if (kept === '' && storage.persisted && await storage.persisted().catch(() => false)) kept = 'yes';
  const { usage } = storage.estimate ? await storage.estimate().catch(() => ({})) : {};
  const installed = matchMedia('(display-mode: standalone)').matches || navigator.standalone === true;
  tell({ type: 'browser', form: Object.entries({
    agent: navigator.userAgent, touch: String(navigator.maxTouchPoints || 0), installed: installed ? 'yes' : '',
    app: await app(), kept, bytes: String(usage || 0),
  }) });
}

// app reports whether the app itself is stored: "kept", "none" without service workers, "refused", or "" not yet.
async function app() {
  if (!('serviceWorker' in navigator)) return 'none';
  if (marks.worker === 'refused') return 'refused';
  try {
    const cache = await caches.open('garlandry-' + marks.build);
    const found = await Promise.all([cache.match('/shell'), cache.match(marks.core)]);
    return found.every(Boolean) && navigator.serviceWorker.controller ? 'kept' : '';
  } catch {
    return 'refused';
  }
}
