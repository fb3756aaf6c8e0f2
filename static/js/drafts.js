// Drafts keeps what a person has typed and not saved, per form and page, on this phone only. It gives it back when the
// form is drawn again. A draft goes when its form is accepted, when it is discarded, and with its job or a sign-out.
import { speak } from './eye.js';
import { warnWhile } from './held.js';
import { hasLeft } from './leave.js';
import { placeOf } from './place.js';
import { asks, attribute, closest, fieldsOf, find, hasAttribute } from './own.js';

const prefix = 'garlandry-draft ';
const most = 40;
const never = ['hidden', 'file', 'password', 'submit', 'button', 'reset', 'image'];
const memory = new Map(); // what storage did not take
const shown = new Map(); // by key: the draft that was given back on this page
const touched = new Map(); // by key: the fields that were typed into on this page; others may be another tab's

// roleHere is whose phone this is; a stranger's keeps no drafts. The bare page does not say it.
function roleHere() {
  try {
    return document.documentElement.dataset.role || localStorage.getItem('garlandry-role') || '';
  } catch {
    return ''; // no storage, and the bare page comes from storage
  }
}

// keyOf names the draft of a form, or nothing if the form keeps none. A form that only asks, such as a calculator's,
// says so if it keeps one. What is typed into it stands in the query too, which therefore is no part of its name.
function keyOf(form) {
  const role = roleHere();
  const id = attribute(form, 'id');
  if (!role || !id || hasAttribute(form, 'data-leave') || !closest(form, '#page')) return '';
  if (asks(form) && !hasAttribute(form, 'data-keep')) return '';
  return `${prefix}${role} ${asks(form) ? location.pathname : placeOf(location.href)} ${id}`;
}

// fields lists what can be typed into, with a name that is the same when the form is drawn again.
function fields(form) {
  const seen = new Map();
  return [...fieldsOf(form)].filter((field) => field.name && !never.includes(field.type) && 'value' in field
    && field.nodeName !== 'FIELDSET' && field.nodeName !== 'OUTPUT').map((field) => {
    seen.set(field.name, (seen.get(field.name) || 0) + 1);
    return { field, name: field.name + ' ' + seen.get(field.name) };
  });
}

function ticks(field) { return field.type === 'checkbox' || field.type === 'radio'; }

function valueOf(field) { return ticks(field) ? field.checked : field.value; }

function drawnIn(field) {
  if (ticks(field)) return field.defaultChecked;
  if (field.nodeName !== 'SELECT') return field.defaultValue;
  const option = [...field.options].find((one) => one.defaultSelected) || field.options[0];
  return option ? option.value : '';
}

// formerly finds the hidden field that holds what a field held when its form was drawn.
function formerly(form, field) {
  return [...fieldsOf(form)].find((other) => other.type === 'hidden' && other.name === 'was.' + field.name);
}

function read(key) {
  try {
    const draft = JSON.parse(localStorage.getItem(key));
    if (draft) return draft;
  } catch { /* no storage, or not readable */ }
  return memory.get(key) || null;
}

// holds reports whether this page alone has something that was typed and not sent.
function holds() { return !hasLeft() && [...memory.values()].some((draft) => !draft.sent); }

function write(key, draft) {
  try {
    const others = Object.keys(localStorage).filter((one) => one.startsWith(prefix) && one !== key);
    if (others.length >= most) {
      others.sort((a, b) => (read(a)?.at || 0) - (read(b)?.at || 0));
      for (const old of others.slice(0, others.length - most + 1)) localStorage.removeItem(old);
    }
    localStorage.setItem(key, JSON.stringify(draft));
    memory.delete(key);
  } catch {
    memory.set(key, draft); // private mode or full: as long as this page
    warnWhile(holds);
  }
}

function drop(key) {
  for (const map of [memory, shown, touched]) map.delete(key);
  try { localStorage.removeItem(key); } catch { /* no storage */ }
}

// note keeps what stands in a form. A field belongs to the draft from when it first differs until it is as before. What
// another tab typed into a field that nobody touched here stays.
function note(form) {
  const key = keyOf(form);
  if (!key || hasLeft()) return;
  const kept = read(key)?.typed || {};
  const typed = {};
  const here = touched.get(key) || new Set();
  touched.set(key, here);
  for (const { field, name } of fields(form)) {
    const before = kept[name] || { was: drawnIn(field), former: formerly(form, field)?.value };
    if (valueOf(field) !== before.was) {
      typed[name] = { ...before, now: valueOf(field) };
      here.add(name);
    } else if (kept[name] && !here.has(name)) {
      typed[name] = kept[name];
    }
  }
  const same = JSON.stringify(typed) === JSON.stringify(kept);
  if (Object.keys(typed).length) write(key, { at: (same && read(key)?.at) || Date.now(), typed });
  else drop(key);
  tell(form, key);
}

// giveBack fills drafts into the forms of the page. What a form held when its draft was begun goes with it, so that
// another phone's newer value is noticed when the form is sent.
export function giveBack() {
  for (const form of document.querySelectorAll('#page form')) {
    const key = keyOf(form);
    if (!key) continue;
    const draft = read(key);
    if (!draft || draft.sent || (asks(form) && placeOf(location.href).includes('?'))) { // the address says what it asks
      tell(form, key);
      continue;
    }
    let filled = null;
    for (const { field, name } of fields(form)) {
      const typed = draft.typed[name];
      if (!typed) continue;
      const former = formerly(form, field);
      if (former && typed.former !== undefined) former.value = typed.former;
      const typedHere = touched.get(key)?.has(name) && valueOf(field) !== drawnIn(field);
      if (typedHere || valueOf(field) === typed.now) continue; // another tab's text never replaces what stands here
      if (ticks(field)) field.checked = typed.now;
      else field.value = typed.now;
      filled = field;
    }
    if (filled) {
      if (!shown.has(key)) shown.set(key, draft.at);
      for (let box = closest(form, 'details'); box; box = box.parentElement.closest('details')) box.open = true;
      filled.dispatchEvent(new Event('input', { bubbles: true }));
    } else {
      tell(form, key);
    }
  }
}

