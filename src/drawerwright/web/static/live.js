// The sheet answers while its fields are typed in: one request in flight, the newest values next.
// What is typed stands in the address as soon as its drawing stands, or a moment later where that takes long, so
// that a reload or a lost server loses nothing: telling a browser of an address takes it as long as drawing.
import { reach, tellReach } from './house.js';
import { swap, swapPictures, showUnfolded } from './sheet.js';
import { showFaults, clearFaults, showInFull } from './sheet_faults.js';

// Only a stored drawer's sheet is saved, and changed elsewhere.
const [{ Saving }, { takeElsewhere }] = document.querySelector('form[data-live][data-draft]')
  ? await Promise.all([import('./sheet_saving.js'), import('./elsewhere.js')]) : [{}, {}];

const BETWEEN = 30; // ms from edit to edit, after the first
const QUIET = 150; // ms without an edit, after which what follows a drawing is asked for
const TOLD = 100; // ms after an edit, by which it stands in the address though its drawing does not stand yet
const RETRY = [500, 1000, 2000, 4000];
const WIDE = matchMedia('(min-width: 1340px)');
const SMALL = matchMedia('(max-width: 699.9px)');

/** Which arrangement of the sheet is on the screen. @returns {'wide' | 'mid' | 'small'} */
const arrangement = () => (WIDE.matches ? 'wide' : SMALL.matches ? 'small' : 'mid');

class LiveSheet {
  /** @param {HTMLFormElement} form */
  constructor(form) {
    this.form = form;
    this.host = document.querySelector('[data-sheet]');
    const asked = new URLSearchParams(location.search);
    this.show = asked.get('show') ?? '';
    this.out = asked.get('out') ?? '';
    this.stored = Boolean(form.dataset.draft);
    this.saving = this.stored ? new Saving(form, () => this.fields()) : null;
    this.busy = false;
    this.wanted = /** @type {'' | 'sheet' | 'rest' | 'picture' | 'other'} */ ('');
    this.sent = -Infinity;
    this.failed = 0;
    this.timer = 0;
    this.later = 0;
    this.telling = 0;
    this.following = /** @type {AbortController | undefined} */ (undefined);
    this.listen();
  }

  /** The fields' values that the address has to tell: on a stored drawer those that were changed. */
  fields() {
    const told = new URLSearchParams();
    for (const [name, value] of new FormData(this.form)) {
      if (typeof value !== 'string' || name === 'based_on') continue;
      const stored = this.stored ? this.form.querySelector(`[data-field="${name}"]`)?.getAttribute('data-stored') : null;
      if (stored !== null && stored !== undefined) {
        if (stored.trim() !== value.trim()) told.append(name, value);
      } else if (value.trim()) told.append(name, value);
    }
    return told;
  }

  /** The address of what is on the screen. */
  query() {
    const told = this.fields();
    if (this.stored && [...told].length) told.append('based_on', this.form.elements.namedItem('based_on').value);
    if (this.out) told.append('out', this.out);
    if (this.show) told.append('show', this.show);
    return told;
  }

  listen() {
    this.form.addEventListener('input', () => this.edited());
    this.form.addEventListener('change', () => this.edited());
    if (!this.stored) {
      this.form.addEventListener('submit', (event) => { event.preventDefault(); this.ask('sheet'); });
    }
    document.addEventListener('click', (event) => this.clicked(event));
    document.addEventListener('keydown', (event) => {
      if (event.key === 'Escape' && this.show && !event.defaultPrevented) this.unfold('', this.show);
    });
    document.addEventListener('input', (event) => {
      if (event.target instanceof HTMLInputElement && event.target.closest('[data-pull]')) this.pulled(event.target);
    });
    for (const media of [WIDE, SMALL]) media.addEventListener('change', () => this.ask('sheet'));
    addEventListener('online', () => this.again());
  }

  edited() {
    this.ask('sheet'); // first: the rest is done while the answer is on its way
    this.telling ||= setTimeout(() => this.remember(), TOLD);
    this.saving?.changed();
    showInFull(this.form);
  }

  /** The address of this page says what is on it. */
  remember() {
    clearTimeout(this.telling);
    this.telling = 0;
    const query = this.query().toString();
    history.replaceState(history.state, '', query ? `?${query}` : location.pathname);
    document.dispatchEvent(new CustomEvent('address-told'));
  }

  /** @param {MouseEvent} event */
  clicked(event) {
    const link = event.target instanceof Element ? event.target.closest('a') : null;
    if (!link || event.ctrlKey || event.metaKey || event.shiftKey || event.button) return;
    const address = new URL(link.getAttribute('href') ?? '', location.href);
    const told = address.searchParams;
    if (link.matches('a.dimension') || link.hasAttribute('data-fold')) {
      event.preventDefault();
      this.unfold(told.get('show') ?? '', link.dataset?.quantity ?? this.show);
    } else if (link.closest('.units')) {
      event.preventDefault(); // the link is as old as the last drawing; the address has what is typed
      this.remember();
      const here = new URLSearchParams(location.search);
      here.set('to', told.get('to') ?? '');
      location.assign(`${location.pathname}?${here}`);
    } else if (link.closest('.changes')) {
      event.preventDefault();
      this.fill(told);
    }
  }

