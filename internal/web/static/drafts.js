// What is typed into a form stays on this device until it is sent, for a day at most, and is offered when the form is shown again: after a reload,
// a tablet that went off, or signing in again. Passwords, PINs, files and hidden fields are never kept.
const PREFIX = 'kettlefrost-draft-';
const MOST = 40, MOST_BYTES = 64 * 1024, LONGEST_MS = 24 * 3600 * 1000, CALM_MS = 400;
const word = (id, otherwise) => document.getElementById('w-' + id)?.textContent || otherwise;
const who = () => document.querySelector('header .who strong')?.textContent ?? '';

const typed = e => e.name && !e.disabled && !['hidden', 'password', 'file', 'submit', 'button', 'image', 'reset'].includes(e.type) && !/pin|password/i.test(e.name) && e.tagName !== 'BUTTON' && e.tagName !== 'FIELDSET' && e.tagName !== 'OUTPUT';
// apart are forms without drafts: those that ask, that have drafts of their own, or that carry along what another form sent.
const apart = form => form.method !== 'post' || form.elements.namedItem('draft') !== null || 'draft' in form.dataset || 'noDraft' in form.dataset || /^\/(sign-in|sign-out|person|people|keys|devices|device|undo)\b/.test(new URL(form.getAttribute('action') || location.href, location.href).pathname);
const fieldsOf = form => [...form.elements].filter(typed);

// nameOf tells forms apart: by where they go, the hidden fields that say what they are about, and what they ask.
function nameOf(form) {
  const to = new URL(form.getAttribute('action') || location.href, location.href);
  const about = [...form.elements].filter(e => e.type === 'hidden' && !['entry', 'draft', 'back', 'did'].includes(e.name) && !/^[0-9a-f]{16,}|^\d{12,}$/.test(e.value)).map(e => e.name + '=' + e.value);
  const asks = [...new Set(fieldsOf(form).map(e => e.name))];
  return (to.pathname + '|' + about.sort().join('&') + '|' + hash(asks.join('\n'))).slice(0, 380);
}

function hash(text) {
  let h = 5381;
  for (const c of text) h = (h * 33 ^ c.codePointAt(0)) >>> 0;
  return h.toString(36);
}

// stateOf is what a form holds: name, which of that name, and value or whether it is chosen.
function stateOf(form) {
  const seen = {};
  return fieldsOf(form).map(e => {
    const nth = seen[e.name] = (seen[e.name] ?? -1) + 1;
    const picks = e.type === 'checkbox' || e.type === 'radio';
    return {e, name: e.name, nth, value: picks ? e.checked : e.value, was: picks ? e.defaultChecked : e.tagName === 'SELECT' ? ([...e.options].find(o => o.defaultSelected) ?? e.options[0])?.value : e.defaultValue};
  });
}

const read = key => { try { return JSON.parse(localStorage.getItem(key)); } catch { return null; } };
export const drafts = () => Object.keys(localStorage).filter(k => k.startsWith(PREFIX)).map(key => ({key, ...read(key)})).filter(d => d.fields).sort((a, b) => b.at - a.at);

function keep(form) {
  const key = PREFIX + nameOf(form);
  const changed = stateOf(form).filter(f => f.value !== f.was).map(({name, nth, value}) => [name, nth, value]);
  if (!changed.length) { if (!offers.has(form)) localStorage.removeItem(key); return; }
  const text = JSON.stringify({at: Date.now(), who: who(), page: location.pathname + location.search, title: document.title, fields: changed});
  if (text.length > MOST_BYTES) return;
  try { localStorage.setItem(key, text); } catch { /* a full device: the page still works */ }
}

function tidy() {
  const all = drafts();
  for (const [i, d] of all.entries()) if (i >= MOST || Date.now() - d.at > LONGEST_MS) localStorage.removeItem(d.key);
}

// What was taken is no draft any more: the server says its name in a cookie.
function forgetSent() {
  const name = document.cookie.split('; ').find(c => c.startsWith('kettlefrost-sent='))?.slice('kettlefrost-sent='.length);
  if (!name) return;
  localStorage.removeItem(PREFIX + decodeURIComponent(name.replaceAll('+', ' ')));
  document.cookie = 'kettlefrost-sent=; Path=/; Max-Age=0; SameSite=Strict';
}

const offers = new Map();
function offer(form) {
  if (apart(form) || offers.has(form)) return;
  const key = PREFIX + nameOf(form), draft = read(key);
  if (!draft?.fields || draft.who && who() && draft.who !== who()) return;
  const now = stateOf(form), missing = draft.fields.filter(([name, nth, value]) => now.find(f => f.name === name && f.nth === nth && f.value !== value));
  if (!missing.length) return;
  const box = document.createElement('div');
  box.className = 'draftoffer';
  box.setAttribute('role', 'status');
  const text = document.createElement('p');
  text.textContent = word('typed', 'Typed here at # and not sent.').replace('#', new Date(draft.at).toLocaleTimeString(document.documentElement.lang || 'en', {hour: '2-digit', minute: '2-digit', hourCycle: 'h23'}));
  const end = () => { box.remove(); offers.delete(form); };
  const button = (says, cls, press) => { const b = document.createElement('button'); b.type = 'button'; b.textContent = says; b.className = cls; b.addEventListener('click', press); return b; };
  box.append(text, button(word('put-back', 'Put it back'), 'putback', () => {
    for (const [name, nth, value] of missing) {
      const e = now.find(f => f.name === name && f.nth === nth).e;
      if (typeof value === 'boolean') e.checked = value; else e.value = value;
    }
    missing.forEach(([name, nth]) => now.find(f => f.name === name && f.nth === nth).e.dispatchEvent(new Event('input', {bubbles: true})));
    end();
  }), button(word('throw', 'Throw it away'), 'quiet', () => { localStorage.removeItem(key); end(); }));
  offers.set(form, box);
  form.closest('details')?.setAttribute('open', '');
  form.before(box);
}

let timer = 0;
const waiting = new Set();
function flush() { clearTimeout(timer); for (const form of waiting) if (form.isConnected) keep(form); waiting.clear(); }
function heard(e) {
  const form = e.target.form;
  if (!form || apart(form) || !typed(e.target)) return;
  waiting.add(form);
  clearTimeout(timer);
  timer = setTimeout(flush, CALM_MS);
}
document.addEventListener('input', heard);
document.addEventListener('change', heard);
addEventListener('pagehide', flush);
document.addEventListener('visibilitychange', () => { if (document.hidden) flush(); });

document.addEventListener('formdata', e => { if (!apart(e.target)) e.formData.set('draft', nameOf(e.target)); });
document.addEventListener('submit', e => {
  flush();
  if (e.target.dataset.queue) { localStorage.removeItem(PREFIX + nameOf(e.target)); waiting.delete(e.target); } // the queue keeps it now
  if (e.target.getAttribute('action') === '/sign-out') for (const d of drafts()) localStorage.removeItem(d.key);
}, {capture: true});

const offerAll = () => document.querySelectorAll('form').forEach(offer);
tidy();
forgetSent();
offerAll();
document.addEventListener('board-shown', offerAll);
document.addEventListener('htmx:after:swap', offerAll);
addEventListener('pageshow', e => { if (e.persisted) { forgetSent(); offerAll(); } });
