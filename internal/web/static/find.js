// The key / puts the cursor into the box that finds anything. What a scanner types while no field has the cursor is looked for: it types faster
// than anybody, and ends with Enter. A page with a field for scans of its own keeps them.
const box = document.getElementById('find');
if (box && !document.getElementById('scan')) {
  const fast = 50; // ms between two keys of a scanner, at most
  let typed = '', last = -Infinity;
  document.addEventListener('keydown', event => {
    const at = document.activeElement;
    if (event.ctrlKey || event.metaKey || event.altKey || event.isComposing || at && at !== document.body && at.closest('input, textarea, select, button, a, summary, [contenteditable]')) return;
    const scanning = event.timeStamp - last < fast && typed !== '';
    last = event.timeStamp;
    if (event.key === 'Enter' && scanning && typed.length > 3) {
      event.preventDefault();
      box.value = typed;
      box.form.requestSubmit();
    } else if (event.key === '/' && !scanning && document.getElementById('keysheet')) {
      event.preventDefault();
      box.focus();
      box.select();
    } else if (event.key.length === 1) {
      typed = scanning ? typed + event.key : event.key;
    }
  });
}