  /** Put an address's fields into the form. @param {URLSearchParams} told */
  fill(told) {
    for (const field of this.form.querySelectorAll('[data-field]')) {
      const control = /** @type {HTMLInputElement | null} */ (field.querySelector('input, select'));
      if (!control) continue;
      control.value = told.get(control.name) ?? (this.stored ? field.getAttribute('data-stored') ?? '' : '');
    }
    this.edited();
  }

  /** Unfold a dimension's working, or fold it. @param {string} quantity @param {string} from */
  unfold(quantity, from) {
    this.show = quantity;
    this.remember();
    this.focusOn = from;
    this.ask('sheet');
  }

  /** The drawer drawn out: its number at once, the picture as soon as it comes. @param {HTMLInputElement} slider */
  pulled(slider) {
    const mm = Math.round(Number(slider.value));
    this.out = String(mm);
    for (const other of document.querySelectorAll('[data-pull] input[type="range"]')) {
      if (other !== slider) other.value = slider.value;
    }
    document.dispatchEvent(new CustomEvent('drawn-out', { detail: { mm, travel: Number(slider.dataset.travel) } }));
    this.remember();
    this.ask('picture');
  }

  /** Ask for something; what is under way is not disturbed. @param {'sheet' | 'picture'} what */
  ask(what) {
    clearTimeout(this.later);
    if (what === 'sheet') this.following?.abort();
    if (this.wanted !== 'sheet') this.wanted = what;
    if (this.busy || this.timer) return;
    const wait = this.sent + BETWEEN - performance.now();
    if (wait > 0) this.timer = setTimeout(() => { this.timer = 0; this.send(); }, wait);
    else this.send();
  }

  async send() {
    const what = this.wanted;
    if (!what || this.busy) return;
    this.wanted = '';
    this.busy = true;
    this.sent = performance.now();
    try {
      await this.fetched(what);
      this.failed = 0;
    } catch (lost) {
      if (lost instanceof DOMException && lost.name === 'AbortError') return;
      if (!(lost instanceof TypeError)) throw lost;
      this.wanted = this.wanted || what;
      if (this.wanted === 'sheet') this.host.dataset.stale = '';
      const wait = RETRY[Math.min(this.failed++, RETRY.length - 1)];
      if (!this.timer) this.timer = setTimeout(() => this.again(), wait);
    } finally {
      this.busy = false;
      if (this.wanted && !this.timer) this.send();
    }
  }

  /** Ask for what follows a drawing, once nobody edits. @param {'rest' | 'other'} what */
  follow(what) {
    clearTimeout(this.later);
    this.later = setTimeout(() => {
      this.wanted = this.wanted || what;
      if (!this.busy && !this.timer) this.send();
    }, QUIET);
  }

  again() {
    clearTimeout(this.timer);
    this.timer = 0;
    this.send();
  }

  /** @param {string} what */
  async fetched(what) {
    const query = this.query();
    if (this.stored) query.set('based_on', this.form.elements.namedItem('based_on').value);
    query.append('fragment', what === 'other' ? 'sheet' : what);
    query.append('for', what === 'other' ? 'wide' : arrangement());
    this.following = what === 'rest' || what === 'other' ? new AbortController() : undefined;
    const reply = await reach(`${location.pathname}?${query}`, {
      headers: { Accept: 'text/html' }, signal: this.following?.signal,
    });
    if (reply.status === 422) {
      showFaults((await reply.json()).errors);
      this.host.dataset.stale = '';
      return;
    }
    if (reply.status >= 502 && reply.status <= 504) throw new TypeError('not reachable');
    if (!reply.ok) return;
    const text = await reply.text();
    if (what === 'picture') {
      swapPictures(text);
      return;
    }
    clearFaults();
    delete this.host.dataset.stale;
    const focus = this.focusOn;
    swap(text, this.host, focus);
    if (this.stored && takeElsewhere(this.form, text)) {
      this.saving?.changed();
      showInFull(this.form);
      this.remember();
    }
    if (this.focusOn === focus) this.focusOn = '';
    if (this.telling) this.remember();
    document.dispatchEvent(new CustomEvent('sheet-drawn'));
    if (what === 'sheet') this.follow('rest');
    else if (what === 'rest' && arrangement() !== 'wide') this.follow('other');
  }
}

document.documentElement.classList.add('scripted');
tellReach(false);
const form = document.querySelector('form[data-live]');
if (form instanceof HTMLFormElement) new LiveSheet(form);
showUnfolded();
for (const button of document.querySelectorAll('[data-print]')) button.hidden = false;
document.addEventListener('sheet-drawn', () => {
  for (const button of document.querySelectorAll('[data-print]')) button.hidden = false;
});
document.addEventListener('click', (event) => {
  if (event.target instanceof Element && event.target.closest('[data-print]')) print();
});
