// A form that is being sent says so, and a second press does nothing: a wet finger presses twice. The server takes it once in any case.
const SLOW_MS = 8000, FILE_MS = 3000, LONGEST_MS = 60000;
const word = (id, otherwise) => document.getElementById('w-' + id)?.textContent || otherwise;
const sent = new Map(); // form: what to undo

function free(form) {
  const s = sent.get(form);
  if (!s) return;
  s.timers.forEach(clearTimeout);
  s.button?.removeAttribute('aria-busy');
  s.line?.remove();
  sent.delete(form);
}

function say(form, text) {
  const s = sent.get(form);
  if (!s) return;
  if (!s.line) {
    s.line = document.createElement('p');
    s.line.className = 'sending';
    s.line.setAttribute('role', 'status');
    form.append(s.line);
  }
  s.line.textContent = text;
}

addEventListener('submit', e => { // before anybody else hears of it
  if (!sent.has(e.target)) return;
  e.preventDefault();
  e.stopImmediatePropagation();
}, {capture: true});

addEventListener('submit', e => { // after everybody: who sends it another way has prevented this one
  const form = e.target;
  if (e.defaultPrevented || form.method !== 'post') return;
  const button = e.submitter ?? form.querySelector('[type=submit]');
  const s = {button, timers: []};
  sent.set(form, s);
  button?.setAttribute('aria-busy', 'true');
  if (form.hasAttribute('data-file')) { s.timers.push(setTimeout(free, FILE_MS, form)); return; } // the page stays
  s.timers.push(setTimeout(say, SLOW_MS, form, word('slow', 'Still waiting for an answer')));
  s.timers.push(setTimeout(() => {
    say(form, word('no-answer', 'No answer came. What you typed is still here: send it again, it is entered once.'));
    sent.get(form).button?.removeAttribute('aria-busy');
    const line = sent.get(form).line;
    sent.delete(form);
    form.addEventListener('submit', () => line.remove(), {once: true});
  }, LONGEST_MS));
});

addEventListener('pageshow', e => { if (e.persisted) for (const form of [...sent.keys()]) free(form); }); // back again, as it was
