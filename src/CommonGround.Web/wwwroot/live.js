// What a live page does when its connection is gone: says so, keeps what stands in the fields, lets the framework try again, offers to load anew.
const box = document.getElementById('components-reconnect-modal'), said = box.querySelector('[role=status]');
const store = 'typed:' + location.pathname, left = 'left:' + location.pathname, asking = 2500, every = 2000;
let gone = false, silent = false, telling = false, asked = 0;
const typed = new Map(), unsaid = new Map(), early = new Map([...readStore(left, performance.getEntriesByType('navigation')[0]?.type === 'reload'), ...readStore(store, true)]);
let lastTyped = '';

function readStore(name, isWanted) {
  try {
    const before = JSON.parse(sessionStorage.getItem(name) ?? '[]');
    sessionStorage.removeItem(name);
    return isWanted ? before : [];
  } catch { return []; /* storage is switched off */ }
}

const fieldsOf = () => [...document.querySelectorAll('main input:not([type=file], [type=hidden], [type=password]), main select, main textarea')];
const nameOf = field => field.getAttribute('aria-label') || [...field.labels ?? []].map(l => l.textContent.trim()).join(' ') || field.id;
const keyOf = field => { const name = nameOf(field); return name + ' #' + fieldsOf().filter(f => nameOf(f) === name).indexOf(field); };
const valueOf = field => ['checkbox', 'radio'].includes(field.type) ? field.checked : field.value;

function say(words) {
  if (said.textContent !== words) said.textContent = words;
  box.classList.toggle('away', words !== '');
}

function lost(words) {
  gone = true;
  say(words);
  try { sessionStorage.setItem(store, JSON.stringify([...typed])); } catch { /* storage is switched off: the fields still hold it */ }
}

// The server has not heard what was typed meanwhile: it is typed once more, field by field.
function tell(entries) {
  telling = true;
  for (const [key, value] of entries) {
    const field = fieldsOf().find(f => keyOf(f) === key);
    if (!field || field.disabled) continue;
    if (typeof value === 'boolean') { if (field.checked !== value) field.click(); continue; }
    field.value = value;
    field.dispatchEvent(new Event('input', { bubbles: true }));
    field.dispatchEvent(new Event('change', { bubbles: true }));
  }
  telling = false;
}

function back() {
  if (!gone) return;
  gone = silent = false;
  const kept = [...typed];
  typed.clear();
  sessionStorage.removeItem(store);
  say('');
  tell(kept);
}

const kept = 'What you typed is kept on this device.';
box.addEventListener('components-reconnect-state-changed', ({ detail }) => {
  if (detail.state === 'hide') back();
  else if (detail.state === 'failed') lost(`The site cannot be reached. ${kept} Try again when you have a connection.`);
  else if (detail.state === 'rejected' || detail.state === 'resume-failed') lost(`The site was restarted. ${kept} Load the page again to go on.`);
  else lost(`The connection is gone. ${kept} Trying again…`);
});
box.querySelector('[data-again]').addEventListener('click', async () => {
  if (silent) return ask();
  if (await window.Blazor?.reconnect().catch(() => true) === false) location.reload();
});
box.querySelector('[data-anew]').addEventListener('click', event => { event.preventDefault(); location.reload(); });
addEventListener('offline', () => { silent = true; lost(`This device is offline. ${kept}`); });
addEventListener('online', () => ask());

// A connection that was cut gives no sign: whoever types or presses something is told when the site does not answer.
async function ask() {
  asked = Date.now();
  const answer = await fetch('/health/live', { cache: 'no-store', signal: AbortSignal.timeout(asking) }).catch(() => null);
  if (answer && silent) back();
  else if (!answer && !gone) { silent = true; lost(`The site does not answer. ${kept} Trying again…`); }
  if (silent) setTimeout(ask, every);
}

for (const kind of ['input', 'change', 'click']) {
  addEventListener(kind, event => {
    if (telling || box.contains(event.target)) return;
    if (kind !== 'click' && event.target.matches?.('main :is(input:not([type=file]), select, textarea)')) {
      // Kept for the time it takes to find out that nobody listens, then as long as nobody does.
      const key = keyOf(event.target), value = valueOf(event.target);
      early.delete(key);
      kind === 'change' ? unsaid.delete(key) : unsaid.set(key, value);
      if (!isLive()) return keepEarly(event.target);
      typed.set(key, value);
      if (gone) lost(said.textContent);
      else setTimeout(() => { if (!gone && typed.get(key) === value) typed.delete(key); }, asking + every);
    }
    if (!silent && Date.now() - asked > every) ask();
  }, true);
}

// Whoever reloads while a field still holds the cursor, or before the site has heard of it, gets back what stood there: it is typed once
// more into the page that comes. Who leaves for another page does not.
addEventListener('pagehide', () => { try { if (unsaid.size || typed.size) sessionStorage.setItem(left, JSON.stringify([...typed, ...unsaid])); } catch { /* storage is switched off */ } });

// The page is shown before it is live, and its fields are then made anew: what was typed until then is typed once more, and so is what was
// typed before the page was loaded anew.
function isLive() { return document.querySelector('main[data-interactive=true]') !== null; }

function keepEarly(field) {
  early.set(keyOf(field), valueOf(field));
  if (field === document.activeElement) lastTyped = keyOf(field);
}

// While the fields are made anew there is none to type into: letters that fall into that moment belong to the one that was left.
addEventListener('keydown', event => {
  const value = early.get(lastTyped);
  if (typeof value !== 'string' || document.activeElement !== document.body || event.ctrlKey || event.metaKey || event.altKey) return;
  if (event.key.length === 1) early.set(lastTyped, value + event.key);
  else if (event.key === 'Backspace') early.set(lastTyped, value.slice(0, -1));
  else return;
  event.preventDefault();
}, true);

function tellEarly() {
  if (!isLive() || !early.size) return;
  const found = fieldsOf().filter(field => early.has(keyOf(field)) && !field.disabled).map(field => [keyOf(field), early.get(keyOf(field))]);
  if (!found.length) return;
  for (const [key] of found) early.delete(key);
  tell(found);
  holdPlace();
}

// Whoever was typing when the fields were made anew goes on typing.
function holdPlace() {
  const field = fieldsOf().find(f => keyOf(f) === lastTyped);
  if (!field || document.activeElement === field) return;
  field.focus();
  if (field.type === 'text') field.setSelectionRange(field.value.length, field.value.length);
}

// A page that becomes live puts the focus on its heading, on a slow connection late: whoever is in a field or on a button by
// then stays there.
addEventListener('focusin', event => {
  const left = event.relatedTarget;
  if (event.target.tagName === 'H1' && left?.isConnected && left.matches('main :is(input, select, textarea, button)')) left.focus();
});

for (const field of fieldsOf()) {
  const changed = field.matches('select') ? [...field.options].some(o => o.selected !== o.defaultSelected) && field.querySelector('[selected]')
    : ['checkbox', 'radio'].includes(field.type) ? field.checked !== field.defaultChecked : field.value !== field.defaultValue;
  if (changed && !isLive()) keepEarly(field);
}
new MutationObserver(tellEarly).observe(document.body, { subtree: true, childList: true, attributes: true, attributeFilter: ['data-interactive', 'disabled'] });
