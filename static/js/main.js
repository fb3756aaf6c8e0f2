// The page's side of the app: it passes taps and forms to the core, which runs in a worker, and patches the page with
// what the core draws. It decides nothing about jobs. Without a core every link and form still goes to the server.
import { patch, steady } from './patch.js';
import { remember, forget, keepFor } from './remember.js';
import { Journal } from './journal.js';
import { watchUpdates } from './update.js';
import { listen } from './news.js';
import { hook } from './hooks.js';

const build = document.documentElement.dataset.build || '';
const coreURL = document.documentElement.dataset.core || '';
const journal = new Journal();
const startLimit = 20000;

let core = null; // the worker, once it has said it is ready
let failed = false;
let stops = 0; // how often a core that ran has stopped
let asked = 0; // number of the latest page asked for
let sent = 0;
let shown = ''; // what was typed so far is asked for under another address than the page's: the one drawn last
const waiting = new Map(); // by number: what to do with the answer
const early = []; // messages from before the core was ready

function start() {
  if (!coreURL || !window.Worker) return fail('no core');
  const worker = new Worker(new URL('worker.js', import.meta.url));
  const limit = setTimeout(() => fail('slow'), startLimit);
  worker.onmessage = (event) => {
    if (event.data.type === 'ready') {
      clearTimeout(limit);
      core = worker;
      failed = false;
      ready();
    } else if (event.data.type === 'failed') {
      clearTimeout(limit);
      worker.terminate();
      if (core === worker) stopped(event.data.why);
      else fail(event.data.why);
    } else {
      receive(event.data);
    }
  };
  worker.onerror = () => { if (!core) fail('worker'); };
  worker.postMessage({ type: 'start', build, core: coreURL, exec: document.documentElement.dataset.loader, role: document.documentElement.dataset.role || '' });
}

function ready() {
  plain();
  document.documentElement.dataset.ready = 'yes';
  let here = false; // a form of this page is among them: its answer is what the page shows next
  for (const entry of journal.left()) {
    here = send(entry) && document.getElementById(entry.form) !== null;
  }
  for (const message of early.splice(0)) core.postMessage(message);
  if (!here) go(location.pathname + location.search, 'keep');
  if (!document.hidden) core.postMessage({ type: 'wake' });
}

// stopped: a core that ran is gone. It is started once more; after that the server answers alone.
function stopped(why) {
  core = null;
  for (const question of waiting.values()) if (question.entry) journal.blame(question.entry);
  waiting.clear();
  if (++stops === 1) start();
  else fail(why);
}

function fail(why) {
  if (core) return;
  failed = true;
  document.documentElement.dataset.ready = 'no';
  document.documentElement.dataset.why = why;
  const stuck = document.getElementById('stuck'); // on the bare page
  if (stuck) stuck.hidden = false;
  for (const entry of journal.left()) {
    const form = document.getElementById(entry.form);
    if (form) return submitWhole(form, entry);
  }
}

function submitWhole(form, entry) {
  journal.drop(entry.id);
  HTMLFormElement.prototype.submit.call(form);
}

function tell(message) {
  if (core) core.postMessage(message);
  else if (!failed) early.push(message);
}

// go asks the core for a page. Where it cannot answer, the browser goes to the server for it.
function go(path, how) {
  clearTimeout(typing);
  const number = ++sent;
  asked = number;
  waiting.set(number, { how, path });
  tell({ type: 'get', number, path });
}

// send hands a form to the core, and says whether it did: what made a core stop twice is for the server.
function send(entry) {
  if (entry.stopped >= 2) return false;
  clearTimeout(typing); // the answer to what was typed just now must not outrun the answer to the form
  const number = ++sent;
  asked = number;
  waiting.set(number, { how: 'post', path: entry.path, entry });
  tell({ type: 'post', number, path: entry.path, form: entry.fields, id: entry.id });
  return true;
}

function receive(answer) {
  if (answer.type === 'drawn' && answer.number === 0) { // others' ticks, sync state
    if (answer.path === location.pathname + location.search || answer.path === shown) draw(answer);
    else if (!document.documentElement.dataset.shell) state(answer); // of a count while typing, say: the page is another's
    return;
  }
  if (answer.type === 'gone') { // the link has ended, or this phone is somebody else's now
    forget();
    if (answer.path === location.pathname + location.search) location.reload();
    return;
  }
  const question = waiting.get(answer.number);
  if (!question) return;
  waiting.delete(answer.number);
  if (question.entry && (answer.stored || answer.refused)) journal.drop(question.entry.id);
  if (answer.type === 'unknown') return unknown(question);
  if (answer.type === 'file') return took(answer, question);
  if (answer.number !== asked) return; // a later page was asked for meanwhile
  if (answer.type === 'drawn') {
    const place = answer.path || question.path;
    if (question.how === 'push' || (question.how === 'post' && place !== location.pathname + location.search)) {
      history.pushState(null, '', place);
      draw(answer);
      window.scrollTo(0, 0);
      const heading = document.querySelector('#page h1');
      if (heading) { heading.tabIndex = -1; heading.focus({ preventScroll: true }); }
      return;
    }
    draw(answer, question.how === 'live');
    if (question.how === 'live') shown = place;
  }
}

// unknown: the core does not hold this page. A page already drawn by the server stays as it is.
function unknown(question) {
  if (question.how === 'keep' && !document.documentElement.dataset.shell) return;
  if (question.how === 'post') {
    const form = document.getElementById(question.entry.form);
    if (form) submitWhole(form, question.entry);
    return;
  }
  if (question.how === 'pop') return location.reload();
  if (question.how !== 'keep') return location.assign(question.path);
  const url = new URL(question.path, location.origin);
  if (url.searchParams.get('from') === 'server') return stand(question.path); // asked already, and the shell came again
  url.searchParams.set('from', 'server');
  location.replace(url);
}

