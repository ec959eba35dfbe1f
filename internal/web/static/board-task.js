// The page of one task shows what was entered as soon as it is sent. The forms stay as they are: somebody may be typing in one.
document.addEventListener('board-sent', async () => {
  const answer = await fetch(location.href, {headers: {Accept: 'text/html'}}).catch(() => null);
  if (!answer?.ok) return; // it is sent all the same, and is seen when the page is opened again
  const fresh = new DOMParser().parseFromString(await answer.text(), 'text/html');
  for (const id of ['went', 'told']) {
    const now = fresh.getElementById(id);
    if (now) document.getElementById(id)?.replaceWith(now);
  }
  document.dispatchEvent(new Event('board-shown'));
});
