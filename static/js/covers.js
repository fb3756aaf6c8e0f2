// Covers of jobs that were on the screen stay there until the core has drawn them again. A cover says its design, and a
// row whose cover is still to come says the design it waits for.
const seen = new Map(); // by design: what is inside

// noteCovers remembers the covers that a region shows.
export function noteCovers(region) {
  for (const { dataset, innerHTML } of region.querySelectorAll('[data-cover]:not([data-later])')) {
    seen.set(dataset.cover, innerHTML);
  }
}

// putCovers puts them where they are still to come.
export function putCovers(fresh) {
  for (const place of fresh.querySelectorAll('[data-later]')) {
    if (seen.has(place.dataset.cover)) place.innerHTML = seen.get(place.dataset.cover);
  }
}
