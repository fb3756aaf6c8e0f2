// patch makes a region look like the given HTML with the fewest changes, so that focus, scroll, what is being typed and
// open disclosures survive. Elements with an id keep their identity wherever they move.
// With keepTyped, fields that somebody has changed since they were drawn keep what was typed.
import { noteCovers, putCovers } from './covers.js';
import { attribute, fieldsOf, hasAttribute, own, removeAttribute, setAttribute } from './own.js';

const nodes = own(Node, 'childNodes');
const first = own(Node, 'firstChild');
const after = own(Node, 'nextSibling');
const typeOf = own(Node, 'nodeType');
const nameOf = own(Node, 'nodeName');
const equal = own(Node, 'isEqualNode');
const insert = own(Node, 'insertBefore');
const drop = own(Node, 'removeChild');
const remove = own(Element, 'remove');
const attributesOf = own(Element, 'attributes');
let keep = false;
const drawn = new Map(); // by region: the HTML that it still looks like
const watcher = new MutationObserver(changed);

export function patch(region, html, keepTyped) {
  changed(watcher.takeRecords());
  if (drawn.get(region) === html) return; // nothing to parse, nothing to compare
  keep = keepTyped;
  const next = document.createElement('template');
  next.innerHTML = html;
  noteCovers(region);
  putCovers(next.content);
  children(region, next.content);
  const all = { childList: true, attributes: true, characterData: true, subtree: true };
  if (!drawn.has(region)) watcher.observe(region, all);
  changed(watcher.takeRecords());
  drawn.set(region, html);
}

// clear empties a region whose content gives way whole.
export function clear(region) {
  noteCovers(region);
  region.replaceChildren();
}

// beside does work that follows every drawing, such as showing the buttons that need scripts. What it changes is no
// reason to parse the same HTML again, which would only undo it.
export function beside(work) {
  changed(watcher.takeRecords());
  work();
  watcher.takeRecords();
}

// changed notes that something has changed a region, such as the mark of a tap or an opened disclosure.
function changed(records) {
  for (const { target } of records) {
    for (const region of drawn.keys()) if (region.contains(target)) drawn.set(region, null);
  }
}

// steady notes what a person types into or reads. It returns a function that scrolls it back to its place on the screen
// after the page was redrawn by itself. At the top of a page it does nothing.
export function steady() {
  const middle = window.scrollY > 0 ? document.elementFromPoint(window.innerWidth / 2, window.innerHeight / 3) : null;
  const place = (element) => element.getBoundingClientRect().top;
  const seen = (e) => e && e.closest('#page') && place(e) >= 0 && place(e) < window.innerHeight;
  const held = [document.activeElement, middle].find(seen) || middle;
  if (!held || !held.closest('#page')) return null;
  const top = place(held);
  return () => { if (held.isConnected) window.scrollBy({ top: place(held) - top, behavior: 'instant' }); };
}

function elements(parent) {
  return [...nodes(parent)].filter((child) => typeOf(child) === Node.ELEMENT_NODE);
}

function idOf(child) {
  return typeOf(child) === Node.ELEMENT_NODE ? attribute(child, 'id') || '' : '';
}

// dragged is the attribute of what a finger or mouse holds, see drag.js.
export const dragged = 'data-dragged';

// ours reports whether the page's script put a node in, which no drawing knows. It stays.
function ours(child) {
  return typeOf(child) === Node.ELEMENT_NODE && hasAttribute(child, 'data-own');
}

// beyond skips the nodes that the page's script put in.
function beyond(child) {
  while (child && ours(child)) child = after(child);
  return child;
}

function children(old, fresh) {
  const named = new Map(), wanted = new Set(elements(fresh).map(idOf));
  for (const child of elements(old)) {
    const id = idOf(child);
    if (!id) continue;
    if (wanted.has(id)) named.set(id, child);
    else remove(child); // first, so that nothing need move past it: an element that moves loses focus
  }
  let at = beyond(first(old));
  for (const want of [...nodes(fresh)]) {
    const id = idOf(want);
    let have = at;
    if (id && named.has(id)) {
      have = named.get(id);
      if (have !== at) insert(old, have, at);
    } else if (have && (!same(have, want) || (idOf(have) && idOf(have) !== id))) {
      have = null;
    }
    if (have && same(have, want)) {
      at = have === at ? beyond(after(at)) : at;
      node(have, want);
    } else {
      insert(old, want, at);
    }
  }
  while (at) {
    const gone = at;
    at = beyond(after(at));
    drop(old, gone);
  }
}

function same(a, b) {
  return typeOf(a) === typeOf(b) && nameOf(a) === nameOf(b);
}

function node(have, want) {
  if (typeOf(have) !== Node.ELEMENT_NODE) {
    if (have.nodeValue !== want.nodeValue) have.nodeValue = want.nodeValue;
    return;
  }
  if (equal(have, want) && !hasAttribute(have, 'data-pending')) return;
  attributes(have, want);
  children(have, want);
}

function attributes(have, want) {
  if (keep && besideTyped(have)) return;
  const touched = typed(have);
  const kind = nameOf(have);
  const typing = have === document.activeElement && /^(INPUT|TEXTAREA|SELECT)$/.test(kind);
  for (const { name } of [...attributesOf(have)]) {
    if (hasAttribute(want, name) || (name === 'open' && kind === 'DETAILS') || name === 'tabindex') continue;
    // What is dragged stays under the finger.
    if (name === dragged || (name === 'transform' && hasAttribute(have, dragged))) continue;
    removeAttribute(have, name);
  }
  for (const { name, value } of attributesOf(want)) {
    if (attribute(have, name) !== value) setAttribute(have, name, value);
  }
  if (typing || (keep && touched)) return;
  if (kind === 'INPUT') {
    if (have.type === 'checkbox' || have.type === 'radio') have.checked = want.hasAttribute('checked');
    else if (have.type !== 'file' && have.value !== want.value) have.value = want.value;
  } else if (kind === 'TEXTAREA') {
    if (have.value !== want.value) have.value = want.value;
  } else if (kind === 'OPTION') {
    have.selected = want.hasAttribute('selected');
  }
}

// besideTyped reports whether a hidden field holds the former value of a field that a person is typing in. It stays as
// it is, so that the form still says what was typed over.
function besideTyped(field) {
  return nameOf(field) === 'INPUT' && field.type === 'hidden' && field.name.startsWith('was.') && field.form !== null
    && [...fieldsOf(field.form)].some((other) => other.name === field.name.slice(4) && typed(other));
}

// typed reports whether a field holds something else than what was drawn.
function typed(field) {
  switch (nameOf(field)) {
    case 'INPUT':
      return field.type === 'checkbox' || field.type === 'radio'
        ? field.checked !== field.defaultChecked : field.value !== field.defaultValue;
    case 'TEXTAREA':
      return field.value !== field.defaultValue;
    case 'OPTION':
      return field.selected !== field.defaultSelected;
  }
  return false;
}
