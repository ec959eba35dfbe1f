// What was looked at last, kept on this device and sent nowhere. Somebody else who acts here, and whoever signs out, leaves nothing behind.
const KEY = 'kettlefrost-recents', MOST = 12;
const who = document.querySelector('header .who strong')?.textContent ?? '';

function read() {
  try {
    const kept = JSON.parse(localStorage.getItem(KEY));
    return kept?.who === who && Array.isArray(kept.all) ? kept.all.filter(x => x.url?.startsWith('/') && !x.url.startsWith('//') && x.name && x.kind) : [];
  } catch {
    return [];
  }
}

const main = document.getElementById('main');
const found = (performance.getEntriesByType('navigation')[0]?.responseStatus ?? 200) === 200;
if (location.pathname === '/sign-in') localStorage.removeItem(KEY);
else if (main?.dataset.thing && found) {
  const it = {url: main.dataset.thing, name: main.dataset.name, kind: main.dataset.label};
  localStorage.setItem(KEY, JSON.stringify({who, all: [it, ...read().filter(x => x.url !== it.url)].slice(0, MOST)}));
}
document.addEventListener('submit', e => { if (e.target.getAttribute('action') === '/sign-out') localStorage.removeItem(KEY); });

const box = document.getElementById('recents');
if (box) {
  const all = read(), list = box.querySelector('ul');
  for (const x of all) {
    const row = document.createElement('li'), link = document.createElement('a'), name = document.createElement('b'), kind = document.createElement('small');
    link.className = 'reach';
    link.href = x.url;
    name.textContent = x.name;
    kind.textContent = x.kind;
    link.append(name, ' ', kind);
    row.append(link);
    list.append(row);
  }
  box.hidden = all.length === 0;
  box.querySelector('[data-forget]').addEventListener('click', () => { localStorage.removeItem(KEY); box.hidden = true; });
}
