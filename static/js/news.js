// listen keeps one stream of news open for the job on the screen, in one tab of the browser, while the page is visible.
// News only says that something changed; the core fetches it.
export function listen(tell) {
  let stream = null;
  let job = '';
  let leader = !navigator.locks;
  let heard = 0;

  const here = () => (location.pathname.match(/^\/jobs\/([^/]+)/) || [])[1] || '';
  const close = () => { if (stream) stream.close(); stream = null; };
  const open = () => {
    close();
    job = here();
    if (!job || document.hidden || !leader || !navigator.onLine) return;
    stream = new EventSource(`/api/v1/jobs/${job}/events`);
    heard = Date.now();
    stream.addEventListener('head', () => { heard = Date.now(); tell(job); });
    stream.addEventListener('still', () => { heard = Date.now(); });
    stream.onerror = () => { if (stream && stream.readyState === EventSource.CLOSED) close(); };
  };
  if (navigator.locks) {
    navigator.locks.request('garlandry-news', () => {
      leader = true;
      open();
      return new Promise(() => {});
    }).catch(() => {});
  }
  document.addEventListener('visibilitychange', open);
  window.addEventListener('online', open);
  window.addEventListener('pagehide', close);
  setInterval(() => {
    if (document.hidden) return;
    if (here() !== job || !stream || Date.now() - heard > 45000) open();
  }, 10000);
  open();
}
