// The page's side of the app: it passes taps and forms to the core, which runs in a worker, and patches the page with
// what the core draws. It decides nothing about jobs. Without a core links go to the server, and forms by the outbox.
import { beside, clear, patch, steady } from './patch.js';
import { holdFocus } from './focus.js';
import { remember, forget, keepFor } from './remember.js';
import { here, placeOf, pastWorker, fromServer } from './place.js';
import { download } from './download.js';
import { Journal } from './journal.js';
import { Outbox } from './outbox.js';
import { watchUpdates } from './update.js';
import { listen } from './news.js';
import { watchSleep } from './sleep.js';
import { watchBrowser, reportBrowser, askToKeep, showInstall } from './browser.js';
import { pageStands, loaded } from './stands.js';
import { hook } from './hooks.js';
import { say, watchFlash } from './flash.js';
import { collect, mark, again as repeats, answeredForm } from './forms.js';
import { watchDrafts, giveBack, sentDraft, settleDraft, forgetDrafts, answerTyped } from './drafts.js';
import { toFault, fromUnderToast, toResult, toPart, watchParts, saying, speak } from './eye.js';
import { addressOf, asks, attribute, hasAttribute, pressForm, resetForm, submitForm } from './own.js';
import { setAside, blame, again } from './stopped.js';
import { watchLeaving, afterLeaving, forgetJob, forgetPhotos, hasLeft, leave } from './leave.js';

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
let drawnAt = here(); // the address of the page on the screen

// begin starts the core once the page stands.
async function begin() {
  if (!opening()) await pageStands();
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
  let ours = false; // a form of this page is among them: its answer is what the page shows next
  for (const entry of journal.left()) {
    outbox.leave(entry.id);
    if (entry.copy) core.postMessage({ type: 'adopt', id: entry.id, text: entry.copy });
    else if (send(entry)) ours = document.getElementById(entry.form) !== null;
    else outbox.add(entry);
  }
  howItStands();
  reportBrowser();
  for (const message of early.splice(0)) core.postMessage(message);
  if (!ours && !standing) go(here(), 'keep');
  answerTyped();
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
  answeredForm('');
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
  if (bare && !pastWorker(location.href) && navigator.onLine) return location.replace(fromServer(location.href));
  const stuck = document.getElementById('stuck'); // on the bare page
  if (stuck) stuck.hidden = false;
  sendLeft(() => true);
  howItStands();
}

