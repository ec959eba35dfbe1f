// The clock of a recall: how long since it was begun.
for (const clock of document.querySelectorAll("[data-began]")) {
  const began = Number(clock.dataset.began);
  const tick = () => {
    const seconds = Math.max(0, Math.floor((Date.now() - began) / 1000));
    const hours = Math.floor(seconds / 3600), minutes = Math.floor(seconds / 60) % 60;
    clock.textContent = (hours ? hours + " h " + String(minutes).padStart(2, "0") : minutes) + " min " + String(seconds % 60).padStart(2, "0") + " s";
  };
  tick();
  setInterval(tick, 1000);
}
