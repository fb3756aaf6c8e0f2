// Sets the chosen look before the page is painted, on the empty shell too. The browser's own bars take the page's
// colour. Loaded at the end of the head, as a plain script.
self.setLook = (name) => {
  const root = document.documentElement;
  if (name) root.dataset.theme = name;
  else delete root.dataset.theme;
  const surface = name && getComputedStyle(root).getPropertyValue('--surface').trim();
  for (const meta of document.querySelectorAll('meta[name=theme-color]')) meta.content = surface || meta.dataset.own;
};
self.setLook((document.cookie.match(/(?:^|; )look=(light|dark|sun)(?:;|$)/) || [])[1] || '');

// A page whose script arrived cut off is loaded again, a few times, unless somebody has typed into it.
document.addEventListener('error', (event) => {
  if (event.target.type !== 'module') return;
  setTimeout(() => {
    const fields = [...document.querySelectorAll('#page input, #page textarea')];
    if (!navigator.onLine || fields.some((field) => field.value !== field.defaultValue)) return;
    try {
      const tries = Number(sessionStorage.getItem('garlandry-again')) + 1;
      if (tries > 3) return;
      sessionStorage.setItem('garlandry-again', tries);
      location.reload();
    } catch { /* no storage to count the tries in */ }
  }, 2000);
}, true);
