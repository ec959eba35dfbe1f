// The switch of the units comes back to the address as it stands now, with what was typed.
const KEY = 'kettlefrost-typed';
const form = document.getElementById('unitswitch');
const UNITS = ['°F', '°C', 'lb', 'oz', 'kg', 'g', 'gal', 'qt', 'L', 'in', 'cm'];

// here is the address of this page without the units that it may ask for.
function here() {
  const query = new URLSearchParams(location.search);
  query.delete('units');
  query.delete('did');
  return location.pathname + (query.size ? '?' + query : '');
}

const typed = () => [...document.querySelectorAll('main input:not([type="hidden"], [type="password"], [type="file"], [type="submit"]), main textarea, main select')].filter(e => e.name);

// said is what stands around a field: its name and what helps to fill it in.
const said = e => [...(e.labels ?? [])].map(l => l.textContent).join(' ') + ' ' + (e.getAttribute('aria-describedby') ?? '').split(' ').map(id => document.getElementById(id)?.textContent ?? '').join(' ');
const unitsIn = text => UNITS.filter(u => new RegExp('(^|[^\\p{L}])' + u + '($|[^\\p{L}])', 'u').test(text));

// changed tells whether somebody did something to a field since the page came.
function changed(e) {
  if (e.type === 'checkbox' || e.type === 'radio') return e.checked !== e.defaultChecked;
  if (e instanceof HTMLSelectElement) return ![...e.options].some(o => o.selected && o.defaultSelected) && e.selectedIndex > 0;
  return e.value !== e.defaultValue;
}

form?.addEventListener('submit', () => {
  if (document.querySelector('main[data-sent]')) return; // a form that was sent is shown: its address alone would not bring it back
  form.elements.back.value = here();
  const kept = typed().flatMap((e, i) => changed(e) ? [{i, name: e.name, value: e.value, checked: e.checked, said: said(e)}] : []);
  if (kept.length) sessionStorage.setItem(KEY, JSON.stringify({at: here(), kept}));
});

// A number alone was meant in the unit that stood beside it: that is written out, so that it stays what it was.
function meant(k, e) {
  if (!/^-?[\d.,]+$/.test(k.value.trim())) return k.value;
  const before = unitsIn(k.said), now = unitsIn(said(e));
  const was = before.find(u => !now.includes(u)) ?? (before[0] !== now[0] ? before[0] : undefined);
  return was ? k.value.trim() + ' ' + was : k.value;
}

const held = JSON.parse(sessionStorage.getItem(KEY) ?? 'null');
sessionStorage.removeItem(KEY);
if (held?.at === here()) {
  const fields = typed();
  for (const k of held.kept) {
    const e = fields[k.i]?.name === k.name ? fields[k.i] : fields.find(f => f.name === k.name);
    if (!e) continue;
    if (e.type === 'checkbox' || e.type === 'radio') e.checked = k.checked;
    else e.value = meant(k, e);
    e.dispatchEvent(new Event('input', {bubbles: true}));
    e.dispatchEvent(new Event('change', {bubbles: true}));
    e.closest('details')?.setAttribute('open', '');
  }
}
