// Between the pages and the network: what was seen last is kept for when there is none, and says from when it is. A new worker takes over without
// loading any page again: pages always come from the network first, so nothing changes under somebody's hands.
const KEPT = 'kettlefrost-kept-1', MADE = 'kettlefrost-shell-' + VERSION;
const PATIENCE_MS = 6000, MOST_KEPT = 80, OLDEST_MS = 3 * 24 * 3600 * 1000;
const AT = 'X-Kettlefrost-At', IS_KEPT = 'X-Kettlefrost-Kept';
const OFFLINE = '/offline';

// Pages that are kept, with their drawings: the board, today, and what a cook reads of a run. Money and people are never among them.
const PAGES = /^\/$|^\/board(\/[^/]+(\/task)?)?$|^\/run\/[^/]+(\/(day|day\/sheet|next|cook|chill|freeze|cards))?$/;
const DRAWN = /^\/run\/[^/]+\/(day\.svg|timeline\.svg|(masses|cooling|freezing|heating|equipment)\/.+\.svg)$/;
const ENDS = ['/sign-out', '/sign-in', '/person']; // who acts changes: what one saw is not for the next

self.addEventListener('install', e => {
  self.skipWaiting();
  e.waitUntil((async () => (await caches.open(MADE)).addAll([...SHELL, OFFLINE].map(url => new Request(url, {cache: 'no-cache'}))))());
});

self.addEventListener('activate', e => e.waitUntil((async () => {
  for (const name of await caches.keys()) if (name.startsWith('kettlefrost-') && name !== KEPT && name !== MADE) await caches.delete(name);
  await self.clients.claim();
})()));

self.addEventListener('fetch', e => {
  const url = new URL(e.request.url);
  if (url.origin !== location.origin) return;
  if (e.request.method === 'POST') {
    if (ENDS.includes(url.pathname)) e.waitUntil(caches.delete(KEPT));
    return;
  }
  if (e.request.method !== 'GET') return;
  if (url.pathname.startsWith('/static/')) e.respondWith(shell(e.request));
  else if (PAGES.test(url.pathname) && e.request.headers.get('Accept') !== 'application/json' || DRAWN.test(url.pathname)) e.respondWith(page(e));
  else if (e.request.mode === 'navigate') e.respondWith(other(e.request));
});

const keyOf = url => { const u = new URL(url); u.searchParams.delete('did'); u.hash = ''; return u.href; };

// shell is what pages are made of: as it is now, or as it was when this worker came.
async function shell(request) {
  try {
    return await fetch(request, {signal: AbortSignal.timeout(PATIENCE_MS)});
  } catch (trouble) {
    const made = await caches.open(MADE), last = await made.match(request.url, {ignoreVary: true, ignoreSearch: true});
    if (last) return last;
    const styles = '/static/all-'; // of a page that was kept before these came: those of now will do
    const other = new URL(request.url).pathname.startsWith(styles) && (await made.keys()).find(k => new URL(k.url).pathname.startsWith(styles));
    if (other) return made.match(other, {ignoreVary: true});
    throw trouble;
  }
}

// page is a page that is kept when it comes, and read from what is kept when it does not.
async function page(e) {
  const key = keyOf(e.request.url);
  try {
    const response = await (e.request.mode === 'navigate' ? patient(e.request) : fetch(e.request));
    if (response.status === 200 && !response.redirected && response.type === 'basic') e.waitUntil(put(key, response.clone()));
    return response;
  } catch (trouble) {
    const last = await lastSeen(key);
    if (last) return last;
    if (e.request.mode === 'navigate') return nothing();
    throw trouble;
  }
}

// patient waits for a page only so long, if there is a kept one to show instead.
async function patient(request) {
  const key = keyOf(request.url);
  if (!await (await caches.open(KEPT)).match(key, {ignoreVary: true})) return fetch(request);
  return Promise.race([fetch(request), new Promise((_, no) => setTimeout(() => no(new Error('no answer in time')), PATIENCE_MS))]);
}

async function other(request) {
  try {
    return await fetch(request);
  } catch {
    return nothing();
  }
}

async function nothing() {
  const offline = await (await caches.open(MADE)).match(OFFLINE, {ignoreVary: true});
  return offline ?? Response.error();
}

async function put(key, response) {
  const headers = new Headers(response.headers);
  headers.set(AT, Date.now());
  headers.delete('Content-Encoding');
  headers.delete('Content-Length');
  const kept = await caches.open(KEPT);
  await kept.delete(key, {ignoreVary: true}); // what was seen last stands last
  await kept.put(key, new Response(await response.blob(), {status: 200, headers}));
  const all = await kept.keys();
  for (const old of all.slice(0, Math.max(0, all.length - MOST_KEPT))) await kept.delete(old, {ignoreVary: true});
}

// lastSeen is a page as it was, which says so. What is too old to be of use is not shown.
async function lastSeen(key) {
  const kept = await caches.open(KEPT);
  const last = await kept.match(key, {ignoreVary: true}) ?? await kept.match(key, {ignoreVary: true, ignoreSearch: true});
  if (!last) return null;
  const at = Number(last.headers.get(AT));
  if (Date.now() - at > OLDEST_MS) { await kept.delete(key, {ignoreVary: true}); return null; }
  const headers = new Headers(last.headers);
  headers.set(IS_KEPT, '1');
  if (!headers.get('Content-Type')?.startsWith('text/html')) return new Response(last.body, {status: 200, headers});
  return new Response(marked(await last.text(), at), {status: 200, headers});
}

// marked is a page with a line at its head that says from when it is, in the words that the page itself brings.
function marked(html, at) {
  const word = (id, otherwise) => html.match(new RegExp(`<li id="w-${id}">([^<]*)</li>`))?.[1] ?? otherwise;
  const lang = html.match(/<html[^>]* lang="([\w-]+)"/)?.[1] ?? 'en';
  const day = new Date(at), today = day.toDateString() === new Date().toDateString();
  const when = day.toLocaleTimeString(lang, {hour: '2-digit', minute: '2-digit', hourCycle: 'h23'}) + (today ? '' : ', ' + day.toLocaleDateString(lang, {weekday: 'long', day: 'numeric', month: 'long'}));
  const line = `<p class="asof" id="asof" role="status"><span class="sign" aria-hidden="true">▲</span> ${word('as-of', 'No network. This is how it was at # and may have changed.').replace('#', `<b>${when}</b>`)} <a href="${OFFLINE}">${word('kept-list', 'What this device keeps')}</a></p>`;
  return html.replace(/<meta http-equiv="refresh"[^>]*>/, '').replace('<html ', `<html data-kept="${at}" `).replace('<div id="board"', '<div id="board" data-kept').replace('<main id="main"', line + '<main id="main"');
}
