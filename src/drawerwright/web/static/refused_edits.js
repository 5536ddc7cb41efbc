// Edits that the server does not take: told with their text, and kept in this browser until somebody lets them go.

const SHOWN = 80; // characters of a text that are shown

/** @typedef {{name: string, key: string, heading: string, text: string, says: string}} Entry */

export class RefusedEdits {
  /** @param {string} job @param {HTMLElement} host list that tells them */
  constructor(job, host) {
    this.store = `drawerwright.refused.${job}`;
    this.host = host;
    /** @type {Entry[]} */ this.entries = [];
    try {
      const kept = JSON.parse(localStorage.getItem(this.store) ?? '[]');
      if (Array.isArray(kept)) this.entries = kept.filter((one) => typeof one?.text === 'string');
    } catch { /* nothing that could be told */ }
    this.show();
  }

  get count() { return this.entries.length; }

  /** @param {Entry} entry */
  add(entry) {
    this.entries = [...this.entries.filter((one) => !entry.key || one.name !== entry.name || one.key !== entry.key), entry];
    this.keep();
  }

  /** The cell was typed anew. @param {string} name @param {string} key */
  drop(name, key) {
    this.entries = this.entries.filter((one) => one.name !== name || one.key !== key);
    this.keep();
  }

  keep() {
    try {
      if (this.count) localStorage.setItem(this.store, JSON.stringify(this.entries));
      else localStorage.removeItem(this.store);
    } catch { /* no room: they are still on the page */ }
    this.show();
  }

  show() {
    this.host.hidden = this.count === 0;
    this.host.replaceChildren(...this.entries.map((entry) => this.item(entry)));
  }

  /** @param {Entry} entry */
  item(entry) {
    const item = document.createElement('li');
    const text = entry.text.length > SHOWN ? `${entry.text.slice(0, SHOWN)}…` : entry.text;
    const place = [entry.name, entry.heading].filter(Boolean).join(', ');
    item.append(`not saved: ${place} “${text}” ${entry.says} `);
    const copy = button('Copy it', () => navigator.clipboard?.writeText(entry.text).then(() => { copy.textContent = 'Copied'; }));
    item.append(copy, ' ', button('Let it go', () => { this.entries = this.entries.filter((one) => one !== entry); this.keep(); }));
    return item;
  }
}

/** @param {string} words @param {() => void} does */
function button(words, does) {
  const made = Object.assign(document.createElement('button'), { type: 'button', className: 'quiet', textContent: words });
  made.addEventListener('click', does);
  return made;
}
