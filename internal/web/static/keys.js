// Keys that lead somewhere, as the sheet of them on the page says. They do nothing while something is typed, and nothing where they are turned
// off: then the page has no sheet.
const sheet = document.getElementById('keysheet');

// A scanner types faster than anybody: what follows a key within this many ms is no key of ours. The second of two follows within the other.
const SCANNER = 60, PAIR = 1500;

const doing = {
  '/': () => {}, // find.js, which knows scanners, goes to the box
  '?': () => sheet.showModal(),
  n: () => document.querySelector('main a[rel~="next"]')?.click(),
  p: () => document.querySelector('main a[rel~="prev"]')?.click(),
  u: () => document.querySelector('#unitswitch [aria-pressed="false"]')?.click(),
};
const typing = e => e.closest?.('input, textarea, select, [contenteditable], dialog');

let first = '', at = -Infinity, wait;
function press(key, time) {
  const pair = first && time - at < PAIR ? first + ' ' + key : '';
  first = '';
  const to = [pair, key].map(k => k && sheet.querySelector(`[data-press="${CSS.escape(k)}"]`)).find(Boolean);
  if (to?.href) location.assign(to.href);
  else if (to) doing[to.dataset.press]?.();
  else if (sheet.querySelector(`[data-press^="${CSS.escape(key)} "]`)) first = key;
  at = time;
}

if (sheet) {
  let last = -Infinity;
  document.addEventListener('keydown', e => {
    if (e.key.length !== 1) return;
    const fast = e.timeStamp - last < SCANNER;
    last = e.timeStamp;
    clearTimeout(wait);
    if (fast || e.repeat || e.defaultPrevented || e.ctrlKey || e.metaKey || e.altKey || e.isComposing || typing(e.target)) { first = ''; return; }
    wait = setTimeout(() => press(e.key, e.timeStamp), SCANNER);
  });
}
