// Brings the answer to a press to where the person looks, and announces faults.
import { find } from './own.js';

const focusable = 'a[href], button, select, textarea, input:not([type=hidden])';

// unfold opens what an element is folded into.
export function unfold(element) {
  for (let box = element.closest('details'); box; box = box.parentElement.closest('details')) box.open = true;
}

// toFault leads to the first field that something is wrong with, and says what. It reports whether anything is wrong.
export function toFault() {
  const list = document.querySelector('#page .wronglist');
  const wrong = document.querySelector('#page [data-bad]') || list;
  if (!wrong) return false;
  unfold(wrong);
  const input = wrong.querySelector('[aria-invalid]') || (wrong !== list && wrong.querySelector(focusable)) || wrong;
  input.focus({ preventScroll: true });
  wrong.scrollIntoView({ block: 'center', behavior: 'instant' });
  const alarm = document.getElementById('alarm'); // in the document from the start, so that it is announced
  const words = (list && list.querySelector('p')) || wrong.querySelector('.wrong');
  const said = document.querySelector('#page > .alert'); // which is an alert of its own
  if (alarm && words && !said) alarm.textContent = words.textContent;
  return true;
}

// fromUnderToast moves a control reached by keyboard from under the toast that has just come.
export function fromUnderToast() {
  const control = document.querySelector('#page :focus-visible');
  if (control) control.scrollIntoView({ block: 'nearest', behavior: 'instant' });
}

// toResult leads to what a form asked to be worked out, and reports whether there is any.
export function toResult(id) {
  const form = document.getElementById(id);
  const result = (form && find(form, '[role=status]')) || document.querySelector('#page [data-say]');
  if (!result) return false;
  unfold(result);
  result.tabIndex = -1;
  result.focus({ preventScroll: true });
  for (const part of [result, result.firstElementChild || result]) { // a long one shows its beginning
    part.scrollIntoView({ block: 'nearest', behavior: 'instant' });
  }
  return true;
}

// toPart leads to the part of the page that an address names, and reports whether there is one.
export function toPart(hash) {
  let part = null;
  try { part = hash && document.getElementById(decodeURIComponent(hash.slice(1))); } catch { /* no name */ }
  if (!part) return false;
  unfold(part);
  const input = part.matches(focusable) ? part : part.closest('.field')?.querySelector(focusable) || part;
  const field = input.matches(focusable);
  if (!field) input.tabIndex = -1;
  input.focus({ preventScroll: true });
  part.scrollIntoView({ block: field ? 'center' : 'start', behavior: 'instant' });
  return true;
}

// watchParts follows links to a part of this page, whoever draws it. The page itself stays as it is.
export function watchParts() {
  document.addEventListener('click', (event) => {
    const link = event.target.closest('a[href*="#"]');
    const url = link && !event.defaultPrevented && new URL(link.href);
    if (!url || url.origin !== location.origin || url.pathname !== location.pathname) return;
    if (url.search !== location.search || !toPart(url.hash)) return;
    event.preventDefault();
    if (url.hash !== location.hash) history.pushState(null, '', url);
  });
}

// saying returns what the page's figure would be said as, or null if the page has none.
export function saying() {
  const figure = document.querySelector('#page [data-say]');
  return figure ? figure.dataset.say : null;
}

// speak has screen readers say a figure that changed.
export function speak(sentence) {
  const region = document.getElementById('say');
  if (region && sentence !== null) region.textContent = sentence;
}
