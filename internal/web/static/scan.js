// A scanner types like a keyboard, and nobody presses a field first: what is typed while no field has the cursor goes into the one for
// scans, and Enter sends it.
const scan = document.getElementById("scan");
if (scan) {
  document.addEventListener("keydown", e => {
    if (e.ctrlKey || e.metaKey || e.altKey || /^(INPUT|TEXTAREA|SELECT|BUTTON|A|SUMMARY)$/.test(document.activeElement?.tagName)) return;
    if (e.key === "Enter" && scan.value) { e.preventDefault(); scan.form.requestSubmit(); }
    else if (e.key.length === 1) { e.preventDefault(); scan.value += e.key; }
  });
  if (scan.closest("section")?.querySelector(".notaken")) scan.select();
}

// A form is sent once, however often it is pressed.
document.addEventListener("submit", e => setTimeout(() => e.target.querySelectorAll("button").forEach(b => { b.disabled = true; })));
addEventListener("pageshow", () => document.querySelectorAll("form button:disabled").forEach(b => { b.disabled = false; }));

document.querySelectorAll("[data-print]").forEach(b => b.addEventListener("click", () => print()));

// Stops are moved up and down by touch; the numbers follow, and are sent with "Keep this order".
document.querySelectorAll("[data-stops] ol").forEach(list => {
  const number = () => [...list.children].forEach((li, i) => { li.querySelector("[name=place]").value = i + 1; });
  const press = (li, sign, says, move) => {
    const b = document.createElement("button");
    b.type = "button";
    b.textContent = sign;
    b.setAttribute("aria-label", says);
    b.addEventListener("click", () => { move(); number(); b.focus(); });
    li.querySelector(".updown").append(b);
  };
  [...list.children].forEach(li => {
    press(li, "▲", "Earlier", () => li.previousElementSibling?.before(li));
    press(li, "▼", "Later", () => li.nextElementSibling?.after(li));
  });
});
