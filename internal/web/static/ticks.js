// Remembers in this browser what is ticked off a list, so that it is still ticked after a look at another page. Without it the ticks last
// as long as the page.
document.querySelectorAll("[data-list]").forEach(list => {
  const name = "ticked " + list.dataset.list;
  let ticked = new Set();
  try { ticked = new Set(JSON.parse(localStorage.getItem(name))); } catch { /* nothing to remember with, or nothing that can be read */ }
  list.querySelectorAll("[data-tick]").forEach(box => {
    box.checked = ticked.has(box.dataset.tick);
    box.addEventListener("change", () => {
      ticked[box.checked ? "add" : "delete"](box.dataset.tick);
      try { localStorage.setItem(name, JSON.stringify([...ticked])); } catch { /* it lasts as long as the page */ }
    });
  });
});
