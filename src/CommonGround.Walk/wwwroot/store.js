// What the phone keeps, in IndexedDB: shelves of texts, and of photos. A write is answered when the transaction is complete: by then it
// survives a closed page.
const shelves = ['taken', 'queue', 'walked', 'beside', 'photos'];
const opened = new Promise((done, failed) => {
  const asked = indexedDB.open('commonground-walk', 1);
  asked.onupgradeneeded = () => {
    for (const shelf of shelves) if (!asked.result.objectStoreNames.contains(shelf)) asked.result.createObjectStore(shelf);
  };
  asked.onsuccess = () => {
    // A newer page in another tab wants to change the shelves: let go, or it waits for ever.
    asked.result.onversionchange = () => asked.result.close();
    done(asked.result);
  };
  asked.onerror = () => failed(asked.error);
  asked.onblocked = () => failed(new Error('The walk is open in another tab: close it there.'));
});
const others = new BroadcastChannel('commonground-walk');
const told = () => others.postMessage('stored');

async function work(names, mode, ask) {
  const db = await opened;
  return new Promise((done, failed) => {
    const transaction = db.transaction(names, mode, { durability: 'strict' });
    const asked = ask(transaction);
    transaction.oncomplete = () => done(asked?.result ?? null);
    transaction.onabort = transaction.onerror = () => failed(transaction.error ?? new Error('The phone did not take it.'));
  });
}

const beginning = prefix => prefix ? IDBKeyRange.bound(prefix, prefix + '\uffff') : undefined;
export const read = (shelf, key) => work(shelf, 'readonly', t => t.objectStore(shelf).get(key));
export const all = (shelf, prefix) => work(shelf, 'readonly', t => t.objectStore(shelf).getAll(beginning(prefix)));

export async function write(entries) {
  await work([...new Set(entries.map(e => e[0]))], 'readwrite', t => {
    for (const [shelf, key, text] of entries) t.objectStore(shelf).put(text, key);
  });
  told();
}

export async function remove(entries) {
  if (entries.length === 0) return;
  await work([...new Set(entries.map(e => e[0]))], 'readwrite', t => {
    for (const [shelf, key] of entries) t.objectStore(shelf).delete(key);
  });
  told();
}

export const clear = (shelf, prefix) => work(shelf, 'readwrite', t => {
  prefix ? t.objectStore(shelf).delete(beginning(prefix)) : t.objectStore(shelf).clear();
});

// A signal that comes and goes may leave a question open for ever: after half a minute it counts as not answered, and is asked again later.
const patience = 30000;
const ask = (address, init) => fetch(address, { ...init, cache: 'no-store', signal: AbortSignal.timeout(patience) });

export async function get(address) {
  try {
    const answer = await ask(address);
    return { status: answer.status, text: await answer.text() };
  } catch { return { status: 0, text: '' }; }
}

// The proof that the walk's own page sends is fetched anew each time: the tap may lie days back, and somebody else may be signed in.
async function send(address, body, headers) {
  try {
    const proof = await ask('data/proof');
    if (proof.status !== 200) return { status: proof.status, text: '' };
    const answer = await ask(address, { method: 'POST', body, headers: { ...headers, RequestVerificationToken: await proof.text() } });
    return { status: answer.status, text: await answer.text() };
  } catch { return { status: 0, text: '' }; }
}

export const post = (address, body) => send(address, body, { 'content-type': 'application/json' });

export async function sendPhoto(key, batch) {
  const kept = await read('photos', key);
  if (!kept) return { status: 400, text: 'The photo is no longer on this phone.' };
  const form = new FormData();
  form.append('batch', batch);
  form.append('photo', kept, 'photo.jpg');
  return await send('data/photos', form, {});
}

export async function takeLines(shelf, prefix, address) {
  const answer = await get(address);
  if (answer.status !== 200) return false;
  const lines = answer.text.split('\n').filter(line => line);
  await work(shelf, 'readwrite', t => {
    const store = t.objectStore(shelf);
    store.delete(beginning(prefix));
    for (const line of lines) { const cut = line.indexOf('\t'); store.put(line.slice(cut + 1), line.slice(0, cut)); }
  });
  return true;
}

// Asked once there is something to keep: the browser then does not clear it when the disk is short.
export async function keepForGood() { await navigator.storage?.persist?.(); }

export async function keepPhoto(inputId, key) {
  const input = document.getElementById(inputId);
  const file = input?.files?.[0];
  if (!file) return { takenOn: '', problem: 'No photo was chosen.' };
  try {
    const { shrink } = await import('./photo.js');
    const { picture, takenOn } = await shrink(file);
    await work('photos', 'readwrite', t => { t.objectStore('photos').put(picture, key); });
    return { takenOn, problem: '' };
  } catch (problem) {
    const full = 'The phone is full: the photo was not kept. Free some space, then take it again.';
    return { takenOn: '', problem: problem?.name === 'QuotaExceededError' ? full : problem?.message ?? 'The photo could not be read.' };
  } finally {
    input.value = '';
  }
}

// What stands on the page, to be seen before the program runs the next time. Nothing in it can be pressed until then.
export function picture() {
  const app = document.getElementById('app');
  try { localStorage.setItem('walk picture ' + location.pathname, app.innerHTML); } catch { /* no room: the page opens without it */ }
}

// The browser's word that the signal is back does not always come (a page opened without signal may be told that it has some, and a site
// that was away tells nobody): while notes wait and somebody looks, the site is asked every few seconds whether it answers.
const again = 5000;
let listener;
export function listen(to) {
  if (listener) return;
  listener = to;
  const wake = byOtherTab => to.invokeMethodAsync('WokenAsync', byOtherTab).catch(() => { /* the page is going away */ });
  addEventListener('online', () => wake(false));
  addEventListener('offline', () => wake(false));
  document.addEventListener('visibilitychange', () => wake(false));
  others.addEventListener('message', () => wake(true));
  addEventListener('popstate', stepped);
  let asking = false;
  setInterval(async () => {
    if (asking || document.hidden || !document.querySelector('.net:not(.ok)')) return;
    asking = true;
    try { await ask('data/proof'); await wake(false); } catch { /* not yet */ } finally { asking = false; }
  }, again);
}

// The phone's Back button closes a sheet before it leaves the yard. One entry of the history stands for whatever sheet is open; left over
// when its sheet was closed by its own button, it is stepped over.
let stepAt = null;
export function step() {
  if (!history.state?.step) history.pushState({ ...history.state, step: true }, '');
  stepAt = location.pathname;
}
async function stepped() {
  const left = stepAt === location.pathname && !history.state?.step;
  stepAt = history.state?.step ? location.pathname : null;
  if (left && !await listener.invokeMethodAsync('BackAsync')) history.back();
}
