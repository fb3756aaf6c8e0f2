// pageStands waits until the page has loaded. The core's download takes minutes on a thin line. Started sooner, it
// would hold up the page and the first tap, which the server answers.
const limit = 4000;

export function pageStands() {
  return Promise.race([loaded(), new Promise((resolve) => setTimeout(resolve, limit))]);
}

// loaded waits until the page has loaded, and the browser has gone to the part of it that the address names.
export function loaded() {
  if (document.readyState === 'complete') return Promise.resolve();
  return new Promise((resolve) => window.addEventListener('load', () => setTimeout(resolve), { once: true }));
}
