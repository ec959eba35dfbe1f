// The screen stays on while something on the board is timed, if somebody wants it so and the device can. Where it cannot, nothing is asked.
const KEY = 'kettlefrost-screen-on';
const box = document.getElementById('screen-on');
let lock = null;

async function hold() {
  const wanted = box.checked && !document.hidden && document.querySelector('.job[data-due]') !== null;
  if (!wanted) { await lock?.release(); lock = null; return; }
  if (lock && !lock.released) return;
  try { lock = await navigator.wakeLock.request('screen'); } catch { lock = null; } // a low battery: the device decides
}

if (box && 'wakeLock' in navigator) {
  box.closest('[hidden]')?.removeAttribute('hidden');
  box.checked = localStorage.getItem(KEY) === '1';
  box.addEventListener('change', () => { localStorage.setItem(KEY, box.checked ? '1' : '0'); hold(); });
  document.addEventListener('visibilitychange', hold);
  document.addEventListener('board-shown', hold);
  hold();
}
