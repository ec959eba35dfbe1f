// What a figure is, shown in place: the sign beside it opens its first lines over the page. Escape or "Close" goes back to where one was. When
// they cannot be fetched the page of the help is opened instead.
let box;

function dialog() {
  if (!box) {
    box = document.createElement("dialog");
    box.className = "whybox";
    box.setAttribute("aria-labelledby", "why-title");
    box.addEventListener("click", e => { if (e.target === box) box.close(); });
    document.body.append(box);
  }
  return box;
}

async function open(link) {
  let part;
  try {
    const answer = await fetch(link.href + "?part=1", { headers: { Accept: "text/html" } });
    if (!answer.ok) throw new Error(answer.status);
    part = await answer.text();
  } catch {
    location.href = link.href;
    return;
  }
  const d = dialog();
  d.innerHTML = part;
  if (!d.open) d.showModal();
  d.querySelector(".whyclose button").focus();
}

document.addEventListener("click", e => {
  const link = e.target.closest?.("a.explain");
  if (!link || e.ctrlKey || e.metaKey || e.shiftKey || e.button || typeof HTMLDialogElement === "undefined") return;
  e.preventDefault();
  open(link);
});
