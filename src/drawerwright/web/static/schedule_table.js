// The table of drawers: where its cells are, going from one to the next, and answers put in their places.

/** @typedef {HTMLTableSectionElement} Row */

export class ScheduleTable {
  /** @param {HTMLTableElement} table @param {number} start row number of the first row shown */
  constructor(table, start) {
    this.table = table;
    this.start = start;
    // One row to write a new drawer into is enough: the next one comes by itself.
    this.rows.filter((row) => this.isBlank(row)).slice(1).forEach((row) => row.remove());
    const blank = this.rows.find((row) => this.isBlank(row));
    this.blank = blank ? /** @type {Row} */ (blank.cloneNode(true)) : null;
  }

  /** @returns {Row[]} */
  get rows() { return [...this.table.tBodies]; }
  /** @returns {Row[]} rows of drawers, without the one for a new drawer */
  get drawers() { return this.rows.filter((row) => !this.isBlank(row)); }
  /** @param {Row} row */
  isBlank(row) { return row.dataset.new === '1'; }
  /** @param {Row} row @returns {number} its number in the job, from 0 */
  placeOf(row) { return this.start + this.rows.indexOf(row); }
  /** @param {number} place @returns {Row | undefined} */
  rowAt(place) { return this.rows[place - this.start]; }
  /** @param {Element | null} element @returns {Row | null} */
  rowOf(element) { return element instanceof Element ? element.closest('tbody') : null; }
  /** @param {Row} row @param {string} key @returns {HTMLInputElement | null} */
  cell(row, key) { return row.querySelector(`[data-key="${CSS.escape(key)}"] input`); }
  /** @param {HTMLInputElement} input */
  keyOf(input) { return input.closest('td')?.dataset.key ?? ''; }
  /** @param {string} key */
  headingOf(key) { return this.table.tHead.querySelector(`[data-key="${CSS.escape(key)}"]`)?.textContent.toLowerCase() ?? key; }
  /** @param {HTMLInputElement} input @param {string} says why it was not saved */
  markUnsaved(input, says) {
    input.closest('td').classList.add('unsaved');
    input.setAttribute('aria-invalid', 'true');
    input.title = `not saved: ${says}`;
  }
  /** @param {HTMLInputElement} input */
  markSaved(input) {
    if (!input.closest('td').classList.contains('unsaved')) return;
    input.closest('td').classList.remove('unsaved');
    input.removeAttribute('aria-invalid');
    input.removeAttribute('title');
  }
  /** @returns {string[]} */
  get columns() { return [...this.table.tHead.querySelectorAll('[data-key]')].map((head) => head.dataset.key); }

  /** Rows that are picked, else the one with the focus. @returns {Row[]} */
  get chosen() {
    const picked = this.drawers.filter((row) => row.querySelector('.pick input')?.checked);
    const here = this.rowOf(document.activeElement) ?? this.last;
    return picked.length ? picked : here?.isConnected && !this.isBlank(here) ? [here] : [];
  }

  /** @param {HTMLInputElement} input @param {number} down @param {number} right @returns {boolean} whether there is a cell */
  go(input, down, right) {
    const row = this.rowOf(input);
    const cells = [...row.querySelectorAll('.cell input')];
    let next;
    if (down) next = this.cell(this.rows[this.rows.indexOf(row) + down] ?? row, this.keyOf(input));
    else next = cells[cells.indexOf(input) + right];
    if (!next || next === input) return false;
    next.focus();
    next.select();
    return true;
  }

  /** A new row to write into, in front of `before`; null: at the end. @param {Row | null} before */
  addBlank(before = null) {
    if (!this.blank) return null;
    const row = /** @type {Row} */ (this.blank.cloneNode(true));
    if (before) { delete row.dataset.new; before.before(row); } else this.table.append(row);
    return row;
  }

  /** What was written into a new row makes it a drawer. @param {Row} row */
  begin(row) {
    delete row.dataset.new;
    this.addBlank();
  }

  /** @param {string} html @returns {Row} */
  static parse(html) {
    const made = document.createElement('template');
    made.innerHTML = html;
    return /** @type {Row} */ (made.content.firstElementChild);
  }

