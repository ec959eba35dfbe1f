// What this device keeps: pages to read, entries that wait, and what was typed.
import {drafts} from './drafts.js';
const list = (id, rows) => {
  document.getElementById(id).replaceChildren(...rows);
  document.getElementById(id + '-none')?.toggleAttribute('hidden', rows.length > 0);
};
const clock = ms => new Date(Number(ms)).toLocaleString(document.documentElement.lang || 'en', {weekday: 'short', hour: '2-digit', minute: '2-digit', hourCycle: 'h23'});
function row(href, name, small) {
  const li = document.createElement('li'), a = document.createElement('a'), s = document.createElement('small');
  a.href = href;
  a.className = 'see';
  a.textContent = name;
  s.textContent = ' ' + small;
  li.append(a, s);
  return li;
}

async function pages() {
  const rows = [], kept = 'caches' in globalThis ? await caches.open('kettlefrost-kept-1') : null;
  let board = '';
  for (const request of kept ? (await kept.keys()).reverse() : []) {
    const page = await kept.match(request, {ignoreVary: true}), url = new URL(request.url);
    if (!page?.headers.get('Content-Type')?.startsWith('text/html')) continue;
    const title = new DOMParser().parseFromString(await page.text(), 'text/html').title || url.pathname;
    rows.push(row(url.pathname + url.search, title, clock(page.headers.get('X-Kettlefrost-At'))));
    if (/^\/board\/[^/]+$/.test(url.pathname)) board ||= url.pathname + url.search;
  }
  list('kept-pages', rows);
  document.getElementById('kept-none').hidden = rows.length > 0;
  if (board) document.getElementById('last-board').href = board;
}

const waits = Object.keys(localStorage).filter(k => k.startsWith('kettlefrost-waiting-')).sort().map(k => JSON.parse(localStorage.getItem(k)));
list('queued', waits.map(i => row(i.page || i.url, i.label, clock(i.touched) + (i.why ? ': ' + i.why : ''))));
list('typed', drafts().map(d => row(d.page, d.title, clock(d.at))));
document.getElementById('again').addEventListener('click', () => location.pathname === '/offline' ? location.assign('/') : location.reload());
pages();
