// Keeps the focus where the hand is when a page is drawn anew. A control that is gone hands it to what follows: the
// same form, the next row, the heading; never to the body. What is far from the hand comes last, since the eye is here.
import { attribute, findAll, hasAttribute, own } from './own.js';

const parentOf = own(Node, 'parentElement');
const matches = own(Element, 'matches');
const controls = 'a[href], button, input:not([type=hidden]), select, textarea, summary';
let last = null; // the control of the page that was in focus last, for when a toast goes away

document.addEventListener('focusin', (event) => { if (event.target.closest('#page')) last = event.target; });

// holdFocus notes what is in focus. It returns a function that gives the focus back after the page was patched.
export function holdFocus() {
  const active = document.activeElement;
  if (!active || active === document.body) return () => {};
  const toast = active.closest('#flash') !== null;
  const top = active.getBoundingClientRect().top;
  const trail = [];
  for (let at = active; at && at !== document.body && attribute(at, 'id') !== 'page'; at = parentOf(at)) {
    trail.push({ at, id: attribute(at, 'id'), after: siblings(at, 'nextElementSibling'),
      before: siblings(at, 'previousElementSibling') });
    if (attribute(at, 'id') === 'flash') break;
  }
  return () => {
    const now = document.activeElement;
    if (now && now !== document.body) return;
    const next = (toast ? afterToast(trail) : successor(trail, top)) || heading();
    if (next) next.focus({ preventScroll: true });
  };
}

function siblings(from, way) {
  const list = [];
  const next = own(Element, way);
  for (let at = next(from); at; at = next(at)) list.push(at);
  return list;
}

// successor gives the first control that follows and is within a screen of where the hand was; else the first of all.
function successor(trail, top) {
  let first = null;
  for (const { at, id, after, before } of trail) {
    const same = id && document.getElementById(id);
    for (const place of [at, same, ...after, ...before]) {
      const found = place && place.isConnected && inside(place);
      if (found && Math.abs(found.getBoundingClientRect().top - top) < window.innerHeight) return found;
      first = first || found || null;
    }
  }
  return first;
}

function afterToast(trail) {
  const flash = inside(trail[trail.length - 1].at);
  return flash || (last && last.isConnected && inside(last)) || null;
}

// inside returns the first control of a place that can be seen and reached by keyboard: the place itself or within it.
function inside(place) {
  const all = [place, ...findAll(place, controls)];
  return all.find((e) => matches(e, controls) && attribute(e, 'tabindex') !== '-1' && shows(e)) || null;
}

function shows(control) {
  if (control.getClientRects().length === 0) return false;
  for (let at = control; parentOf(at); at = parentOf(at)) {
    const shut = parentOf(at).nodeName === 'DETAILS' && !hasAttribute(parentOf(at), 'open');
    if (shut && at.nodeName !== 'SUMMARY') return false;
  }
  return true;
}

function heading() {
  const title = document.querySelector('#page h1');
  if (title) title.tabIndex = -1;
  return title;
}
