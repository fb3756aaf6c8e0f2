// On the bare page of an installed app, this puts back what was on the screen last, before the first painting. The core
// draws over it as soon as it runs. Loaded in the bare page's head, as a plain script, so that nothing is painted
// without it. An element at the end of the body says when the page stands, and which script comes next.
self.recallPage = (place) => {
  try {
    const page = JSON.parse(localStorage.getItem('garlandry-page ' + place));
    if (!page || page.build !== document.documentElement.dataset.build) return false;
    if (page.title) document.title = page.title;
    for (const [id, html] of Object.entries(page.parts)) {
      const region = document.getElementById(id);
      if (region) region.innerHTML = html;
    }
    return true;
  } catch {
    return false; // not readable: the core draws in a moment
  }
};
// A form sent before main.js listens is held for it. Else the browser would ask a server that may be out of reach.
const held = [];
const hold = (event) => {
  event.preventDefault();
  event.stopPropagation();
  held.push([event.target, event.submitter]);
};
document.addEventListener('submit', hold, true);
self.heldForms = () => {
  document.removeEventListener('submit', hold, true);
  return held.splice(0);
};

customElements.define('recall-page', class extends HTMLElement {
  connectedCallback() {
    self.recallPage(location.pathname + location.search);
    let begun = false;
    const begin = () => {
      if (begun) return;
      begun = true;
      const script = document.createElement('script');
      script.type = 'module';
      script.src = this.dataset.script;
      document.head.append(script);
    };
    requestAnimationFrame(() => setTimeout(begin));
    setTimeout(begin, 500); // a page in the background is not painted
  }
});
