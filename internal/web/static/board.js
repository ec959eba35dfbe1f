// The board in the browser: it follows the others' entries, counts down, and rings.
'use strict';
(() => {
  const TICK_MS = 1000, STALE_MS = 700, RING_MS = 2500, ASLEEP_MS = 8000;
  const board = () => document.getElementById('board');
  let ahead = 0; // by how much this device's clock is ahead of the kitchen's
  let again = 0, fetching = null, wanted = false, news = null, ticked = Date.now();

  // clock compares this device's clock with the kitchen's; a page that was kept has an old time in it.
  function clock() {
    if ('kept' in board().dataset) { ahead = Number(localStorage.getItem('kettlefrost-ahead') ?? 0); return; }
    ahead = Date.now() - Number(board().dataset.now);
    localStorage.setItem('kettlefrost-ahead', ahead);
  }

  // refresh puts the board as it is now in place of the one that is shown. What is unfolded stays so.
  async function refresh() {
    if (fetching) { wanted = true; return; }
    fetching = new AbortController();
    wanted = false;
    clearTimeout(again);
    try {
      const response = await fetch(location.pathname + location.search, {headers: {Accept: 'text/html'}, signal: AbortSignal.any([fetching.signal, AbortSignal.timeout(15000)])});
      network(!response.headers.get('X-Kettlefrost-Kept'));
      if (!response.ok || response.headers.get('X-Kettlefrost-Kept')) return;
      const fresh = new DOMParser().parseFromString(await response.text(), 'text/html').getElementById('board');
      if (!fresh) return;
      const open = new Set([...board().querySelectorAll('details[open]')].map(nameOf));
      for (const d of fresh.querySelectorAll('details')) d.open = open.has(nameOf(d));
      if (board().contains(document.activeElement) && document.activeElement.matches('input, select')) { again = setTimeout(refresh, 5000); return; } // somebody is typing
      board().replaceWith(document.adoptNode(fresh));
      document.getElementById('asof')?.remove(); // it is as of now again
      clock();
      document.dispatchEvent(new Event('board-shown'));
      tick();
    } catch (trouble) {
      if (trouble.name !== 'AbortError') network(false); // the board stays as it is, and says so
    } finally {
      fetching = null;
      if (wanted) refresh();
      else if ('stale' in board().dataset) again = setTimeout(refresh, STALE_MS);
    }
  }

  const network = there => document.dispatchEvent(new CustomEvent('kettlefrost-network', {detail: there}));

  // awake catches up after the device slept or the page was left: what was asked for before is not waited for, and the news may have been cut
  // without a word.
  function awake() {
    fetching?.abort();
    tick();
    follow();
    refresh();
  }

  const nameOf = d => (d.closest('.column')?.querySelector('h2')?.textContent ?? '') + '|' + d.className + '|' + (d.querySelector('summary')?.textContent ?? '').replace(/\d+/g, '');

  function follow() {
    news?.close();
    news = new EventSource(board().dataset.events);
    news.onmessage = () => refresh();
  }

  // word is a text of the page, in its language, with something in the place of #.
  const word = (id, otherwise, put = '') => (document.getElementById('w-' + id)?.textContent || otherwise).replace('#', () => put);

  // left is the time that is left, as a clock counts it.
  function left(ms) {
    const s = Math.round(Math.abs(ms) / 1000), h = Math.floor(s / 3600), two = n => String(n).padStart(2, '0');
    const text = h ? `${h}:${two(Math.floor(s / 60) % 60)}:${two(s % 60)}` : `${Math.floor(s / 60)}:${two(s % 60)}`;
    return ms > 0 ? word('left', '# left', text) : s >= 60 ? word('up-for', 'TIME IS UP for #', text) : word('up', 'TIME IS UP');
  }

  function tick() {
    const slept = Date.now() - ticked > ASLEEP_MS;
    ticked = Date.now();
    if (slept && !document.hidden) { awake(); return; }
    const now = Date.now() - ahead;
    const due = [];
    for (const task of document.querySelectorAll('.job[data-due]')) {
      const rest = Number(task.dataset.due) - now;
      task.querySelector('.count').textContent = left(rest);
      task.classList.toggle('due', rest <= 0);
      if (rest <= 0 && !task.classList.contains('sent')) due.push(task);
    }
    ring(due);
  }

  // ring sounds, and says in large type, what is due; until somebody says that it was heard.
  const heard = () => new Set(JSON.parse(sessionStorage.getItem('kettlefrost-heard') ?? '[]'));
  let sound = null, rang = 0;
  function ring(due) {
    const quiet = heard();
    const loud = due.filter(t => !quiet.has(t.dataset.task + t.dataset.due));
    const names = [...new Set(loud.map(t => t.querySelector('.name').textContent.trim()))];
    document.title = (loud.length ? '(!) ' : '') + document.title.replace(/^\(!\) /, '');
    let box = document.getElementById('ring');
    if (!loud.length) { box?.remove(); return; }
    if (!box) {
      box = document.createElement('div');
      box.id = 'ring';
      box.className = 'ring';
      box.setAttribute('role', 'alert');
      const text = document.createElement('span'), button = document.createElement('button');
      button.type = 'button';
      button.textContent = word('heard', 'I heard it');
      button.addEventListener('click', () => {
        const all = heard();
        document.querySelectorAll('.job.due').forEach(t => all.add(t.dataset.task + t.dataset.due));
        sessionStorage.setItem('kettlefrost-heard', JSON.stringify([...all]));
        tick();
      });
      box.append(text, button);
      document.querySelector('.boardhead').after(box);
    }
    const says = '◷ ' + word('ring', 'Time is up: #', names.join(', '));
    if (box.firstChild.textContent !== says) box.firstChild.textContent = says;
    if (sound?.state === 'running' && Date.now() - rang > RING_MS) { rang = Date.now(); beep(); }
  }

  function beep() {
    for (const [at, hertz] of [[0, 880], [0.25, 660], [0.5, 880]]) {
      const tone = sound.createOscillator(), volume = sound.createGain();
      tone.frequency.value = hertz;
      volume.gain.setValueAtTime(0.3, sound.currentTime + at);
      volume.gain.exponentialRampToValueAtTime(0.001, sound.currentTime + at + 0.22);
      tone.connect(volume).connect(sound.destination);
      tone.start(sound.currentTime + at);
      tone.stop(sound.currentTime + at + 0.23);
    }
  }

  // A browser makes no sound before the page was touched.
  addEventListener('pointerdown', () => { sound ??= new AudioContext(); if (sound.state === 'suspended') sound.resume(); });
  document.addEventListener('board-sent', refresh);
  addEventListener('online', awake);
  addEventListener('pageshow', e => { if (e.persisted) awake(); });
  document.addEventListener('visibilitychange', () => { if (!document.hidden) awake(); });
  delete document.getElementById('main').dataset.every; // the board sees to itself
  clock();
  tick();
  setInterval(tick, TICK_MS);
  setInterval(refresh, 60000);
  follow();
  if ('stale' in board().dataset) again = setTimeout(refresh, STALE_MS);
})();
