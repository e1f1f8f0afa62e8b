// A map, a chart or a table of the open page as a file. Nothing is asked of the site: the file holds what this reader sees, and no more.
const drawn = ['fill', 'stroke', 'stroke-width', 'stroke-dasharray', 'stroke-linecap', 'stroke-linejoin', 'fill-opacity', 'stroke-opacity', 'opacity', 'paint-order'];
const written = ['font-family', 'font-size', 'font-weight', 'font-style', 'text-anchor', 'letter-spacing', 'font-variant-numeric'];
const plain = { fill: 'rgb(0, 0, 0)', stroke: 'none', 'stroke-width': '1px', 'stroke-dasharray': 'none', 'stroke-linecap': 'butt', 'stroke-linejoin': 'miter', 'fill-opacity': '1', 'stroke-opacity': '1', opacity: '1', 'paint-order': 'normal', 'text-anchor': 'start', 'letter-spacing': 'normal', 'font-style': 'normal', 'font-variant-numeric': 'normal' };
const svgNames = 'http://www.w3.org/2000/svg', foot = 30;

export async function save(one, kind, title, from) {
  const name = [title, from.replace(/^invented demo data, /, 'demo ')].join(' ').toLowerCase().normalize('NFD').replace(/[^a-z0-9]+/g, '-').replace(/^-+|-+$/g, '').slice(0, 90);
  const blob = kind === 'CSV' ? csv(one) : kind === 'SVG' ? await svg(one, title, from) : await png(await svg(one, title, from));
  const link = document.createElement('a');
  link.href = URL.createObjectURL(blob);
  link.download = `${name}.${kind.toLowerCase()}`;
  link.click();
  setTimeout(() => URL.revokeObjectURL(link.href), 60000);
}

