import { dragged } from './patch.js';

// What is dragged in a picture follows the pointer. Where it went is said once, when it is let go.
const kinds = []; // what can be dragged
let held = null; // what is dragged, and from where

// onDrag lets the parts of pictures that match a selector be dragged. Take gets the part, and returns what drop needs
// of it, or nothing where it stays. Drop gets that, and how far the part went in the picture's units.
export function onDrag(selector, take, drop) {
  kinds.push({ selector, take, drop });
}

// hookDrags keeps the page from scrolling under what is dragged: browsers ignore touch-action inside an SVG. The
// picture listens for its parts, which drawings replace.
export function hookDrags(root) {
  for (const part of root.querySelectorAll(parts())) part.ownerSVGElement.ontouchstart = holdPage;
}

const parts = () => kinds.map(({ selector }) => selector).join();

function holdPage(event) {
  if (event.target.closest(parts())) event.preventDefault();
}

// pointIn gives where a pointer is in the units of a picture.
export function pointIn(svg, { clientX, clientY }) {
  return new DOMPoint(clientX, clientY).matrixTransform(svg.getScreenCTM().inverse());
}

function way({ part, from }, event) {
  const to = pointIn(part.ownerSVGElement, event);
  return { x: to.x - from.x, y: to.y - from.y };
}

document.addEventListener('pointerdown', (event) => {
  const kind = kinds.find(({ selector }) => event.target.closest?.(selector));
  if (!kind || event.button || !event.isPrimary) return;
  const part = event.target.closest(kind.selector);
  const taken = kind.take(part);
  if (!taken) return;
  event.preventDefault();
  part.setPointerCapture(event.pointerId);
  part.setAttribute(dragged, '');
  held = { part, taken, drop: kind.drop, pointer: event.pointerId, from: pointIn(part.ownerSVGElement, event) };
});

document.addEventListener('pointermove', (event) => {
  if (event.pointerId !== held?.pointer) return;
  const { x, y } = way(held, event);
  held.part.setAttribute('transform', `translate(${x} ${y})`);
});

document.addEventListener('pointerup', (event) => {
  if (event.pointerId !== held?.pointer) return;
  const { part, taken, drop } = held;
  const { x, y } = way(held, event);
  letGo();
  if (x || y) drop(taken, x, y);
  else part.removeAttribute('transform');
});

document.addEventListener('pointercancel', () => {
  held?.part.removeAttribute('transform');
  letGo();
});

function letGo() {
  held?.part.removeAttribute(dragged);
  held = null;
}
