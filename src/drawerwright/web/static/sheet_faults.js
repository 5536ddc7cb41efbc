// What does not read, told at its field: what was read, what is allowed, an example.

/**
 * Show faults at their fields, and those that belong to none above the drawing.
 * @param {{where: string, value: string, says: string, try: string, field: string | null}[]} faults
 */
export function showFaults(faults) {
  clearFaults();
  const others = document.querySelector('[data-faults]');
  for (const fault of faults) {
    const help = fault.field ? document.querySelector(`[data-fault-for="${CSS.escape(fault.field)}"]`) : null;
    const words = told(fault, !help);
    if (!help) {
      others?.append(words);
      continue;
    }
    if (help.querySelector('.fault')) continue;
    help.append(words);
    const field = help.closest('.field');
    field?.classList.add('wrong');
    field?.querySelector('input, select')?.setAttribute('aria-invalid', 'true');
    const hidden = field?.closest('details');
    if (hidden) hidden.open = true;
  }
}

/** Take all faults away. */
export function clearFaults() {
  for (const words of document.querySelectorAll('.field .fault, [data-faults] > *, .sheet > .faults')) words.remove();
  for (const field of document.querySelectorAll('.field.wrong')) field.classList.remove('wrong');
  for (const control of document.querySelectorAll('.strip-form [aria-invalid]')) control.removeAttribute('aria-invalid');
}

/** What is written and longer than its field stands under it in full. @param {HTMLFormElement} form */
export function showInFull(form) {
  for (const full of form.querySelectorAll('[data-in-full]')) {
    const control = full.closest('.field')?.querySelector('input');
    if (!control) continue;
    const width = Number(full.getAttribute('data-in-full'));
    control.size = Math.max(width, Math.min(control.value.length, 70));
    full.textContent = control.value;
    full.hidden = control.value.length <= 2 * width;
  }
}

function told(fault, withPlace) {
  const words = document.createElement(withPlace ? 'p' : 'span');
  words.className = withPlace ? 'fault padded' : 'fault';
  const mark = document.querySelector('[data-mark-stop]');
  if (mark instanceof HTMLTemplateElement) words.append(mark.content.cloneNode(true));
  const stops = document.createElement('b');
  stops.textContent = 'stops';
  words.append(stops, ` ${withPlace ? `${fault.where}: ` : ''}${fault.value} ${fault.says}${fault.try ? `; try ${fault.try}` : ''}`);
  words.setAttribute('role', 'alert');
  return words;
}
