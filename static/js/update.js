// watchUpdates keeps the service worker fresh. A new version waits for a tap on "Update", except at a cold start with
// nothing waiting to be sent.
export async function watchUpdates(waitingCount) {
  if (!('serviceWorker' in navigator) || !document.documentElement.dataset.build) return;
  let reloading = false;
  let asked = false;
  const cold = performance.now() < 15000;
  const registration = await navigator.serviceWorker.register('/sw.js', { updateViaCache: 'none' }).catch(() => null);
  if (!registration) return;

  navigator.serviceWorker.addEventListener('controllerchange', () => {
    if (!asked || reloading) return;
    reloading = true;
    location.reload();
  });
  const offer = () => {
    if (!registration.waiting || !navigator.serviceWorker.controller) return;
    if (cold && performance.now() < 15000 && waitingCount() === 0 && document.documentElement.dataset.ready === 'yes' && !document.querySelector('[data-pending]')) return take();
    const bar = document.getElementById('update');
    if (bar) bar.hidden = false;
  };
  const take = () => {
    asked = true;
    if (registration.waiting) registration.waiting.postMessage({ type: 'take-over' });
  };
  registration.addEventListener('updatefound', () => {
    const fresh = registration.installing;
    if (fresh) fresh.addEventListener('statechange', () => { if (fresh.state === 'installed') offer(); });
  });
  document.addEventListener('click', (event) => { if (event.target.closest('[data-update]')) take(); });
  document.addEventListener('visibilitychange', () => { if (!document.hidden) registration.update().catch(() => {}); });
  offer();
}
