// The form of a slide family: faults and remarks as it is typed, one question in flight, the newest next.
import { reach } from './house.js';

const form = document.querySelector('form[data-check]');
const told = document.querySelector('[data-checks]');
let asking = false;
let waiting = false;

/** Put each fault to its field, and take away those that are gone. */
function placeFaults() {
  const faults = new Map([...told.querySelectorAll('[data-field]')].map((one) => [one.dataset.field, one.dataset.says]));
  for (const place of form.querySelectorAll('[data-fault-for]')) {
    const name = place.dataset.faultFor;
    const says = faults.get(name) ?? '';
    if (place.textContent === says) continue;
    place.replaceChildren();
    if (says) {
      const fault = document.createElement('span');
      fault.className = 'fault';
      fault.textContent = says;
      place.append(fault);
    }
    const control = form.elements.namedItem(name);
    if (control instanceof Element) {
      control.toggleAttribute('aria-invalid', Boolean(says));
      if (says) control.setAttribute('aria-invalid', 'true');
      control.closest('.field, td')?.classList.toggle('wrong', Boolean(says));
    }
  }
}

/** Ask for the checks of the form as it stands. */
async function check() {
  if (asking) {
    waiting = true;
    return;
  }
  asking = true;
  try {
    const reply = await reach(form.dataset.check, { method: 'POST', body: new URLSearchParams(new FormData(form)) });
    if (reply.ok) {
      const opened = [...told.querySelectorAll('details')].map((one) => one.open);
      told.innerHTML = await reply.text();
      told.querySelectorAll('details').forEach((one, at) => { one.open = opened[at] ?? one.open; });
      placeFaults();
    }
  } catch {
    // The bar tells that the server is out of reach; the next change asks again.
  } finally {
    asking = false;
    if (waiting) {
      waiting = false;
      check();
    }
  }
}

/** A subfront that is left blank is as thick as the side: its field shows it. */
function followSide() {
  const side = form.elements.namedItem('design_side');
  const subfront = form.elements.namedItem('design_subfront');
  if (!(side instanceof HTMLInputElement) || !(subfront instanceof HTMLInputElement)) return;
  subfront.placeholder = side.value.trim() ? `${side.value.trim()}, as the side` : side.placeholder;
}

if (form && told) {
  form.addEventListener('input', followSide);
  followSide();
  form.addEventListener('input', check);
  // What was typed before this module came is checked as well.
  if ([...form.elements].some((one) => one.name && 'defaultValue' in one && one.value !== one.defaultValue)) check();
}
