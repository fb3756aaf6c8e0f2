// The toast of the dock, #flash: what the last press did, with its undo. It stays until the next press, the next page,
// a tap on its cross or the Escape key. It never goes by itself, since some people read slowly.

// say puts the answer to a press into the toast. The toast is emptied first, so that the same words are announced
// again. Whoever pressed a button in it keeps the focus there.
export function say(region, html) {
  const within = region.contains(document.activeElement);
  region.replaceChildren();
  region.innerHTML = html;
  leaveFree(region);
  for (const button of region.querySelectorAll('[data-dismiss]')) button.hidden = false;
  const next = region.querySelector('[data-dismiss]') || document.getElementById('page');
  if (within) next.focus({ preventScroll: true });
}

// leaveFree keeps what scrolls into view, as a control in focus does, above dock and toast, however high they are, and
// the end of the page above the toast.
function leaveFree(region) {
  document.getElementById('page').style.marginBottom = `calc(${region.offsetHeight}px + .5rem)`;
  const free = region.getBoundingClientRect().top;
  document.documentElement.style.scrollPaddingBottom = `calc(${Math.max(0, innerHeight - free)}px + 1rem)`;
  const focus = document.querySelector('#page :focus-visible');
  if (!focus) return;
  const { top, bottom } = focus.getBoundingClientRect();
  if (top < innerHeight && bottom > free) focus.scrollIntoView({ block: 'nearest' }); // the toast came over it
}

// watchFlash lets a person dismiss the toast.
export function watchFlash() {
  const sizes = new ResizeObserver(() => leaveFree(document.getElementById('flash')));
  for (const box of document.querySelectorAll('.dock, #flash')) sizes.observe(box);
  const dismiss = () => {
    const region = document.getElementById('flash');
    if (region && region.firstChild) say(region, '');
  };
  document.addEventListener('click', (event) => { if (event.target.closest('[data-dismiss]')) dismiss(); });
  document.addEventListener('keydown', (event) => { if (event.key === 'Escape') dismiss(); });
}
