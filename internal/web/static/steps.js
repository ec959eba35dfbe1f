// Large buttons beside a number of packs, that change it by a batch. Without them the number is typed.
document.querySelectorAll(".stepper").forEach(place => {
  const input = place.querySelector("input");
  const by = Number(place.dataset.by) || 1;
  const name = document.querySelector(`label[for="${CSS.escape(input.id)}"]`)?.textContent ?? "";
  const button = (sign, step, words) => {
    const b = document.createElement("button");
    b.type = "button";
    b.textContent = sign + by;
    b.setAttribute("aria-label", `${by} ${words}: ${name}`);
    b.addEventListener("click", () => {
      const now = Number(input.value.replaceAll(",", "").trim());
      if (Number.isNaN(now)) return; // what is no number stays as it was typed
      const next = Math.max(0, now + step);
      input.value = next === 0 ? "" : String(next);
      input.dispatchEvent(new Event("input", { bubbles: true }));
    });
    return b;
  };
  place.prepend(button("−", -by, "less"));
  place.append(button("+", by, "more"));
});
