// Places of the app: a page's path and query. The mark from=server is in the address of a page that the server draws,
// past the service worker.
const mark = 'from';

// here gives the place of the page in the address bar.
export function here() { return location.pathname + location.search; }

// placeOf gives the place that an address names, without the mark.
export function placeOf(address) {
  const url = new URL(address, location.href);
  if (pastWorker(url)) url.searchParams.delete(mark);
  return url.pathname + url.search;
}

// pastWorker reports whether an address has the mark.
export function pastWorker(address) {
  return new URL(address, location.href).searchParams.get(mark) === 'server';
}

// fromServer gives an address the mark.
export function fromServer(address) {
  const url = new URL(address, location.href);
  url.searchParams.set(mark, 'server');
  return url;
}
