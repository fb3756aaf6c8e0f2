// watchSleep ends the core of a page that is left, and starts it again if the browser brings the page back from its
// memory. In WebKit a page that waited there could keep the storage to itself, so that no later page got an answer.
export function watchSleep(end, start) {
  window.addEventListener('pagehide', end);
  window.addEventListener('pageshow', (event) => { if (event.persisted) start(); });
}
