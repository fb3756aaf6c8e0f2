// The page's side of the app: it passes taps and forms to the core, which runs in a worker, and patches the page with
// what the core draws. It decides nothing about jobs. Without a core links go to the server, and forms by the outbox.
import { patch, steady } from './patch.js';
import { holdFocus } from './focus.js';
import { remember, forget, keepFor } from './remember.js';
import { Journal } from './journal.js';
import { Outbox } from './outbox.js';
import { watchUpdates } from './update.js';
import { listen } from './news.js';
import { watchSleep } from './sleep.js';
import { hook } from './hooks.js';
import { say, watchFlash } from './flash.js';
import { setAside, blame, again } from './stopped.js';
import { watchLeaving, afterLeaving, forgetJob, hasLeft, leave } from './leave.js';

const build = document.documentElement.dataset.build || '';
const coreURL = document.documentElement.dataset.core || '';
const journal = new Journal();
const outbox = new Outbox(journal, heard);
const startLimit = 20000;

let core = null; // the worker, once it has said it is ready
let running = null; // the worker, from its start
let failed = false;
let unkept = false; // the phone's storage cannot be used at all
let stops = 0; // how often a core that ran has stopped
let asked = 0; // number of the latest page asked for
let sent = 0;
let shown = ''; // what was typed so far is asked for under another address than the page's: the one drawn last
const waiting = new Map(); // by number: what to do with the answer
const early = []; // messages from before the core was ready
const mine = new Map(); // by id: the number under which a form of this page went to the outbox
let drew = false; // the core has drawn the state line
let standing = false; // the page shows a form that the server refused, with what was typed

// begin starts the core once the page stands. Its download takes minutes on a thin line; started sooner, it would hold
// up the page and the first tap, which the server answers.
const standLimit = 4000;
async function begin() {
  if (!opening() && document.readyState !== 'complete') {
    await new Promise((resolve) => {
      window.addEventListener('load', resolve, { once: true });
      setTimeout(resolve, standLimit);
    });
  }
  if (!hasLeft()) start();
}

function start() {
  if (!coreURL || !window.Worker) return fail('no core');
  const worker = new Worker(new URL('worker.js', import.meta.url));
  running = worker;
  const limit = setTimeout(() => fail('slow'), startLimit);
  worker.onmessage = (event) => {
    if (hasLeft()) return;
    if (event.data.type === 'ready') {
      clearTimeout(limit);
      core = worker;
      failed = false;
      ready();
    } else if (event.data.type === 'failed') {
      clearTimeout(limit);
      worker.terminate();
      unkept = event.data.storage === true;
      if (core === worker || event.data.at) stopped(event.data.why, event.data.at); // maybe before ready
      else fail(event.data.why);
    } else if (event.data.type === 'aside') {
      blame(build, event.data.job, 2);
    } else {
      receive(event.data);
    }
  };
  worker.onerror = () => { if (!core) fail('worker'); };
  const { loader, role } = document.documentElement.dataset;
  worker.postMessage({ type: 'start', build, core: coreURL, exec: loader, role: role || '', aside: setAside(build) });
}

function ready() {
  plain();
  unkept = false;
  document.documentElement.dataset.ready = 'yes';
  let here = false; // a form of this page is among them: its answer is what the page shows next
  for (const entry of journal.left()) {
    outbox.leave(entry.id);
    if (entry.copy) core.postMessage({ type: 'adopt', id: entry.id, text: entry.copy });
    else if (send(entry)) here = document.getElementById(entry.form) !== null;
    else outbox.add(entry);
  }
  howItStands();
  for (const message of early.splice(0)) core.postMessage(message);
  if (!here && !standing) go(location.pathname + location.search, 'keep');
  if (!document.hidden) core.postMessage({ type: 'wake' });
}

// stopped handles a core that died. It starts the core once more; after that the server answers alone. If one job kills
// the core each time, it restarts until that job is set aside.
function stopped(why, job) {
  core = null;
  drew = false;
  const blamed = Boolean(job) && blame(build, job, 1); // then no form is to blame
  for (const { entry } of waiting.values()) if (entry && !blamed && !entry.leaves) journal.blame(entry);
  waiting.clear();
  if (blamed || ++stops === 1) start();
  else fail(why);
}

function fail(why) {
  if (core) return;
  failed = true;
  document.documentElement.dataset.ready = 'no';
  document.documentElement.dataset.why = why;
  for (const { entry } of waiting.values()) if (entry && entry.leaves) return leaveByForm(entry);
  const bare = 'shell' in document.documentElement.dataset;
  const asked = new URLSearchParams(location.search).get('from') === 'server';
  if (bare && !asked && navigator.onLine) return location.replace(fromServer(location.href));
  const stuck = document.getElementById('stuck'); // on the bare page
  if (stuck) stuck.hidden = false;
  sendLeft(() => true);
  howItStands();
}