// sendLeft sends what the journal still holds to the server. The answer to a form of this page is shown on the page.
function sendLeft(fits) {
  for (const entry of journal.left().filter(fits)) {
    if (entry.page === here()) deliver(entry);
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
  if (entry) {
    mine.delete(entry.id);
    answeredForm(entry.form);
    settleDraft(entry, answer.fate === 'kept');
    if (answer.fate === 'kept') askToKeep();
  }
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
  follow({ number: asked, title: page.title, parts, refused: standing }, answer.place || here(), entry);
}

// follow shows what a form of this page led to: this page, maybe asked for in another way, if it has the form again;
// else another.
function follow(answer, place, entry) {
  const stays = place.split('?')[0] === location.pathname && answer.parts.page?.includes(` id="${entry?.form}"`);
  if (!answer.refused) empty(entry);
  if (!answer.refused && place !== here() && !stays) return arrive(answer, place);
  if (!answer.refused && place !== here()) history.replaceState(null, '', place);
  answered(answer);
}

// howItStands updates the state line: the core writes it, or without a core the words that came with the page.
function howItStands() {
  if (core) core.postMessage({ type: 'journal', count: outbox.size, full: journal.full });
  const region = document.getElementById('state');
  if (!region || (core && drew)) return;
  let words = standing ? 'refused' : unkept ? 'unkept' : '';
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
function go(path, how, more) {
  standing = false;
  clearTimeout(typing);
  const number = ++sent;
  asked = number;
  waiting.set(number, { how, path, ...more });
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
  answeredForm(entry.form);
  if (answer.copy || answer.stored || answer.refused) settleDraft(entry, !answer.refused);
  if (answer.copy) journal.copy(entry, answer.copy);
  else if (answer.stored || answer.refused) journal.drop(entry.id);
  if (answer.stored) askToKeep();
}

function receive(answer) {
  if (answer.type === 'shared') {
    for (const id of answer.text.split(' ')) journal.drop(id);
    return;
  }
  if (answer.type === 'drawn' && answer.number === 0) { // others' ticks, sync state
    if (answer.path === here() || answer.path === shown) draw(answer);
    else if (!document.documentElement.dataset.shell) state(answer); // such as a count while typing
    return;
  }
  if (answer.type === 'gone') { // the link has ended, or this phone is somebody else's now
    forget();
    forgetDrafts();
    forgetPhotos().catch(() => {});
    if (answer.path === here()) location.reload();
    return;
  }
  if (answer.type === 'leave') return leave();
  if (answer.type === 'removed') { // a job from this phone, maybe the one on the screen
    forget();
    forgetJob(answer.name);
    forgetDrafts(answer.name);
    if (!answer.path) return;
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
    if (question.how === 'push') return arrive(answer, place, question);
    if (question.how === 'post') return follow(answer, place, question.entry);
    if (question.how === 'keep' && !answer.parts.flash) delete answer.parts.flash; // the server may have drawn one
    draw(answer, question.how === 'live', question.how === 'keep');
    if (question.stays) history.replaceState(null, '', place);
    else if (question.how === 'live') shown = place;
    drawnAt = here();
  }
}

// answered draws what a form of this page led to, where the person looks: at the first field with an error, else beside
// what happened, which stays on the screen (app.css).
function answered(answer) {
  draw(answer);
  document.documentElement.dataset.answered = 'yes';
  if (!toFault()) fromUnderToast();
}

// empty takes out what was typed into an accepted form: it is done with, though the page after it has the form again.
function empty(entry) {
  const form = entry && document.getElementById(entry.form);
  if (form) resetForm(form);
}

// arrive shows another page: what is wrong on it, what a form asked to be worked out, the part that was asked for, else
// its top.
function arrive(answer, place, { hash = '', asker } = {}) {
  history.pushState(null, '', place + hash);
  delete document.documentElement.dataset.answered;
  draw(answer);
  if (toFault() || (asker && toResult(asker)) || toPart(hash)) return;
  window.scrollTo(0, 0);
  const heading = document.querySelector('#page h1');
  if (heading) { heading.tabIndex = -1; heading.focus({ preventScroll: true }); }
}

// unknown: the core does not hold this page. A page already drawn by the server stays as it is, and what is typed into
// it: what it comes to is drawn once the core holds the job.
function unknown(question) {
  if (question.how === 'live') { shown = question.path; return; }
  if (question.how === 'keep' && !document.documentElement.dataset.shell) return;
  if (question.how === 'post' && question.entry.leaves) return leaveByForm(question.entry);
  if (question.how === 'post') return deliver(question.entry);
  if (question.how === 'pop') return location.reload();
  if (question.how !== 'keep') return location.assign(question.path + (question.hash || ''));
  if (pastWorker(question.path)) return stand(question.path); // asked already, and the shell came again
  location.replace(fromServer(question.path));
}

// leaveByForm lets the server sign out, or ask anew, where the core cannot.
function leaveByForm(entry) {
  const form = document.getElementById(entry.form);
  if (form) submitForm(form);
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
  if (!pastWorker(location.href) || document.documentElement.dataset.shell) return;
  history.replaceState(null, '', placeOf(location.href) + location.hash);
  drawnAt = here();
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

function draw(answer, typing, keepTyped) {
  if (answer.number) shown = '';
  drew = drew || answer.parts.state !== undefined;
  const stay = typing || !answer.number ? steady() : null;
  const refocus = holdFocus();
  const said = saying();
  if (answer.title) document.title = answer.title;
  for (const [id, html] of Object.entries(answer.parts)) {
    const region = document.getElementById(id);
    if (!region) continue;
    if ('shell' in document.documentElement.dataset) clear(region); // what was remembered gives way whole
    if (id === 'flash') say(region, html);
    else patch(region, html, answer.number === 0 || answer.refused || keepTyped);
  }
  refocus();
  if (said !== null && saying()) speak(saying() === said ? null : saying());
  remember(here(), answer.title, answer.parts);
  if (answer.waiting !== undefined) document.documentElement.dataset.waiting = answer.waiting;
  delete document.documentElement.dataset.shell;
  if (answer.number) drawnAt = here();
  beside(() => hook(document));
  giveBack();
  showInstall();
  if (stay) stay(); // last: what is shown and hidden above moves the page too
}

// took offers a file for download. If its address was opened on the bare page, the job is shown afterwards.
function took(answer, question) {
  download(answer);
  if (!('shell' in document.documentElement.dataset)) return;
  const job = question.path.replace(/\/export.*$/, '');
  history.replaceState(null, '', job);
  go(job, 'keep');
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
  if (core) return go(url.pathname + url.search, 'push', { hash: url.hash });
  history.pushState(null, '', url); // the core draws this place once it runs
  drawnAt = here();
  if (self.recallPage && self.recallPage(url.pathname + url.search)) hook(document);
});

document.addEventListener('submit', (event) => {
  const form = event.target;
  if (hasAttribute(form, 'data-server')) return sentDraft(form, 'server');
  if (asks(form)) {
    if (!core) return;
    event.preventDefault();
    const query = new URLSearchParams(new FormData(form, event.submitter));
    const { pathname, hash } = addressOf(form);
    return go(pathname + '?' + query, 'push', { hash, asker: attribute(form, 'id') });
  }
  if (!hasAttribute(form, 'data-core') || (hasAttribute(form, 'data-leave') && failed)) return;
  event.preventDefault();
  if (repeats(form, event.submitter)) return;
  mark(form, event.submitter);
  collect(form, event.submitter, () => journal.newID()).then((entry) => {
    if (entry.leaves) return send(entry); // no journal: a sign-out is never to come later by itself
    journal.keep(entry);
    sentDraft(form, entry.id);
    if (core && send(entry)) return;
    if (core || !opening()) deliver(entry);
  });
});

// Calculators and editors answer while a person types.
let typing = 0;
document.addEventListener('input', (event) => {
  const form = event.target.form;
  if (!form || !hasAttribute(form, 'data-live') || !core) return;
  const posting = () => [...waiting.values()].some((question) => question.entry); // its answer comes first
  clearTimeout(typing);
  if (!posting()) asked = ++sent; // the answer to what was typed before must not undo this
  typing = setTimeout(() => {
    if (posting()) return;
    const number = ++sent;
    asked = number;
    const fields = [...new FormData(form)].filter(([, value]) => typeof value === 'string');
    const path = attribute(form, 'data-live') + '?' + new URLSearchParams(fields);
    waiting.set(number, { how: 'live', path, stays: asks(form) });
    tell({ type: 'get', number, path });
  }, 120);
});

window.addEventListener('popstate', () => {
  const leaving = [...waiting.values()].some((question) => question.how === 'pop');
  if (here() === drawnAt && !leaving) return; // another part of this page: what is typed into it stays
  if (core) go(here(), 'pop');
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
watchSleep(end, () => { // the journal has the forms
  waiting.clear();
  answeredForm('');
  if (!failed && !hasLeft()) start();
});
watchParts();
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
if (!leaves) watchDrafts(() => (core ? go(here(), 'fresh') : location.reload()));
if (leaves || stranger) failed = true;
else begin();
if (!leaves && !opening()) sendLeft((entry) => !entry.copy); // before the core runs, which may take long to come
for (const [form, submitter] of self.heldForms ? self.heldForms() : []) pressForm(form, submitter);
if (!leaves) listen((job) => tell({ type: 'news', job }));
watchBrowser((message) => { if (core) core.postMessage(message); });
watchUpdates();
if (!leaves && !opening()) { // maybe the server's answer to a form that only it takes
  loaded().then(() => { if (document.activeElement === document.body || document.activeElement.autofocus) toFault(); });
}
