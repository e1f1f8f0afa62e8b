// The walk without signal: every file of it is kept at the first visit and served from there; data never passes through here.
self.importScripts('./service-worker-assets.js');
const name = 'walk-' + self.assetsManifest.version;
const without = /\.(pdb|map|symbols|br|gz)$|service-worker(-assets)?\.js$/;
// The list's addresses begin at the site's root ("walk/store.js"), not at this file.
const kept = self.assetsManifest.assets.filter(asset => !without.test(asset.url))
  .map(asset => ({ address: new URL('/' + asset.url, self.location).href, hash: asset.hash }));
// Type and colours are the site's own: one palette for both.
const fonts = ['alegreya-latin-500-italic', 'alegreya-latin-800-normal', 'source-sans-3-latin-500-normal', 'source-sans-3-latin-700-normal'];
const ofTheSite = ['/tokens.css',
  ...fonts.map(font => `/_content/CommonGround.Assets/lib/${font}.woff2`)].map(address => new URL(address, self.location).href);
const addresses = new Set([...kept.map(asset => asset.address), ...ofTheSite]);
const shell = new URL('index.html', self.location).href;
const neverChanges = address => /\.[a-z0-9]{10}\.\w+$/.test(address);

self.addEventListener('install', event => event.waitUntil((async () => {
  const cache = await caches.open(name);
  // A file whose name holds its fingerprint is taken over from the version before: an update fetches only what is new.
  await Promise.all(kept.map(async ({ address, hash }) => {
    const had = neverChanges(address) ? await caches.match(address, { ignoreVary: true }) : undefined;
    const answer = had ?? await fetch(address, { integrity: hash, cache: neverChanges(address) ? 'default' : 'no-cache' });
    if (!answer.ok) throw new Error(`${address} answered ${answer.status}`);
    await cache.put(address, answer);
  }));
  await cache.addAll(ofTheSite.map(address => new Request(address, { cache: 'no-cache' })));
})()));

self.addEventListener('activate', event => event.waitUntil((async () => {
  for (const key of await caches.keys()) if (key.startsWith('walk-') && key !== name) await caches.delete(key);
})()));

// A new version waits until every page of the walk is closed: nobody is in the middle of one then.
self.addEventListener('fetch', event => {
  if (event.request.method !== 'GET') return;
  const address = event.request.url.split(/[?#]/)[0];
  const page = event.request.mode === 'navigate' && !new URL(address).pathname.startsWith('/walk/data/');
  if (page || addresses.has(address)) event.respondWith((async () =>
    await (await caches.open(name)).match(page ? shell : address, { ignoreVary: true }) ?? fetch(event.request))());
});