// sendLeft sends what the journal still holds to the server. The answer to a form of this page is shown on the page.
function sendLeft(fits) {
  for (const entry of journal.left().filter(fits)) {
    if (entry.page === location.pathname + location.search) deliver(entry);
    else outbox.add(entry);
  }
}

// deliver sends a form of this page to the server, because the core cannot take it.
function deliver(entry) {
  asked = ++sent;
  mine.set(entry.id, asked);
  outbox.add(entry);
  setTimeout(howItStands, 1500); // nobody need read of an answer that comes at once
}

// heard handles the server's answer to a form. It shows the page that follows, unless the person has moved on.
function heard(entry, answer) {
  const number = entry && mine.get(entry.id);
  if (entry) mine.delete(entry.id);
  if (number && number === asked) show(answer, entry);
  if (entry && core) core.postMessage({ type: 'wake' });
  howItStands();
}

function show(answer, entry) {
  if (answer.status === 204) return location.assign(answer.place); // a page that only the server draws
  if (!answer.html) return;
  const page = new DOMParser().parseFromString(answer.html, 'text/html');
  const parts = {};
  for (const id of ['top', 'flash', 'page', 'nav']) {
    const region = page.getElementById(id);
    if (region) parts[id] = region.innerHTML;
  }
  standing = answer.fate === 'refused';
  const drawn = { number: asked, title: page.title, parts, refused: standing };
  if (standing || !answer.place || answer.place === location.pathname + location.search) return answered(drawn, entry);
  empty(entry);
  arrive(drawn, answer.place);
}

// howItStands updates the state line: the core writes it, or without a core the words that came with the page.
function howItStands() {
  if (core) core.postMessage({ type: 'journal', count: outbox.size, full: journal.full });
  const region = document.getElementById('state');
  if (!region || (core && drew)) return;
  let words = unkept ? 'unkept' : '';
  if (outbox.size) words = outbox.stranger ? 'link' : journal.memory.size ? 'stay' : 'waits';
  const template = words && document.getElementById('state-' + words);
  if (template) region.replaceChildren(template.content.cloneNode(true));
  else region.replaceChildren();
}

function tell(message) {
  if (core) core.postMessage(message);
  else if (!failed) early.push(message);
}

// go asks the core for a page. If the core cannot answer, the browser asks the server.
function go(path, how) {
  standing = false;
  clearTimeout(typing);
  const number = ++sent;
  asked = number;
  waiting.set(number, { how, path });
  tell({ type: 'get', number, path });
}

// send passes a form to the core and returns whether it did. A form that killed a core twice goes to the server.
function send(entry) {
  if (entry.stopped >= 2) return false;
  clearTimeout(typing); // the answer to what was typed just now must not outrun the answer to the form
  const number = ++sent;
  asked = number;
  waiting.set(number, { how: 'post', path: entry.path, entry });
  tell({ type: 'post', number, path: entry.path, form: entry.fields, id: entry.id });
  return true;
}

// settle notes in the journal what the core did with a form.
function settle(entry, answer) {
  if (answer.copy) journal.copy(entry, answer.copy);
  else if (answer.stored || answer.refused) journal.drop(entry.id);
}

function receive(answer) {
  if (answer.type === 'shared') {
    for (const id of answer.text.split(' ')) journal.drop(id);
    return;
  }
  if (answer.type === 'drawn' && answer.number === 0) { // others' ticks, sync state
    if (answer.path === location.pathname + location.search || answer.path === shown) draw(answer);
    else if (!document.documentElement.dataset.shell) state(answer); // such as a count while typing
    return;
  }
  if (answer.type === 'gone') { // the link has ended, or this phone is somebody else's now
    forget();
    if (answer.path === location.pathname + location.search) location.reload();
    return;
  }
  if (answer.type === 'leave') return leave();
  if (answer.type === 'removed') { // the owner removed a job from this phone
    forget();
    forgetJob(answer.name);
    history.replaceState(null, '', answer.path);
    return go(answer.path, 'keep');
  }
  const question = waiting.get(answer.number);
  if (!question) return;
  waiting.delete(answer.number);
  if (question.entry) settle(question.entry, answer);
  if (answer.type === 'unsaved') {
    state(answer);
    return deliver(question.entry);
  }
  if (answer.type === 'unknown') return unknown(question);
  if (answer.type === 'file') return took(answer, question);
  if (answer.number !== asked) return; // a later page was asked for meanwhile
  if (answer.type === 'drawn') {
    const place = answer.path || question.path;
    const moved = place !== location.pathname + location.search;
    if (question.how === 'post' && moved && !answer.refused) empty(question.entry);
    if (question.how === 'push' || (question.how === 'post' && moved && !answer.refused)) return arrive(answer, place);
    if (question.how === 'post') return answered(answer, question.entry);
    if (question.how === 'keep' && !answer.parts.flash) delete answer.parts.flash; // the server may have drawn one
    draw(answer, question.how === 'live');
    if (question.stays) history.replaceState(null, '', place);
    else if (question.how === 'live') shown = place;
  }
}

