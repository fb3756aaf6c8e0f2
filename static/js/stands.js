// pageStands waits until the page has loaded. The core's download takes minutes on a thin line. Started sooner, it
// would hold up the page and the first tap, which the server answers.
const limit = 4000;

export function pageStands() {
  if (document.readyState === 'complete') return Promise.resolve();
  return new Promise((resolve) => {
    window.addEventListener('load', resolve, { once: true });
    setTimeout(resolve, limit);
  });
}
