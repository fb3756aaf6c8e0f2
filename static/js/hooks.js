import { hookDrags } from './drag.js';
import { fieldsOf } from './own.js';
import { copy, send, sends, share } from './pass.js';
import { hookPhotos } from './photo.js';
import { sendPicture } from './picture.js';
import './cluster.js';
import './room.js';

// hook adds the small conveniences that data attributes ask for. Each works without scripts too, more plainly.
export function hook(root) {
  for (const field of root.querySelectorAll('[data-from-fragment]')) {
    if (location.hash.length > 1) {
      const [token, name] = location.hash.slice(1).split('&name=');
      field.value = decoded(token);
      // the name that the link was made for, to keep or type over
      const typed = field.form && fieldsOf(field.form).namedItem('name');
      if (name && typed && !typed.value) typed.value = decoded(name);
      field.dispatchEvent(new Event('input', { bubbles: true }));
      history.replaceState(null, '', location.pathname + location.search);
    }
  }
  for (const field of root.querySelectorAll('[data-zone]')) {
    try {
      field.value = Intl.DateTimeFormat().resolvedOptions().timeZone || field.value;
    } catch { /* the server's guess stands */ }
  }
  const buttons = `[data-copy], ${sends() ? '[data-share], ' : ''}[data-print], [data-picture], [data-dismiss],
    [data-by-hand]`;
  for (const button of root.querySelectorAll(buttons)) button.hidden = false;
  markLook(root);
  hookDrags(root);
  hookPhotos(root);
}

function decoded(text) {
  try { return decodeURIComponent(text); } catch { return text; } // a link cut short
}

// A button of a stepper moves the number beside it, within the limits that the number names.
document.addEventListener('click', (event) => {
  const button = event.target.closest('[data-step]');
  const field = button && button.parentElement.querySelector('input[type=number]');
  if (!field) return;
  if (button.dataset.step === 'up') field.stepUp();
  else field.stepDown();
  field.dispatchEvent(new Event('input', { bubbles: true }));
});

// Whoever types a size means the piece: its picture counts as tapped.
document.addEventListener('input', (event) => {
  const size = event.target.closest('[data-of]');
  const picture = size && document.querySelector(`#start-pieces [value="${size.dataset.of}"]`);
  if (picture) picture.checked = true;
});

document.addEventListener('click', (event) => {
  const buttons = '[data-copy], [data-share], [data-print], [data-picture], [data-sync], [data-theme-set]';
  const button = event.target.closest(buttons);
  if (!button) return;
  if ('copy' in button.dataset) copy(button.dataset.copy);
  else if ('share' in button.dataset) send(button.dataset.share);
  else if ('print' in button.dataset) window.print();
  else if ('picture' in button.dataset) sendPicture(button);
  else if ('sync' in button.dataset) share();
  else theme(button.dataset.themeSet);
});

// The look is kept in one cookie, which the server reads too.
function theme(name) {
  const secure = location.protocol === 'https:' ? '; Secure' : '';
  document.cookie = `look=${name}; Path=/; Max-Age=${400 * 24 * 3600}; SameSite=Strict${secure}`;
  if (self.setLook) self.setLook(name);
  markLook(document);
}

// markLook marks the button of the look that the page has.
function markLook(root) {
  const look = document.documentElement.dataset.theme || '';
  for (const button of root.querySelectorAll('[data-theme-set]')) {
    button.setAttribute('aria-pressed', String(button.dataset.themeSet === look));
  }
}
