// A tap on a picture shows the cluster of the balloon there, or of the nearest: it fills in the picture's form, which
// asks for the page with that cluster.
import { fieldsOf, pressForm } from './own.js';

document.addEventListener('click', (event) => {
  const picture = event.target.closest('svg[data-clusters]');
  const form = picture && document.getElementById(picture.dataset.clusters);
  const balloon = form && (event.target.closest('[data-cluster]') || nearest(picture, event));
  if (!balloon) return;
  fieldsOf(form).namedItem('cluster').value = balloon.dataset.cluster;
  pressForm(form);
});

function nearest(picture, { clientX, clientY }) {
  let found = null;
  let least = Infinity;
  for (const balloon of picture.querySelectorAll('[data-cluster]')) {
    const { left, right, top, bottom } = balloon.getBoundingClientRect();
    const away = Math.hypot(Math.max(left - clientX, clientX - right, 0), Math.max(top - clientY, clientY - bottom, 0));
    if (away < least) [found, least] = [balloon, away];
  }
  return found;
}
