// How far long work is, followed without loading the page again; without this script the page loads itself.
const box = document.getElementById('job');
const LOOK_MS = 1000;
const network = there => document.dispatchEvent(new CustomEvent('kettlefrost-network', {detail: there}));

async function look() {
  try {
    const response = await fetch(box.dataset.far, {headers: {Accept: 'application/json'}, signal: AbortSignal.timeout(10000)});
    network(true);
    if (!response.ok) { location.reload(); return; }
    const far = await response.json();
    if (far.state !== 'runs' && far.state !== 'waits') { location.replace(location.href); return; }
    document.getElementById('job-says').textContent = far.says;
    document.getElementById('job-since').textContent = far.since;
    const bar = document.getElementById('job-progress');
    if (far.percent < 0) bar.removeAttribute('value'); else bar.value = far.percent;
  } catch {
    network(false);
  }
  setTimeout(look, LOOK_MS);
}
// A file that is ready is fetched by itself, once.
const file = document.getElementById('job-file');
if (file && sessionStorage.getItem(location.href) !== file.href) { sessionStorage.setItem(location.href, file.href); file.click(); }
if (box) setTimeout(look, LOOK_MS);
