// A page that follows the clock or long work is asked for again every so often, without being loaded anew: what has the focus keeps it, and
// while somebody writes nothing is changed. Without this script the page loads itself again.
const main = () => document.getElementById('main');
const every = () => Number(main().dataset.every ?? 0) * 1000;
const writing = () => document.activeElement?.matches('main input:not([type=hidden]), main select, main textarea');

async function again() {
  if (!document.hidden && !writing()) await htmx.ajax('GET', location.href, {target: '#main', select: '#main', swap: 'outerMorph'}).catch(() => {});
  if (every()) setTimeout(again, every());
}

if (every()) setTimeout(again, every());