// tell says beside the button that a form is not saved, and above its fields that a draft is back.
function tell(form, key) {
  const draft = read(key);
  const foot = find(form, '.foot');
  if (foot && !asks(form)) put(foot, 'unsaved', draft && !draft.sent);
  const line = put(form, 'draft', draft && !draft.sent && shown.has(key));
  if (!line) return;
  line.querySelector('time').textContent = when(shown.get(key));
  speak(line.querySelector('span').textContent);
}

// put shows the words of a template in a place, or takes them away. It returns what it has just put there.
function put(place, name, wanted) {
  const there = find(place, `:scope > [data-own=${name}]`);
  if (!wanted && there) there.remove();
  const template = document.getElementById('words-' + name);
  if (!wanted || there || !template) return null;
  const words = template.content.firstElementChild.cloneNode(true);
  words.dataset.own = name;
  Element.prototype[name === 'draft' ? 'prepend' : 'append'].call(place, words);
  return words;
}

function when(at) {
  const day = new Date(at).toDateString() === new Date().toDateString() ? {} : { day: 'numeric', month: 'short' };
  return new Intl.DateTimeFormat('en-GB', { ...day, hour: '2-digit', minute: '2-digit' }).format(at);
}

// sentDraft notes that a form is on its way: its draft is not given back unless the form is refused. The rest is what
// another tab typed, which does not go with it.
export function sentDraft(form, id) {
  const key = keyOf(form);
  const draft = key && read(key);
  if (!draft) return;
  const goes = new Set(fields(form).filter(({ field, name }) => valueOf(field) === draft.typed[name]?.now)
    .map(({ name }) => name));
  const rest = Object.fromEntries(Object.entries(draft.typed).filter(([name]) => !goes.has(name)));
  write(key, { ...draft, sent: id, rest });
}

// settled handles a draft whose form was accepted or refused.
function settled(key, { at, typed, rest = {} }, accepted) {
  if (!accepted) return write(key, { at, typed });
  drop(key);
  if (Object.keys(rest).length) write(key, { at, typed: rest });
}

// settleDraft handles what became of a form. A draft that was typed into since then stays.
export function settleDraft(entry, accepted) {
  const key = `${prefix}${roleHere()} ${placeOf(entry.page)} ${entry.form}`;
  const draft = read(key);
  if (draft && draft.sent === entry.id) settled(key, draft, accepted);
}

// forgetDrafts drops every draft, for when the phone belongs to somebody else now, or those of a job that is removed.
export function forgetDrafts(job = '') {
  const all = [...memory.keys()];
  try {
    all.push(...Object.keys(localStorage).filter((key) => key.startsWith(prefix)));
  } catch { /* no storage */ }
  for (const key of all) if (key.includes(job)) drop(key);
}

function discard(form) {
  const key = keyOf(form);
  const draft = read(key);
  drop(key);
  for (const { field, name } of fields(form)) {
    const typed = draft && draft.typed[name];
    if (!typed) continue;
    if (ticks(field)) field.checked = typed.was;
    else field.value = typed.was;
  }
  tell(form, key);
  if (asks(form)) history.replaceState(null, '', location.pathname);
}

// answerTyped has forms that answer while a person types answer what was typed before there was anybody to do so.
export function answerTyped() {
  for (const form of document.querySelectorAll('#page form[data-live]')) {
    const typed = fields(form).find(({ field }) => valueOf(field) !== drawnIn(field));
    if (typed) typed.field.dispatchEvent(new Event('input', { bubbles: true }));
  }
}

// settleSent looks after forms that went to the server by themselves: this page is its answer. A form that is wrong
// shows what was typed; going back to a form gives its draft back.
function settleSent() {
  const [arrival] = performance.getEntriesByType('navigation');
  const answered = arrival && arrival.type === 'navigate';
  const wrong = document.querySelector('#page [data-bad], #page .wronglist, #page .trouble, #page .alert');
  try {
    for (const key of Object.keys(localStorage).filter((one) => one.startsWith(prefix))) {
      const draft = read(key);
      if (draft && draft.sent === 'server') settled(key, draft, answered && !wrong);
    }
  } catch { /* no storage */ }
}

// watchDrafts notes what is typed from now on, and gives back what is kept. Discarded is called when a draft is.
export function watchDrafts(discarded) {
  for (const name of ['input', 'change']) {
    document.addEventListener(name, (event) => { if (event.target.form) note(event.target.form); });
  }
  document.addEventListener('click', (event) => {
    const button = event.target.closest('[data-discard]');
    if (!button || !button.closest('form')) return;
    discard(button.closest('form'));
    discarded();
  });
  window.addEventListener('storage', (event) => { // another tab's form was accepted
    if (event.key && event.key.startsWith(prefix)) for (const form of document.forms) tell(form, keyOf(form));
  });
  settleSent();
  giveBack();
}
