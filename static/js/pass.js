// Passes things on: a link by a copy or through the phone, what waits here to the server. Each says what came of it, in
// words that the page brings with it.
import { say } from './flash.js';

const patience = 6000; // ms for the server's answer

// toast says the words of a template, or others in its place.
export function toast(name, others) {
  const template = document.getElementById('words-' + name);
  const region = document.getElementById('flash');
  if (!template || !region) return;
  const words = template.content.firstElementChild.cloneNode(true);
  if (others) words.querySelector('span').textContent = others;
  say(region, words.outerHTML);
}

// sends reports whether this browser can pass a link to another app. Over plain http none can.
export function sends() { return typeof navigator.share === 'function'; }

export async function send(url) {
  await navigator.share({ url, title: document.title }).catch(() => {}); // the person may think better of it
}

// copy puts a text where it can be pasted. If the browser does not let it, it marks the text, to be copied by hand.
export async function copy(text) {
  const kept = await allowed(text) || marked(text);
  toast(kept ? 'copied' : 'by-hand');
}

async function allowed(text) {
  try {
    await navigator.clipboard.writeText(text);
    return true;
  } catch {
    return false; // refused, or there is no clipboard: over plain http
  }
}

// marked selects the text in the field that shows it, and tries the older way to copy.
function marked(text) {
  const field = [...document.querySelectorAll('#page input, #page textarea')].find(({ value }) => value === text);
  if (!field) return false;
  const before = document.activeElement;
  field.focus();
  field.select();
  let kept = false;
  try { kept = document.execCommand('copy'); } catch { /* not allowed */ }
  if (kept && before) before.focus({ preventScroll: true });
  return kept;
}

// share asks the server, and says how this phone stands after its answer.
export async function share() {
  const stands = () => document.getElementById('stands');
  const before = stands()?.outerHTML;
  toast('sharing');
  window.dispatchEvent(new Event('online'));
  const end = performance.now() + patience;
  while (stands()?.outerHTML === before && performance.now() < end) {
    await new Promise((resolve) => setTimeout(resolve, 100));
  }
  const now = stands();
  if (now) toast(now.dataset.tone === 'ok' ? 'shared' : 'unshared', now.textContent);
}
