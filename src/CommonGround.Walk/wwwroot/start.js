// Before the program runs: the last list as a picture that cannot be pressed yet, and how much of the program has come. Then the worker
// that keeps all of it for days without signal.
const app = document.getElementById('app');
const picture = (() => { try { return localStorage.getItem('walk picture ' + location.pathname); } catch { return null; } })();
if (picture) {
  app.innerHTML = picture;
  app.inert = true;
  app.dataset.picture = 'yes';
}
const coming = document.getElementById('coming');
const shown = new MutationObserver(() => {
  if (!app.querySelector('[data-running]')) return;
  shown.disconnect();
  app.inert = false;
  delete app.dataset.picture;
  coming.remove();
});
shown.observe(app, { childList: true, subtree: true });
const look = setInterval(() => {
  if (!coming.isConnected) return clearInterval(look);
  // The framework counts its own files as they come.
  const share = parseFloat(getComputedStyle(document.documentElement).getPropertyValue('--blazor-load-percentage'));
  if (share > 0) coming.textContent = `Opening the walk… ${Math.round(share)} %`;
}, 100);

// A program that does not come, or that this browser cannot run, says so; the picture of the last list stays to be read.
function fail(reason) {
  console.error(reason);
  clearInterval(look);
  coming.hidden = true;
  document.getElementById('failed').hidden = false;
}
addEventListener('DOMContentLoaded', () => window.Blazor ? window.Blazor.start().catch(fail) : fail('The program did not come.'));

// Registered when the page stands, so that keeping the files does not slow the first visit. A new version is asked for by name: browsers
// leave it until much later.
if ('serviceWorker' in navigator) addEventListener('load', async () => {
  const worker = await navigator.serviceWorker.register('service-worker.js', { updateViaCache: 'none' });
  const ask = () => worker.update().catch(() => { /* no signal */ });
  ask();
  document.addEventListener('visibilitychange', () => { if (document.visibilityState === 'visible') ask(); });
});
