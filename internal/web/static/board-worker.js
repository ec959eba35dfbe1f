// When there is no network, the board is shown as it was last seen. Only pages of the board and what they are made of are kept, and nothing
// is asked for that the page itself does not ask for.
'use strict';
const KEPT = 'kettlefrost-board-1';
const PATIENCE_MS = 4000;

const mine = url => url.origin === location.origin && (url.pathname === '/board' || url.pathname.startsWith('/board/') || url.pathname.startsWith('/static/'));

self.addEventListener('install', () => self.skipWaiting());
self.addEventListener('activate', e => e.waitUntil((async () => {
  for (const name of await caches.keys()) if (name !== KEPT) await caches.delete(name);
  await self.clients.claim();
})()));

self.addEventListener('fetch', e => {
  const url = new URL(e.request.url);
  if (e.request.method === 'GET' && mine(url) && !url.pathname.endsWith('.json')) e.respondWith(fetchOrKept(e.request));
});

async function fetchOrKept(request) {
  const kept = await caches.open(KEPT);
  try {
    const response = await fetch(request, {signal: AbortSignal.timeout(PATIENCE_MS)});
    if (response.ok && !response.redirected) await kept.put(request.url, response.clone());
    return response;
  } catch (trouble) {
    const last = await kept.match(request.url, {ignoreVary: true});
    if (!last) throw trouble;
    const headers = new Headers(last.headers);
    headers.set('X-Kettlefrost-Kept', '1');
    const page = headers.get('Content-Type')?.startsWith('text/html');
    const body = page ? (await last.text()).replace('<div id="board"', '<div id="board" data-kept') : last.body;
    return new Response(body, {status: last.status, headers});
  }
}