  /**
   * Put rows of an answer in their places; what is being typed stays.
   * @param {any} answer @param {(place: number, key: string) => boolean} isWaiting whether a cell has a later edit
   */
  take(answer, isWaiting) {
    if (answer.whole) this.takeWhole(answer);
    else for (const [place, html] of Object.entries(answer.rows)) this.takeRow(Number(place), ScheduleTable.parse(html), isWaiting);
    this.blank = answer.to_end ? ScheduleTable.parse(answer.blank) : null;
    const last = this.rows.at(-1);
    if (!this.blank) this.rows.filter((row) => this.isBlank(row)).forEach((row) => row.remove());
    else if (!last || !this.isBlank(last)) this.addBlank();
    else if (!last.contains(document.activeElement)) last.replaceWith(this.blank.cloneNode(true));
  }

  takeWhole(answer) {
    const active = document.activeElement;
    const row = this.rowOf(active);
    const held = row && active.closest('.cell') ? { place: this.placeOf(row), key: this.keyOf(active), text: active.value, saved: active.defaultValue, from: active.selectionStart, to: active.selectionEnd } : null;
    const picked = new Set(this.drawers.filter((one) => one.querySelector('.pick input')?.checked).map((one) => this.placeOf(one)));
    const to = (place) => (answer.places && place < answer.places.length ? answer.places[place] : place);
    const places = Object.keys(answer.rows).map(Number).sort((one, other) => one - other);
    const blanks = this.rows.filter((one) => this.isBlank(one));
    this.drawers.forEach((one) => one.remove());
    const fresh = places.map((place) => ScheduleTable.parse(answer.rows[place]));
    if (blanks[0]) blanks[0].before(...fresh); else this.table.append(...fresh);
    for (const place of picked) {
      const box = this.rowAt(to(place) ?? -1)?.querySelector('.pick input');
      if (box) box.checked = true;
    }
    if (!held || to(held.place) === null) return;
    const there = this.rowAt(to(held.place));
    const input = there && this.cell(there, held.key);
    if (!input) return;
    input.focus({ preventScroll: true });
    if (held.text !== held.saved) input.value = held.text;
    input.setSelectionRange(held.from, held.to);
  }

  takeRow(place, fresh, isWaiting) {
    const row = this.rowAt(place);
    if (!row) return;
    row.className = fresh.className;
    row.dataset.row = String(place);
    for (const cell of fresh.querySelectorAll('.cell')) {
      const old = row.querySelector(`[data-key="${CSS.escape(cell.dataset.key)}"]`);
      const [input, now] = [old?.querySelector('input'), cell.querySelector('input')];
      if (!input) continue;
      const typing = input === document.activeElement && input.value !== input.defaultValue;
      const unsaved = old.classList.contains('unsaved');
      if (typing || unsaved || isWaiting(place, cell.dataset.key)) { now.value = input.value; }
      if (unsaved) { cell.classList.add('unsaved'); this.markUnsaved(now, input.title.replace(/^not saved: /, '')); }
      if (input === document.activeElement) {
        if (!typing && input.value !== now.value) input.value = now.value;
        input.defaultValue = now.defaultValue;
        for (const name of ['aria-invalid', 'aria-describedby', 'placeholder', 'aria-label', 'name', 'title']) {
          if (now.hasAttribute(name)) input.setAttribute(name, now.getAttribute(name)); else input.removeAttribute(name);
        }
      } else old.replaceWith(cell);
    }
    for (const kind of ['verdict-of', 'margin-of', 'slide-of', 'box-of']) {
      const [old, now] = [row.querySelector(`.${kind}`), fresh.querySelector(`.${kind}`)];
      if (old && now && !old.contains(document.activeElement)) old.replaceWith(now);
    }
    row.querySelector('.told')?.remove();
    const told = fresh.querySelector('.told');
    if (told) row.append(told);
    const [pick, name] = [row.querySelector('.pick'), fresh.querySelector('.pick')];
    if (pick && name && !pick.querySelector('input')?.checked) pick.replaceWith(name);
  }
}
