// The toast of the dock, #flash: what the last press did, with its undo. It stays until the next press, the next page,
// a tap on its cross or the Escape key. It never goes by itself, since some people read slowly.

// say puts the answer to a press into the toast. The toast is emptied first, so that the same words are announced
// again. Whoever pressed a button in it keeps the focus there.
export function say(region, html) {
  const within = region.contains(document.activeElement);
  region.replaceChildren();
  region.innerHTML = html;
  document.documentElement.toggleAttribute('data-toast', region.firstElementChild !== null); // room below the page
  for (const button of region.querySelectorAll('[data-dismiss]')) button.hidden = false;
  const next = region.querySelector('[data-dismiss]') || document.getElementById('page');
  if (within) next.focus({ preventScroll: true });
}

// watchFlash lets a person dismiss the toast.
export function watchFlash() {
  const dismiss = () => {
    const region = document.getElementById('flash');
    if (region && region.firstChild) say(region, '');
  };
  document.addEventListener('click', (event) => { if (event.target.closest('[data-dismiss]')) dismiss(); });
  document.addEventListener('keydown', (event) => { if (event.key === 'Escape') dismiss(); });
}
