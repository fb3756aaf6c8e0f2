// The chosen look goes onto the page before it is painted, also onto the empty shell, which comes without one. The
// browser's own bars take the colour of the page. Loaded at the end of the head, as a plain script.
self.setLook = (name) => {
  const root = document.documentElement;
  if (name) root.dataset.theme = name;
  else delete root.dataset.theme;
  const surface = name && getComputedStyle(root).getPropertyValue('--surface').trim();
  for (const meta of document.querySelectorAll('meta[name=theme-color]')) meta.content = surface || meta.dataset.own;
};
self.setLook((document.cookie.match(/(?:^|; )look=(light|dark|sun)(?:;|$)/) || [])[1] || '');
