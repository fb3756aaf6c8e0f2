// The room: a drag and an arrow key press its form, which says what moved. The core snaps it and draws.
import { onDrag } from './drag.js';
import { fieldsOf, pressForm } from './own.js';

const ways = { ArrowLeft: 'left', ArrowRight: 'right', ArrowUp: 'up', ArrowDown: 'down' };

function press(act, group, more) {
  const form = document.getElementById('room-move');
  if (!form) return;
  const all = { act, id: group.dataset.piece, at: '', up: '', x: '', y: '', fine: '', ...more };
  for (const [name, value] of Object.entries(all)) fieldsOf(form).namedItem(name).value = value;
  pressForm(form);
}

onDrag('[data-piece]', (group) => {
  group.focus({ preventScroll: true });
  const { at, up } = group.dataset;
  return { group, at, up };
}, ({ group, at, up }, x, y) => press('drag', group, { at, up, x, y }));

document.addEventListener('keydown', (event) => {
  const group = event.target.closest('[data-piece]');
  if (!group || event.altKey || event.ctrlKey || event.metaKey) return;
  if (ways[event.key]) press(ways[event.key], group, { fine: event.shiftKey ? '1' : '' });
  else if (event.key === 'Enter') document.querySelector(`[name="${group.dataset.piece}.at_mm"]`)?.focus();
  else return;
  event.preventDefault();
});
