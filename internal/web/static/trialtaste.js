// What a taster has touched stays on the device until it is sent: a tablet that sleeps, or a page that is left, loses no points.
'use strict';
(() => {
  const form = document.querySelector('form[data-draft]');
  if (!form) return;
  const key = form.dataset.draft;
  const told = document.querySelector('.trial-draft');
  const saved = () => { try { return JSON.parse(localStorage.getItem(key)) || {}; } catch { return {}; } };
  const isOurs = name => name.startsWith('p.') || name.startsWith('note.');

  function keep() {
    const fields = {};
    for (const [name, value] of new FormData(form)) if (isOurs(name) && value !== '') fields[name] = value;
    try { localStorage.setItem(key, JSON.stringify(fields)); } catch { /* a full device: the page still works */ }
  }

  function restore() {
    let back = 0;
    for (const [name, value] of Object.entries(saved())) {
      const inputs = form.querySelectorAll(`[name="${CSS.escape(name)}"]`);
      for (const input of inputs) {
        if (input.type === 'radio' ? input.value === value && !input.checked : input.value !== value) {
          if (input.type === 'radio') input.checked = true; else input.value = value;
          back++;
        }
      }
    }
    told.hidden = back === 0;
  }

  // An address that tells what was entered follows on a form that was taken in: what was sent is no draft any more.
  const sent = sessionStorage.getItem('kettlefrost-taste-sent');
  if (sent && new URLSearchParams(location.search).has('did')) localStorage.removeItem(sent);
  sessionStorage.removeItem('kettlefrost-taste-sent');
  restore();
  form.addEventListener('input', keep);
  form.addEventListener('change', keep);
  form.addEventListener('submit', () => sessionStorage.setItem('kettlefrost-taste-sent', key));
  told.querySelector('[data-forget]').addEventListener('click', () => { localStorage.removeItem(key); form.reset(); told.hidden = true; });
})();
