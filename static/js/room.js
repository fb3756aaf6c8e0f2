// The room: a drag and an arrow key press its form, which says what moved. The core snaps it and draws.
import { fieldsOf, pressForm } from './own.js';

const ways = { ArrowLeft: 'left', ArrowRight: 'right', ArrowUp: 'up', ArrowDown: 'down' };
let held = null;

// pointIn gives where a pointer is in the units of the picture.
function pointIn(group, event) {
  return new DOMPoint(event.clientX, event.clientY).matrixTransform(group.ownerSVGElement.getScreenCTM().inverse());
}

function press(act, group, more) {
  const form = document.getElementById('room-move');
  if (!form) return;
  const all = { act, id: group.dataset.piece, at: '', up: '', x: '', y: '', fine: '', ...more };
  for (const [name, value] of Object.entries(all)) fieldsOf(form).namedItem(name).value = value;
  pressForm(form);
}

document.addEventListener('pointerdown', (event) => {
  const group = event.target.closest('[data-piece]');
  if (!group || event.button || !event.isPrimary) return;
  event.preventDefault();
  group.focus({ preventScroll: true });
  group.setPointerCapture(event.pointerId);
  const { at, up } = group.dataset;
  held = { group, id: event.pointerId, from: pointIn(group, event), at, up, x: 0, y: 0 };
});

document.addEventListener('pointermove', (event) => {
  if (!held || event.pointerId !== held.id) return;
  const to = pointIn(held.group, event);
  held.x = to.x - held.from.x;
  held.y = to.y - held.from.y;
  held.group.setAttribute('transform', `translate(${held.x} ${held.y})`);
});

document.addEventListener('pointerup', (event) => {
  if (!held || event.pointerId !== held.id) return;
  const { group, at, up, x, y } = held;
  held = null;
  if (x || y) press('drag', group, { at, up, x, y });
});

document.addEventListener('pointercancel', () => {
  if (held) held.group.removeAttribute('transform');
  held = null;
});

document.addEventListener('keydown', (event) => {
  const group = event.target.closest('[data-piece]');
  if (!group || event.altKey || event.ctrlKey || event.metaKey) return;
  if (ways[event.key]) press(ways[event.key], group, { fine: event.shiftKey ? '1' : '' });
  else if (event.key === 'Enter') document.querySelector(`[name="${group.dataset.piece}.at_mm"]`)?.focus();
  else return;
  event.preventDefault();
});