// answered draws what a form of this page led to, where the person looks: at the first field with an error, else beside
// what happened, which stays on the screen (app.css).
function answered(answer, entry) {
  if (!answer.refused) empty(entry);
  draw(answer);
  document.documentElement.dataset.answered = 'yes';
  const wrong = document.querySelector('#page [data-bad]') || document.querySelector('#page .wronglist');
  if (!wrong) return;
  const input = wrong.querySelector('[aria-invalid], input:not([type=hidden]), select, textarea');
  if (input) input.focus({ preventScroll: true });
  wrong.scrollIntoView({ block: 'center', behavior: 'instant' });
}

// empty takes out what was typed into an accepted form: it is done with, though the page after it has the form again.
function empty(entry) {
  const form = entry && document.getElementById(entry.form);
  if (form) HTMLFormElement.prototype.reset.call(form);
}

// arrive shows another page, from its top.
function arrive(answer, place) {
  history.pushState(null, '', place);
  delete document.documentElement.dataset.answered;
  draw(answer);
  window.scrollTo(0, 0);
  const heading = document.querySelector('#page h1');
  if (heading) { heading.tabIndex = -1; heading.focus({ preventScroll: true }); }
}

// unknown: the core does not hold this page. A page already drawn by the server stays as it is.
function unknown(question) {
  if (question.how === 'keep' && !document.documentElement.dataset.shell) return;
  if (question.how === 'post' && question.entry.leaves) return leaveByForm(question.entry);
  if (question.how === 'post') return deliver(question.entry);
  if (question.how === 'pop') return location.reload();
  if (question.how !== 'keep') return location.assign(question.path);
  const url = new URL(question.path, location.origin);
  if (url.searchParams.get('from') === 'server') return stand(question.path); // asked already, and the shell came again
  location.replace(fromServer(url));
}

// fromServer gives the address of a page as the server draws it, past the service worker.
function fromServer(address) {
  const url = new URL(address);
  url.searchParams.set('from', 'server');
  return url;
}

// leaveByForm lets the server sign out, or ask anew, where the core cannot.
function leaveByForm(entry) {
  const form = document.getElementById(entry.form);
  if (form) HTMLFormElement.prototype.submit.call(form);
}

// stand asks the core for the page that says: no signal.
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

// opening: the bare page is on the screen and the core that will fill it is still starting.
function opening() {
  return !failed && 'shell' in document.documentElement.dataset;
}

// state draws the state line, which is on every page.
function state(answer) {
  const region = document.getElementById('state');
  if (!region || !answer.parts || answer.parts.state === undefined) return;
  drew = true;
  patch(region, answer.parts.state, true);
}

function draw(answer, typing) {
  if (answer.number) shown = '';
  drew = drew || answer.parts.state !== undefined;
  const stay = typing || !answer.number ? steady() : null;
  const refocus = holdFocus();
  const said = saying();
  if (answer.title) document.title = answer.title;
  for (const [id, html] of Object.entries(answer.parts)) {
    const region = document.getElementById(id);
    if (!region) continue;
    if ('shell' in document.documentElement.dataset) region.replaceChildren(); // what was remembered gives way whole
    if (id === 'flash') say(region, html);
    else patch(region, html, answer.number === 0 || answer.refused);
  }
  refocus();
  if (stay) stay();
  if (said !== null && saying()) speak(saying() === said ? null : saying());
  remember(location.pathname + location.search, answer.title, answer.parts);
  if (answer.waiting !== undefined) document.documentElement.dataset.waiting = answer.waiting;
  delete document.documentElement.dataset.shell;
  hook(document);
}

// saying returns what the page's figure would be said as, or null if the page has none.
function saying() {
  const figure = document.querySelector('#page [data-say]');
  return figure ? figure.dataset.say : null;
}

// speak has screen readers say a figure that changed.
function speak(sentence) {
  const region = document.getElementById('say');
  if (region && sentence !== null) region.textContent = sentence;
}