// RFC 4180. A picture in a cell gives its words; a cell that a spreadsheet would run as a formula gets an apostrophe before it.
const words = cell => {
  const copy = cell.cloneNode(true);
  copy.querySelectorAll('svg[aria-label], img[alt]').forEach(p => p.replaceWith(` ${p.getAttribute('aria-label') ?? p.getAttribute('alt')} `));
  copy.querySelectorAll('br, .latin, small, .small').forEach(p => p.nodeName === 'BR' ? p.replaceWith(' ') : p.before(' '));
  copy.querySelectorAll('.take, .noprint:not(td):not(th)').forEach(p => p.remove());
  const text = copy.textContent.replace(/\s+/g, ' ').trim();
  if (/^[−-]?\d{1,3}(,\d{3})*(\.\d+)?$/.test(text)) return text.replace('−', '-').replaceAll(',', '');
  return text === '–' ? '' : /^[=+@-]/.test(text) ? `'${text}` : text;
};
function csv(table) {
  // What is not printed is not taken along either.
  const rows = [...table.rows].filter(row => !row.matches('.noprint')).map(row => [...row.cells].flatMap(cell => [words(cell), ...Array(cell.colSpan - 1).fill('')]));
  const field = text => /[",\r\n]/.test(text) ? `"${text.replaceAll('"', '""')}"` : text;
  return new Blob(['\uFEFF', rows.map(row => row.map(field).join(',') + '\r\n').join('')], { type: 'text/csv;charset=utf-8' });
}

// Always in the light colours, as on paper, with every style written into the file and the faces of its words inside it.
async function svg(chart, title, from) {
  const dark = [...document.querySelectorAll('link[rel=stylesheet]')].filter(l => /dark[^/]*\.css/.test(l.href)), media = dark.map(l => l.media);
  const theme = document.documentElement.getAttribute('data-theme');
  dark.forEach(l => { l.media = 'not all'; });
  document.documentElement.setAttribute('data-theme', 'light');
  let copy, faces = new Set();
  try { copy = styled(chart, faces); } finally {
    dark.forEach((l, i) => { l.media = media[i]; });
    theme === null ? document.documentElement.removeAttribute('data-theme') : document.documentElement.setAttribute('data-theme', theme);
  }
  const [, , width, height] = chart.getAttribute('viewBox').split(/\s+/).map(Number);
  const root = document.createElementNS(svgNames, 'svg');
  for (const [key, value] of Object.entries({ width, height: height + foot, viewBox: `0 0 ${width} ${height + foot}`, role: 'img' })) root.setAttribute(key, value);
  const [name, words, ground, line] = ['title', 'desc', 'rect', 'text'].map(kind => document.createElementNS(svgNames, kind));
  [name.textContent, words.textContent] = [title, chart.getAttribute('aria-label') ?? title];
  for (const [key, value] of Object.entries({ width, height: height + foot, fill: '#FFFFFF' })) ground.setAttribute(key, value);
  for (const [key, value] of Object.entries({ x: 2, y: height + foot - 8, fill: '#464F44', 'font-size': width < 500 ? 9.5 : 12, 'font-family': getComputedStyle(document.body).fontFamily })) line.setAttribute(key, value);
  faces.add(key(getComputedStyle(document.body)));
  line.textContent = `${title} · ${from}`;
  const style = document.createElementNS(svgNames, 'style');
  style.textContent = await embedded(faces);
  root.append(name, words, style, ground, ...copy.childNodes, line);
  return new Blob(['<?xml version="1.0" encoding="UTF-8"?>\n', new XMLSerializer().serializeToString(root)], { type: 'image/svg+xml' });
}

const family = list => list.split(',')[0].trim().replaceAll('"', '');
const key = look => `${family(look.fontFamily)}|${look.fontStyle}`;
function styled(chart, faces) {
  const copy = chart.cloneNode(true), [from, to] = [[...chart.querySelectorAll('*')], [...copy.querySelectorAll('*')]];
  from.forEach((element, i) => {
    const look = getComputedStyle(element), text = ['text', 'tspan'].includes(element.nodeName);
    if (text) faces.add(key(look));
    for (const name of text ? [...drawn, ...written] : drawn) {
      const value = look.getPropertyValue(name);
      if (value && (value !== plain[name] || (name === 'fill' && element.nodeName === 'path'))) to[i].setAttribute(name, value);
    }
    for (const name of ['class', 'style', 'data-here', 'href', 'aria-current', 'aria-label', 'tabindex']) to[i].removeAttribute(name);
  });
  copy.querySelectorAll('image').forEach(tile => tile.remove()); // The tiles below a map are somebody else's.
  copy.querySelectorAll('a').forEach(link => link.replaceWith(...link.childNodes));
  return copy;
}

async function embedded(faces) {
  const rules = [...document.styleSheets].filter(sheet => sheet.href?.startsWith(location.origin)).flatMap(sheet => [...sheet.cssRules].map(rule => [rule, sheet.href])).filter(([rule]) => rule instanceof CSSFontFaceRule);
  const wanted = rules.filter(([rule]) => faces.has(`${family(rule.style.fontFamily)}|${rule.style.fontStyle || 'normal'}`));
  return (await Promise.all(wanted.map(async ([rule, base]) => {
    const address = /url\("?([^")]+)"?\)/.exec(rule.style.src)?.[1];
    const answer = address && await fetch(new URL(address, base)).catch(() => null);
    if (!answer?.ok) return '';
    const bytes = new Uint8Array(await answer.arrayBuffer());
    const text = btoa(Array.from(bytes, b => String.fromCharCode(b)).join(''));
    return rule.cssText.replace(/src:[^;]+;/, `src: url("data:font/woff2;base64,${text}") format("woff2");`);
  }))).join('\n');
}

// Twice as fine as on the screen, drawn by the browser.
async function png(picture) {
  const address = URL.createObjectURL(picture), image = new Image();
  try {
    image.src = address;
    await image.decode();
    const canvas = document.createElement('canvas');
    [canvas.width, canvas.height] = [image.naturalWidth * 2, image.naturalHeight * 2];
    canvas.getContext('2d').drawImage(image, 0, 0, canvas.width, canvas.height);
    return await new Promise(done => canvas.toBlob(done, 'image/png'));
  } finally { URL.revokeObjectURL(address); }
}
