// A form is sent once, however often it is pressed; a page that can be printed has a button for it.
document.addEventListener("submit", e => setTimeout(() => e.target.querySelectorAll("button").forEach(b => { b.disabled = true; })));
addEventListener("pageshow", () => document.querySelectorAll("form button:disabled").forEach(b => { b.disabled = false; }));
document.querySelectorAll("[data-print]").forEach(b => { b.hidden = false; b.addEventListener("click", () => print()); });
