// A finding leads to its line in the text that is being changed.
document.addEventListener('click', event => {
  const link = event.target.closest('a[data-line]')
  const text = document.getElementById('text')
  if (!link || !text) return
  event.preventDefault()
  const lines = text.value.split('\n')
  const line = Math.min(Number(link.dataset.line), lines.length)
  const from = lines.slice(0, line - 1).reduce((sum, l) => sum + l.length + 1, 0)
  text.focus()
  text.setSelectionRange(from, from + lines[line - 1].length)
  text.scrollTop = (line - 4) * parseFloat(getComputedStyle(text).lineHeight)
  text.scrollIntoView({ block: 'center' })
})
