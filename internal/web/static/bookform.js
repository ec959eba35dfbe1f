// What is said beside a field as it is typed in also marks the control, for those who do not see it.
const mark = () => {
  for (const note of document.querySelectorAll("#bookform .booknote")) {
    const control = document.getElementById(note.id.replace(/-note$/, ""));
    if (!control || !control.matches("input, select, textarea")) continue;
    if (note.querySelector(".problem")) control.setAttribute("aria-invalid", "true");
    else control.removeAttribute("aria-invalid");
  }
};
const form = document.getElementById("bookform");
if (form) new MutationObserver(mark).observe(form, { childList: true, subtree: true });
// Another dish has other outputs: the form is made again, with all that was typed.
const again = document.getElementById("again");
document.getElementById("f_dish")?.addEventListener("change", () => again?.form.requestSubmit(again));
