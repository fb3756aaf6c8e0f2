// Forms: what the page does with one from the press of its button until it is answered.
import { addressOf, attribute, closest, hasAttribute, setAttribute } from './own.js';

const pending = new Map(); // by form: what was sent of it and is not answered yet

// collect reads a form into a journal entry. Files are read as text, since the core takes only text.
export async function collect(form, submitter, newID) {
  const fields = [];
  if (!hasAttribute(form, 'id')) setAttribute(form, 'id', 'form-' + newID());
  const entry = {
    id: newID(), form: attribute(form, 'id'), page: location.pathname + location.search,
    path: addressOf(form).pathname, fields, leaves: hasAttribute(form, 'data-leave'),
  };
  for (const [name, value] of new FormData(form, submitter)) {
    fields.push([name, typeof value === 'string' ? value : await value.text()]);
  }
  return entry;
}

// again reports whether a press repeats one that is still being answered: a double tap counts once. Where each press
// counts, as in a tally, none is a repeat.
export function again(form, submitter) {
  if (hasAttribute(form, 'data-each')) return false;
  const now = JSON.stringify([...new FormData(form, submitter)].filter(([, value]) => typeof value === 'string'));
  if (pending.get(form) === now) return true;
  pending.set(form, now);
  return false;
}

// answeredForm notes that a form may be pressed again; without an id it means every form.
export function answeredForm(id) {
  for (const form of [...pending.keys()]) if (!id || attribute(form, 'id') === id) pending.delete(form);
}

// mark shows at once that the tap was felt. Only the core's drawing says that it is saved.
export function mark(form, submitter) {
  setAttribute(closest(form, '[data-row]') || form, 'data-pending', 'yes');
  if (submitter) setAttribute(submitter, 'data-pressed', 'yes');
}
