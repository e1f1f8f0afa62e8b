// What reading pages do beyond plain links and forms: links and forms marked data-here change the page in place, and a page marked data-refresh follows what
// others store. Without this file every page works still; each step then loads it anew.
const here = () => location.pathname + location.search;
let shown = here(), asked = 0, typing, playing;

// Brings a new page into the open one. What is the same stays, and so do focus, scroll, folds that were opened and a field that is being typed in.
function merge(old, fresh) {
  if (old.nodeType !== fresh.nodeType || old.nodeName !== fresh.nodeName) return old.replaceWith(fresh);
  if (old.nodeType !== Node.ELEMENT_NODE) { if (old.nodeValue !== fresh.nodeValue) old.nodeValue = fresh.nodeValue; return; }
  for (const { name } of [...old.attributes]) if (!fresh.hasAttribute(name) && name !== 'data-folded' && !(name === 'open' && old.nodeName === 'DETAILS')) old.removeAttribute(name);
  for (const { name, value } of fresh.attributes) if (old.getAttribute(name) !== value && !(name === 'open' && 'folded' in old.dataset)) old.setAttribute(name, value);
  const [left, right] = [[...old.childNodes], [...fresh.childNodes]];
  right.forEach((node, i) => left[i] ? merge(left[i], node) : old.append(node));
  left.slice(right.length).forEach(node => node.remove());
  if (old !== document.activeElement && ['INPUT', 'SELECT'].includes(old.nodeName)) [old.value, old.checked] = [fresh.value, fresh.checked];
}

// On a phone what is marked data-fold begins closed: its line says the answer. Live pages draw theirs later, so newcomers are folded as they come.
const narrow = matchMedia('(max-width: 720px) and (scripting: enabled)');
function fold() { if (narrow.matches) for (const one of document.querySelectorAll('details[data-fold]:not([data-folded])')) { one.open = false; one.dataset.folded = ''; } }
fold();
new MutationObserver(fold).observe(document.body, { subtree: true, childList: true });

// Every map, chart and table of a reading page can be taken along as a file, made of what the page shows: take.js is fetched for the first that is asked for.
const take = new URL(document.currentScript.dataset.take, document.baseURI).href, of = new WeakMap();
function offer() {
  document.querySelectorAll('.take').forEach(line => line.remove());
  if (!document.querySelector('main[data-interactive=no]')) return;
  for (const one of document.querySelectorAll('main svg.chart, main table')) {
    if (one.closest('td, th, summary, .key, [data-nosave]') || (one.nodeName === 'TABLE' && one.closest('form'))) continue;
    const chart = one.nodeName !== 'TABLE', line = document.createElement('p');
    line.className = 'take noprint';
    line.append(chart ? 'Save the picture: ' : 'Save the table: ');
    for (const kind of chart ? ['SVG', 'PNG'] : ['CSV']) {
      const button = document.createElement('button');
      [button.type, button.className, button.textContent] = ['button', 'link', kind];
      button.setAttribute('aria-label', `Save “${titleOf(one)}” as ${kind}`);
      button.dataset.take = kind;
      line.append(button);
    }
    of.set(line, one);
    const beside = one.closest('.scroll-x, .slider-track') ?? one;
    if (!beside.nextElementSibling?.matches('.take')) beside.after(line);
  }
}
const titleOf = one => (one.closest('section, figure, aside, details')?.querySelector('h2, h3') ?? document.querySelector('main h1')).textContent.trim();
async function taken(button) {
  const one = of.get(button.closest('.take')), pair = one.closest('.slider-track')?.querySelectorAll('svg.chart') ?? [one];
  await (await import(take)).save([...pair].find(p => p.checkVisibility()) ?? one, button.dataset.take, titleOf(one), document.getElementById('main').dataset.from);
}
offer();

