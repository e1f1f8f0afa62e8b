// Before the program runs: the last list as a picture that cannot be pressed yet, and how much of the program has come. Then the worker
// that keeps all of it for days without signal.
const app = document.getElementById('app');
const picture = (() => { try { return localStorage.getItem('walk picture ' + location.pathname); } catch { return null; } })();
if (picture) {
  app.innerHTML = picture;
  app.inert = true;
  app.dataset.picture = 'yes';
}
const coming = document.getElementById('coming'), failed = document.getElementById('failed');
const shown = new MutationObserver(() => {
  if (!app.querySelector('[data-running]')) return;
  shown.disconnect();
  app.inert = false;
  delete app.dataset.picture;
  coming.remove();
  failed.hidden = true;
});
shown.observe(app, { childList: true, subtree: true });

// A program that does not come, or that this browser cannot run, says so; the picture of the last list stays to be read. The framework
// does not tell of every part that failed: what nobody caught before the program ran tells too, and so does a count that stands still.
const patience = 20000;
let counted = 0, since = Date.now();
const look = setInterval(() => {
  if (!coming.isConnected) return clearInterval(look);
  // The framework counts its own files as they come.
  const share = parseFloat(getComputedStyle(document.documentElement).getPropertyValue('--blazor-load-percentage'));
  if (share > counted) {
    [counted, since] = [share, Date.now()];
    failed.hidden = true;
    coming.textContent = `Opening the walk… ${Math.round(share)} %`;
  } else if (Date.now() - since > patience) failed.hidden = false;
}, 100);

function fail(reason) {
  if (!coming.isConnected) return;
  console.error(reason);
  clearInterval(look);
  coming.hidden = true;
  failed.hidden = false;
}
addEventListener('unhandledrejection', event => fail(event.reason));
addEventListener('error', event => { if (event instanceof ErrorEvent) fail(event.message); });
addEventListener('DOMContentLoaded', () => window.Blazor ? window.Blazor.start().catch(fail) : fail('The program did not come.'));

// Registered when the page stands, so that keeping the files does not slow the first visit. A new version is asked for by name: browsers
// leave it until much later.
if ('serviceWorker' in navigator) addEventListener('load', async () => {
  const worker = await navigator.serviceWorker.register('service-worker.js', { updateViaCache: 'none' }).catch(() => null);
  if (!worker) return; // This browser keeps no programs: the walk works while there is signal.
  const ask = () => worker.update().catch(() => { /* no signal */ });
  ask();
  document.addEventListener('visibilitychange', () => { if (document.visibilityState === 'visible') ask(); });
});
