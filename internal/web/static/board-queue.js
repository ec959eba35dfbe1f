// What is entered on a device waits here until the server has it. Each waiting form is one item of the browser's local storage, so that two
// tabs never overwrite each other; the number of its entry is drawn when the form is shown or sent, so that sending it twice enters it once.
'use strict';
(() => {
  const PREFIX = 'kettlefrost-waiting-';
  const RETRY_MS = 3000, AGAIN_MS = 1000;
  let sending = false, timer = 0, trouble = '', signIn = false;

  const items = () => Object.keys(localStorage).filter(k => k.startsWith(PREFIX)).sort().map(k => ({key: k, ...JSON.parse(localStorage.getItem(k))}));
  const put = (key, item) => { const {key: _, ...rest} = item; localStorage.setItem(key, JSON.stringify(rest)); };
  const draw = () => Array.from(crypto.getRandomValues(new Uint8Array(16)), b => b.toString(16).padStart(2, '0')).join('');

  // keyOf sorts by when it was touched; of the same millisecond, by how many waited before.
  let last = 0, count = 0;
  function keyOf(ms) {
    count = ms === last ? count + 1 : 0;
    last = ms;
    return PREFIX + String(ms).padStart(15, '0') + '-' + String(count).padStart(4, '0') + '-' + draw().slice(0, 8);
  }

  // pressed tells whether this is the same touch once more: a wet finger touches twice.
  const touches = new WeakMap();
  function pressed(form, fields, now) {
    const before = touches.get(form) ?? -Infinity;
    touches.set(form, now);
    const value = name => fields.find(f => f[0] === name)?.[1];
    const entry = fields.find(f => f[0] === 'entry');
    if (entry) entry[1] = draw();
    if (form.classList.contains('boardform')) return now - before < AGAIN_MS; // it may be filled in again
    return before > 0 && value('task') !== undefined || value('task') !== undefined && items().some(i => i.fields.some(f => f[0] === 'what' && f[1] === value('what')) && i.fields.some(f => f[0] === 'task' && f[1] === value('task')));
  }

  function add(form, label) {
    const fields = [...new FormData(form).entries()];
    const touched = Date.now();
    if (pressed(form, fields, touched)) return;
    put(keyOf(touched), {url: form.getAttribute('action'), fields, touched, label, by: who(), page: location.pathname + location.search, state: 'waits'});
    show();
    send();
  }

  const who = () => document.querySelector('[data-who]')?.dataset.who || '';

  async function send() {
    if (sending) return;
    sending = true;
    clearTimeout(timer);
    let took = false;
    try {
      for (const item of items()) {
        if (item.state !== 'waits') continue;
        if (!await sendOne(item)) { timer = setTimeout(send, RETRY_MS); break; }
        took = true;
      }
    } finally {
      sending = false;
      show();
    }
    if (took) document.dispatchEvent(new Event('board-sent'));
    if (!trouble && items().some(i => i.state === 'waits')) send();
  }

  // sendOne is false when the server could not be reached, or nobody is signed in: it is tried again, and what comes after it waits.
  async function sendOne(item) {
    const body = new URLSearchParams(item.fields);
    body.set('touched_ms', item.touched);
    body.set('sent_ms', Date.now());
    if (item.by) body.set('by', item.by);
    if (item.sure) body.set('sure', '1');
    let answer;
    try {
      const response = await fetch(item.url, {method: 'POST', body, headers: {Accept: 'application/json'}, redirect: 'error', signal: AbortSignal.timeout(15000)});
      answer = await response.json().catch(() => ({}));
      network(true);
      if (response.status >= 500) { trouble = answer.why || word('trouble', 'The kitchen’s computer has trouble.'); return false; }
      signIn = response.status === 401 && answer.state !== 'who';
      if (response.status === 401) { trouble = answer.why || answer.trouble || word('nobody', 'Nobody is signed in here. It is kept.'); if (answer.state === 'who' && Date.now() - last < 5000) askWho(); return false; }
      if (response.ok && !answer.state) { trouble = word('strange', 'Something else than the kitchen’s computer answered.'); return false; }
      if (response.status === 403) answer = {state: 'refused', why: answer.why || answer.trouble};
    } catch {
      trouble = word('away', 'No connection.');
      network(false);
      return false;
    }
    trouble = '';
    if (answer.state === 'taken') localStorage.removeItem(item.key);
    else put(item.key, {...item, state: answer.state || 'refused', why: answer.why || word('not-taken', 'It was not taken.')});
    return true;
  }

  // word is a text of the page, in its language, with something in the place of #.
  const word = (id, otherwise, put = '') => (document.getElementById('w-' + id)?.textContent || otherwise).replace('#', () => put);
  const several = (n, one, oneOtherwise, more, moreOtherwise) => n === 1 ? word(one, oneOtherwise) : word(more, moreOtherwise, n);

  const network = there => document.dispatchEvent(new CustomEvent('kettlefrost-network', {detail: there}));

  // askWho lets the server ask who acts here, as it does without this script: the first form is sent as an ordinary one.
  function askWho() {
    const item = items().find(i => i.state === 'waits');
    if (!item) return;
    const form = document.createElement('form');
    form.method = 'post';
    form.action = item.url;
    for (const [name, value] of item.fields) {
      const field = document.createElement('input');
      field.type = 'hidden';
      field.name = name;
      field.value = value;
      form.append(field);
    }
    document.body.append(form); // it stays in the queue until it is known to have come
    form.submit();
  }

  const element = (name, text, cls) => { const e = document.createElement(name); if (text) e.textContent = text; if (cls) e.className = cls; return e; };

  function button(text, press) {
    const b = element('button', text, 'quiet');
    b.type = 'button';
    b.addEventListener('click', press);
    return b;
  }

  // mend gives what was entered back to its form, as a draft that is offered there.
  function mend(item) {
    const seen = {}, name = item.fields.find(f => f[0] === 'draft')?.[1];
    const fields = item.fields.filter(f => !['what', 'task', 'entry', 'draft'].includes(f[0])).map(([n, v]) => [n, seen[n] = (seen[n] ?? -1) + 1, v]);
    if (name) localStorage.setItem('kettlefrost-draft-' + name, JSON.stringify({at: item.touched, who: item.by, page: item.page, title: item.label, fields}));
    localStorage.removeItem(item.key);
    location.assign(item.page);
  }

  // show says how many wait, marks their tasks, and lists what was refused until somebody decides.
  function show() {
    const all = items(), waiting = all.filter(i => i.state === 'waits'), odd = all.filter(i => i.state !== 'waits');
    const line = document.getElementById('line'), box = document.getElementById('wait');
    if (!line || !box) return;
    line.className = 'line' + (waiting.length && trouble || !navigator.onLine ? ' off' : '');
    line.textContent = waiting.length ? several(waiting.length, 'one-waits', '1 waits to be sent', 'more-wait', '# wait to be sent') + (trouble ? ': ' + trouble : '') : navigator.onLine ? '✓ ' + word('all-sent', 'all sent') : '▲ ' + word('off', 'no connection: what you enter is kept');
    box.replaceChildren();
    if (waiting.length && signIn) {
      const text = element('p', word('sign-in-first', 'What you entered is kept here and is sent when somebody is signed in again.') + ' '), link = element('a', word('sign-in', 'Sign in'), 'button');
      link.href = '/sign-in?' + new URLSearchParams({back: location.pathname + location.search});
      text.append(link);
      box.append(text);
    }
    if (odd.length) {
      const section = element('section', '', 'queue'), list = element('ol');
      section.append(element('h2', several(odd.length, 'one-odd', 'Not entered yet: decide', 'more-odd', '# not entered yet: decide')), list);
      for (const item of odd) {
        const row = element('li');
        row.append(element('b', item.label), element('p', (item.state === 'asks' ? '▲ ' : '■ ') + item.why, 'why'));
        row.append(button(item.state === 'asks' ? word('as-it-is', 'Enter it as it is') : word('again', 'Send it again'), () => { put(item.key, {...item, state: 'waits', sure: item.sure || item.state === 'asks', why: ''}); send(); show(); }));
        if (item.page && item.fields.some(f => !['what', 'task', 'entry', 'draft'].includes(f[0]) && f[1])) row.append(button(word('change', 'Change it'), () => mend(item)));
        row.append(button(word('throw-away', 'Throw it away'), () => { localStorage.removeItem(item.key); show(); }));
        list.append(row);
      }
      box.append(section);
    }
    for (const task of document.querySelectorAll('[data-task]')) {
      const mine = waiting.filter(i => i.fields.some(f => f[0] === 'task' && f[1] === task.dataset.task));
      task.classList.toggle('sent', mine.length > 0);
      task.querySelector('.pending')?.remove();
      if (mine.length) task.querySelector('.facts').append(element('p', '✓ ' + word('pending', '# – waits to be sent', mine.map(i => i.label).join('; ')), 'pending'));
    }
  }

  document.addEventListener('submit', e => {
    const form = e.target, label = form.dataset?.queue;
    if (!label) return;
    e.preventDefault();
    add(form, label);
    if (form.classList.contains('boardform')) {
      form.reset();
      form.closest('details')?.removeAttribute('open');
    }
  });
  addEventListener('online', () => { trouble = ''; send(); show(); });
  addEventListener('offline', show);
  addEventListener('storage', show);
  document.addEventListener('board-shown', show);
  window.kettlefrostWaiting = () => items().length;
  show();
  send();
})();
