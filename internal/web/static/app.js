// The pages as an app: the worker that keeps them, a quiet line when the network is away, and installing.
import './sending.js';
import './drafts.js';

const word = (id, otherwise) => document.getElementById('w-' + id)?.textContent || otherwise;
const show = (id, on) => { const e = document.getElementById(id); if (e) e.hidden = !on; };

// Only an encrypted page, or one of this very computer, may have a worker.
const can = 'serviceWorker' in navigator;
show('app-none', false);
show('app-can', can);
show('app-cannot', !can);
if (can) navigator.serviceWorker.register('/worker.js').catch(() => { show('app-can', false); show('app-none', true); });

// A line says that the network is away. A page that was kept says so itself.
let line;
export function network(there) {
  if (there || document.getElementById('asof')) { line?.remove(); line = undefined; return; }
  if (line) return;
  line = document.createElement('p');
  line.className = 'asof';
  line.id = 'net';
  line.setAttribute('role', 'status');
  const sign = document.createElement('span');
  sign.className = 'sign';
  sign.setAttribute('aria-hidden', 'true');
  sign.textContent = '▲ ';
  line.append(sign, word('no-network', 'No network'));
  document.querySelector('header.top')?.after(line);
}
addEventListener('online', () => network(true));
addEventListener('offline', () => network(false));
document.addEventListener('kettlefrost-network', e => network(e.detail)); // of scripts that fetch by themselves
document.addEventListener('htmx:error', e => { if (e.detail?.error?.name !== 'AbortError') network(false); }); // one question takes the place of another
document.addEventListener('htmx:after:request', () => network(true));
if (!navigator.onLine) network(false);

let asked;
addEventListener('beforeinstallprompt', e => {
  asked = e;
  show('install', true);
});
document.getElementById('install')?.addEventListener('click', async () => {
  await asked?.prompt();
  show('install', false);
});
if (can && !matchMedia('(display-mode: standalone)').matches) show('install-how', true);