// took offers a file for download. If its address was opened on the bare page, the job is shown afterwards.
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
  const retry = event.target.closest('[data-again]');
  if (retry) { again(build, retry.dataset.again); return location.reload(); }
  const link = event.target.closest('a[href]');
  const held = event.metaKey || event.ctrlKey || event.shiftKey || event.altKey;
  if (!link || event.defaultPrevented || event.button || held) return;
  const url = new URL(link.href);
  if (url.origin !== location.origin || link.target || 'server' in link.dataset) return;
  if (!core && (link.hasAttribute('download') || !opening())) return;
  if (url.pathname === location.pathname && url.search === location.search && url.hash) return;
  event.preventDefault();
  if (core) return go(url.pathname + url.search, 'push');
  history.pushState(null, '', url); // the core draws this place once it runs
  if (self.recallPage && self.recallPage(url.pathname + url.search)) hook(document);
});

document.addEventListener('submit', (event) => {
  const form = event.target;
  if ('server' in form.dataset) return;
  if (form.method === 'get') {
    if (!core) return;
    event.preventDefault();
    const query = new URLSearchParams(new FormData(form, event.submitter));
    return go(new URL(form.action).pathname + '?' + query, 'push');
  }
  if (!('core' in form.dataset) || ('leave' in form.dataset && failed)) return;
  event.preventDefault();
  collect(form, event.submitter).then((entry) => {
    if (entry.leaves) return send(entry); // no journal: a sign-out is never to come later by itself
    journal.keep(entry);
    mark(form, event.submitter);
    if (core && send(entry)) return;
    if (core || !opening()) deliver(entry);
  });
});

// collect reads a form into a journal entry. Files are read as text, since the core takes only text.
async function collect(form, submitter) {
  const fields = [];
  for (const [name, value] of new FormData(form, submitter)) {
    fields.push([name, typeof value === 'string' ? value : await value.text()]);
  }
  if (!form.hasAttribute('id')) form.setAttribute('id', 'form-' + journal.newID());
  return {
    id: journal.newID(), form: form.getAttribute('id'), page: location.pathname + location.search,
    path: new URL(form.action).pathname, fields, leaves: 'leave' in form.dataset,
  };
}

// mark shows at once that the tap was felt. Only the core's drawing says that it is saved.
function mark(form, submitter) {
  const row = form.closest('[data-row]') || form;
  row.dataset.pending = 'yes';
  if (submitter) submitter.dataset.pressed = 'yes';
}

// Calculators and editors answer while a person types.
let typing = 0;
document.addEventListener('input', (event) => {
  const form = event.target.form;
  if (!form || !('live' in form.dataset) || !core) return;
  const posting = () => [...waiting.values()].some((question) => question.entry); // its answer comes first
  clearTimeout(typing);
  if (!posting()) asked = ++sent; // the answer to what was typed before must not undo this
  typing = setTimeout(() => {
    if (posting()) return;
    const number = ++sent;
    asked = number;
    const fields = [...new FormData(form)].filter(([, value]) => typeof value === 'string');
    const path = form.dataset.live + '?' + new URLSearchParams(fields);
    waiting.set(number, { how: 'live', path, stays: form.getAttribute('method') === 'get' });
    tell({ type: 'get', number, path });
  }, 120);
});

window.addEventListener('popstate', () => {
  if (core) go(location.pathname + location.search, 'pop');
  else location.reload();
});
for (const name of ['online', 'pageshow', 'focus']) window.addEventListener(name, wake);
document.addEventListener('visibilitychange', () => { if (document.hidden) tell({ type: 'hide' }); else wake(); });
setInterval(() => { if (!document.hidden) tell({ type: 'tick' }); }, 15000);

function end() { if (running) running.terminate(); core = running = null; }

function wake() {
  tell({ type: 'wake' });
  outbox.wake();
}

watchFlash();
watchSleep(end, () => { waiting.clear(); if (!failed && !hasLeft()) start(); }); // the journal has the forms
watchLeaving(() => {
  end();
  for (const { id } of journal.left()) outbox.leave(id);
  journal.memory.clear();
  forget();
});
const leaves = afterLeaving();
if (!leaves && !opening()) keepFor(document.documentElement.dataset.role || '');
try { sessionStorage.removeItem('garlandry-again'); } catch { /* look.js counts nothing then */ }
hook(document);
const stranger = !opening() && !document.documentElement.dataset.role; // nobody signed in: there is nothing to draw
if (stranger) document.documentElement.dataset.ready = 'none';
if (leaves || stranger) failed = true;
else begin();
if (!leaves && !opening()) sendLeft((entry) => !entry.copy); // before the core runs, which may take long to come
for (const [form, submitter] of self.heldForms ? self.heldForms() : []) form.requestSubmit(submitter);
if (!leaves) listen((job) => tell({ type: 'news', job }));
watchUpdates();
