// What was changed elsewhere meanwhile: fields that nobody touched here take it, and a notice says so.

const BEGINS = '<div data-elsewhere';

/**
 * Take what a fragment tells of changes elsewhere into the form. Where none of them was changed here too, the
 * form is made of the newest revision from now on; else saving shows both.
 * @param {HTMLFormElement} form @param {string} html a fragment as the server sends it
 * @returns {boolean} whether anything was told
 */
export function takeElsewhere(form, html) {
  const from = html.indexOf(BEGINS), notice = document.querySelector('[data-elsewhere]');
  if (from < 0 || !notice) return false;
  const holder = document.createElement('template');
  holder.innerHTML = html.slice(from, html.indexOf('</div>', from));
  const told = /** @type {HTMLElement} */ (holder.content.firstElementChild);
  let both = false;
  for (const said of told.querySelectorAll('[data-of]')) {
    const of = CSS.escape(said.getAttribute('data-of') ?? '');
    const field = form.querySelector(`[data-field="${of}"]`), now = said.getAttribute('data-now') ?? '';
    if (!field || !taken(field, now)) both = true;
    const before = notice.querySelector(`[data-of="${of}"]`);
    if (before?.textContent === said.textContent) continue; // not read out again
    if (before) before.replaceWith(said);
    else notice.append(said);
  }
  const base = form.elements.namedItem('based_on');
  if (!both && base instanceof HTMLInputElement) base.value = told.dataset.revision ?? base.value;
  return true;
}

/** Whether a field that was not touched, or says the same, has taken a value. @param {Element} field @param {string} now */
function taken(field, now) {
  const control = /** @type {HTMLInputElement | HTMLSelectElement | null} */ (field.querySelector('input, select'));
  const same = (text) => control?.value.trim() === (text ?? '').trim();
  if (!control || !(same(now) || same(field.getAttribute('data-stored')))) return false;
  if (control instanceof HTMLSelectElement && ![...control.options].some((one) => one.value === now)) {
    control.add(new Option(now, now));
  }
  if (!same(now)) control.value = now;
  field.setAttribute('data-stored', now);
  return true;
}
