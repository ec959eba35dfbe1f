// A scanner types like a keyboard: what stands in the field from before is replaced, and what is typed while no field has the cursor goes there.
const scan = document.querySelector(".scan input");
if (scan) {
  if (document.activeElement === scan) scan.select();
  else scan.addEventListener("focus", () => scan.select(), { once: true });
  document.addEventListener("keydown", e => {
    if (e.ctrlKey || e.metaKey || e.altKey || e.key.length !== 1 || document.activeElement !== document.body) return;
    scan.focus();
  });
}

// A form is sent once, however often it is pressed.
document.addEventListener("submit", e => setTimeout(() => e.target.querySelectorAll("button").forEach(b => { b.disabled = true; })));
addEventListener("pageshow", () => document.querySelectorAll("form button:disabled").forEach(b => { b.disabled = false; }));

// A count that is not finished is kept on this device too, in case its page is closed.
const unfinished = "kettlefrost-count";
const counting = document.querySelector("[data-counting]"), goOn = document.querySelector("[data-go-on]");
try {
  if (counting && new URL(location).searchParams.has("f")) localStorage.setItem(unfinished, location.pathname + location.search);
  if (document.querySelector("[data-counted]")) localStorage.removeItem(unfinished);
  const kept = localStorage.getItem(unfinished);
  if (goOn && kept?.startsWith("/stock/count?")) {
    goOn.hidden = false;
    goOn.querySelector("a").href = kept;
  }
} catch { /* a browser that keeps nothing: the address is enough */ }