// stand asks the core for the page that says there is no signal.
function stand(path) {
  const number = ++sent;
  asked = number;
  waiting.set(number, { how: 'keep', path });
  tell({ type: 'offline', number, path });
}

// plain takes the mark of a page that was fetched past the service worker out of the address.
function plain() {
  const url = new URL(location.href);
  if (url.searchParams.get('from') !== 'server' || document.documentElement.dataset.shell) return;
  url.searchParams.delete('from');
  history.replaceState(null, '', url);
}

// opening: the bare page stands, and the core that will fill it is still starting.
function opening() {
  return !failed && 'shell' in document.documentElement.dataset;
}

// state draws how the phone stands, which holds on every page.
function state(answer) {
  const region = document.getElementById('state');
  if (region && answer.parts.state !== undefined) patch(region, answer.parts.state, true);
}

function draw(answer, typing) {
  if (answer.number) shown = '';
  const stay = typing || !answer.number ? steady() : null;
  if (answer.title) document.title = answer.title;
  for (const [id, html] of Object.entries(answer.parts)) {
    const region = document.getElementById(id);
    if (!region) continue;
    if ('shell' in document.documentElement.dataset) region.replaceChildren(); // what was remembered gives way whole
    patch(region, html, answer.number === 0 || answer.refused);
  }
  if (stay) stay();
  remember(location.pathname + location.search, answer.title, answer.parts);
  if (answer.waiting !== undefined) document.documentElement.dataset.waiting = answer.waiting;
  delete document.documentElement.dataset.shell;
  hook(document);
}

// took hands out a file. Where its address was opened on the bare page, there is nothing to stay on: the job is shown.
function took(answer, question) {
  download(answer);
  if (!('shell' in document.documentElement.dataset)) return;
  const job = question.path.replace(/\/export.*$/, '');
  history.replaceState(null, '', job);
  go(job, 'keep');
}

function download(answer) {
  const link = document.createElement('a');
  link.href = URL.createObjectURL(new Blob([answer.text], { type: answer.mime }));
  link.download = answer.name;
  link.click();
  setTimeout(() => URL.revokeObjectURL(link.href), 60000);
}

document.addEventListener('click', (event) => {
  const link = event.target.closest('a[href]');
  if (!link || event.defaultPrevented || event.button || event.metaKey || event.ctrlKey || event.shiftKey || event.altKey) return;
  const url = new URL(link.href);
  if (url.origin !== location.origin || link.target || (!core && link.hasAttribute('download')) || 'server' in link.dataset || (!core && !opening())) return;
  if (url.pathname === location.pathname && url.search === location.search && url.hash) return;
  event.preventDefault();
  if (core) return go(url.pathname + url.search, 'push');
  history.pushState(null, '', url); // the core draws this place once it runs
  if (self.recallPage && self.recallPage(url.pathname + url.search)) hook(document);
});

document.addEventListener('submit', (event) => {
  const form = event.target;
  if ('server' in form.dataset || failed) return;
  if (form.method === 'get') {
    if (!core) return;
    event.preventDefault();
    const query = new URLSearchParams(new FormData(form, event.submitter));
    return go(new URL(form.action).pathname + '?' + query, 'push');
  }
  if (!('core' in form.dataset)) return;
  event.preventDefault();
  collect(form, event.submitter).then((entry) => {
    journal.keep(entry);
    mark(form, event.submitter);
    if (core) send(entry);
  });
});

// collect reads a form into a journal entry. Files are read as text, since the core takes only text.
async function collect(form, submitter) {
  const fields = [];
  for (const [name, value] of new FormData(form, submitter)) {
    fields.push([name, typeof value === 'string' ? value : await value.text()]);
  }
  if (!form.id) form.id = 'form-' + journal.newID();
  return { id: journal.newID(), form: form.id, path: new URL(form.action).pathname, fields };
}

// mark shows at once that the tap was felt; it says saved only when the core draws it.
function mark(form, submitter) {
  const row = form.closest('[data-row]') || form;
  row.dataset.pending = 'yes';
  if (submitter) submitter.dataset.pressed = 'yes';
}

// Calculators and editors answer while one types.
let typing = 0;
document.addEventListener('input', (event) => {
  const form = event.target.form;
  if (!form || !('live' in form.dataset) || !core) return;
  clearTimeout(typing);
  typing = setTimeout(() => {
    if ([...waiting.values()].some((question) => question.entry)) return; // the answer to a form comes first
    const number = ++sent;
    asked = number;
    const fields = [...new FormData(form)].filter(([, value]) => typeof value === 'string');
    const path = form.dataset.live + '?' + new URLSearchParams(fields);
    waiting.set(number, { how: 'live', path });
    tell({ type: 'get', number, path });
  }, 120);
});

window.addEventListener('popstate', () => {
  if (core) go(location.pathname + location.search, 'pop');
  else location.reload();
});
for (const name of ['online', 'pageshow', 'focus']) window.addEventListener(name, () => tell({ type: 'wake' }));
document.addEventListener('visibilitychange', () => tell({ type: document.hidden ? 'hide' : 'wake' }));
setInterval(() => { if (!document.hidden) tell({ type: 'tick' }); }, 15000);

if (!opening()) keepFor(document.documentElement.dataset.role || '');
hook(document);
start();
for (const [form, submitter] of self.heldForms ? self.heldForms() : []) form.requestSubmit(submitter);
listen((job) => tell({ type: 'news', job }));
watchUpdates();
