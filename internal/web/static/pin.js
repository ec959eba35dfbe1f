// The number pad for a PIN: for wet hands on a tablet. Without it, the field brings up the device's own digits.
(() => {
  const form = document.querySelector('form.pin');
  if (!form) return;
  const field = form.elements.pin;
  const pad = form.querySelector('.pad');
  pad.hidden = false;
  if (matchMedia('(pointer: coarse)').matches) field.inputMode = 'none'; // the pad is enough
  pad.addEventListener('click', event => {
    const digit = event.target.dataset.digit;
    if (!digit) return;
    if (digit === 'clear') field.value = '';
    else if (digit === 'back') field.value = field.value.slice(0, -1);
    else if (field.value.length < field.maxLength) field.value += digit;
  });
})();