async function show(address, keep) {
  const mine = ++asked;
  const answer = await fetch(address).catch(() => null);
  const text = await answer?.text().catch(() => null);
  if (mine !== asked || text == null || answer.status >= 500) return; // Overtaken, or the site is away: what stands here stands.
  const fresh = answer.ok && !answer.redirected && new DOMParser().parseFromString(text, 'text/html');
  // Not open to this reader any more, or something else than a page: the browser says so itself.
  if (!fresh || !fresh.getElementById('main')) return location.assign(address);
  if (keep) history[keep](null, '', address);
  shown = here();
  document.title = fresh.title;
  document.body.dataset.stamp = fresh.body.dataset.stamp;
  document.querySelector('.skip').href = shown + '#main';
  document.querySelectorAll('.take').forEach(line => line.remove());
  merge(document.getElementById('main'), fresh.getElementById('main'));
  offer();
  if (playing) document.querySelector('[data-replay]').textContent = 'Stop';
}

const addressOf = form => {
  const wanted = new URLSearchParams([...new FormData(form)].filter(([, value]) => value !== ''));
  return form.getAttribute('action') + (wanted.size ? '?' + wanted : '');
};

function replay(button) {
  const slider = button.closest('form').elements.half;
  let step = 0;
  if (playing) { clearInterval(playing); playing = null; button.textContent = 'Replay the year'; return; }
  const next = () => {
    if (step === 24) return replay(document.querySelector('[data-replay]'));
    slider.value = (Number(slider.dataset.from) + step++) % 24;
    show(addressOf(slider.form), 'replaceState');
  };
  playing = setInterval(next, 600);
  button.textContent = 'Stop';
  next();
}

// A sheet typed from paper: Enter and the arrows go down and up a column, whatever bed its rows stand in.
document.addEventListener('keydown', event => {
  const cell = event.target.closest?.('[data-tenkey] input[data-column]');
  if (!cell || !['Enter', 'ArrowDown', 'ArrowUp'].includes(event.key)) return;
  event.preventDefault();
  const column = [...document.querySelectorAll(`[data-tenkey] input[data-column="${cell.dataset.column}"]`)];
  const next = column[column.indexOf(cell) + (event.key === 'ArrowUp' ? -1 : 1)];
  next?.focus();
  next?.select();
});

document.addEventListener('click', event => {
  const link = event.target.closest('a[data-here]');
  if (link && !(event.ctrlKey || event.metaKey || event.shiftKey || event.altKey)) { event.preventDefault(); show(link.getAttribute('href'), 'pushState'); }
  if (event.target.closest('[data-print]')) print();
  if (event.target.closest('button[data-take]')) taken(event.target.closest('button[data-take]'));
  if (event.target.closest('[data-replay]')) replay(event.target.closest('[data-replay]'));
});
document.addEventListener('input', event => {
  if (!event.target.form?.matches('[data-here]')) return;
  if (playing) replay(document.querySelector('[data-replay]'));
  clearTimeout(typing);
  typing = setTimeout(() => show(addressOf(event.target.form), 'replaceState'), 120);
});
document.addEventListener('submit', event => {
  if (!event.target.matches('[data-here]')) return;
  event.preventDefault();
  clearTimeout(typing);
  show(addressOf(event.target), 'replaceState');
});
// A live page finds its own way back.
addEventListener('popstate', () => { if (here() !== shown && document.querySelector('main[data-interactive=no]')) show(here()); });

// One question at a time, held by the site until something was stored; a page that nobody looks at asks nothing.
let watching = false;
async function watch() {
  if (watching || !document.querySelector('[data-refresh]')) return;
  watching = true;
  while (!document.hidden) {
    const answer = await fetch('/changes?since=' + document.body.dataset.stamp).catch(() => null);
    if (answer?.status === 200) { if (!document.hidden) await show(here()); }
    else if (answer?.status !== 204) await new Promise(again => setTimeout(again, answer?.status === 429 ? 60000 : 3000));
  }
  watching = false;
}
document.addEventListener('visibilitychange', watch);
watch();
