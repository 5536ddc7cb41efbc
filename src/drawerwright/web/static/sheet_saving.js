// Saving a stored drawer's fields: changes are kept in this browser until the server has them.
import { reach } from './house.js';

const RETRY = 2000; // ms

export class Saving {
  /** @param {HTMLFormElement} form @param {() => URLSearchParams} changes */
  constructor(form, changes) {
    this.form = form;
    this.changes = changes;
    this.key = `draft:${form.dataset.draft}`;
    this.told = /** @type {HTMLElement} */ (form.querySelector('[data-unsaved]'));
    this.discard = /** @type {HTMLElement} */ (form.querySelector('[data-discard]'));
    this.found = /** @type {HTMLElement | null} */ (document.querySelector('[data-draft-found]'));
    this.discard.addEventListener('click', () => this.forget());
    form.addEventListener('submit', (event) => { event.preventDefault(); this.save(); });
    if ([...changes()].length) this.keep();
    else this.offer();
  }

  /** A field was changed: say so, and keep it. */
  changed() {
    const count = [...this.changes()].length;
    this.discard.hidden = !count;
    this.told.textContent = count
      ? `Not saved: ${count} field${count > 1 ? 's' : ''} changed. What you see is drawn with the changes.`
      : 'As stored.';
    if (count) this.keep();
    else this.forget();
  }

  keep() {
    try { localStorage.setItem(this.key, this.edits().toString()); } catch { /* full or not allowed: the address still has them */ }
  }

  forget() {
    try { localStorage.removeItem(this.key); } catch { /* nothing was kept */ }
  }

  /** Changes from before that were never saved: offered, never put in by themselves. */
  offer() {
    let kept = null;
    try { kept = localStorage.getItem(this.key); } catch { /* nothing is kept */ }
    if (!kept || !this.found) return;
    this.found.hidden = false;
    const link = this.found.querySelector('a');
    if (link) link.href = `${location.pathname}?${kept}`;
    this.found.querySelector('button')?.addEventListener('click', () => {
      this.forget();
      this.found.hidden = true;
    });
  }

  /** What was changed, and of which revision: a field that was not touched is not told. */
  edits() {
    const told = this.changes();
    told.append('based_on', this.form.elements.namedItem('based_on').value);
    return told;
  }

  /** Save by the form's own way; while the server is out of reach, try again until it is back. */
  async save() {
    if (this.busy) return;
    this.busy = true;
    this.told.textContent = 'Saving …';
    try {
      const reply = await reach(this.form.action, { method: 'POST', body: this.edits() });
      if (reply.status >= 502 && reply.status <= 504) throw new TypeError('not reachable');
      if (reply.ok) {
        this.forget();
        location.assign(reply.url);
        return;
      }
      const why = reply.status === 422 ? 'what is marked cannot be read' : 'the server could not take it';
      this.told.textContent = `Not saved: ${why}. Your changes are kept here.`;
    } catch (lost) {
      if (!(lost instanceof TypeError)) throw lost;
      this.told.textContent = 'Not saved yet: the server cannot be reached. Your changes are kept here and saved when it is back.';
      setTimeout(() => { this.busy = false; this.save(); }, RETRY);
      return;
    }
    this.busy = false;
  }
}
