// What was touched and typed in a form stays on the device until it is sent: a tablet that sleeps, or a page that is left, loses nothing.
'use strict';
(() => {
  // An address that tells what was entered follows on a form that was taken in: what was sent is no draft any more.
  const sent = sessionStorage.getItem('kettlefrost-trial-sent');
  if (sent && new URLSearchParams(location.search).has('did')) localStorage.removeItem(sent);
  sessionStorage.removeItem('kettlefrost-trial-sent');

  const form = document.querySelector('form[data-draft]');
  if (!form) return;
  const key = form.dataset.draft;
  const told = document.querySelector('.trial-draft');
  const saved = () => { try { return JSON.parse(localStorage.getItem(key)) || {}; } catch { return {}; } };
  const ours = () => [...form.elements].filter(e => e.name && e.type !== 'hidden');

  function keep() {
    const fields = {};
    for (const e of ours()) if (e.type === 'radio' ? e.checked : e.value !== e.defaultValue) fields[e.name] = e.value;
    try { localStorage.setItem(key, JSON.stringify(fields)); } catch { /* a full device: the page still works */ }
  }

  function restore() {
    let back = 0;
    const fields = saved();
    for (const e of ours()) {
      const value = fields[e.name];
      if (value === undefined || (e.type === 'radio' ? e.value !== value || e.checked : e.value === value)) continue;
      if (e.type === 'radio') e.checked = true; else e.value = value;
      back++;
    }
    told.hidden = back === 0;
  }

  restore();
  form.addEventListener('input', keep);
  form.addEventListener('change', keep);
  form.addEventListener('submit', () => sessionStorage.setItem('kettlefrost-trial-sent', key));
  told.querySelector('[data-forget]').addEventListener('click', () => { localStorage.removeItem(key); form.reset(); told.hidden = true; });
})();
