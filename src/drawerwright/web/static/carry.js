// What a drawer carries: its section follows the newest edit once the drawing stands, never before it, and its
// words and drawings move with the drawer without asking anybody.

const QUIET = 200; // ms without an edit, after which what it carries is asked for
const SAID = 600; // ms at rest, after which a place is told to whoever listens
const KEYS = ['carry', 'tilt', 'off_centre', 'sag_limit'];

/** @typedef {{ per: number, decimals: number, unit: string }} Measure */
/**
 * @typedef {{ travel: number, measures: Record<string, Measure>, told: Record<string, number[]>,
 *   diagrams: Record<string, { width: number, at: number[], curves: number[][] }>,
 *   bent: null | { at: number[], heights: number[][][], supports: number[][], fixings: number[], lower: number[],
 *     upper: number[], member: number, scale: number } }} Carried
 */

/** Where a value lies among ascending places: the one after it, and its share of the way there. */
function between(at, value) {
  let after = at.findIndex((one) => one > value);
  if (after < 0) after = at.length - 1;
  after = Math.max(after, 1);
  const [before, to] = [at[after - 1], at[after]];
  const share = to === before ? 0 : Math.min(Math.max((value - before) / (to - before), 0), 1);
  return { after, share };
}

/** @param {number[]} values @param {{ after: number, share: number }} where */
const mixed = (values, { after, share }) => values[after - 1] + (values[after] - values[after - 1]) * share;

/** @param {Measure} how @param {number} value */
function words(how, value) {
  const told = (value / how.per).toFixed(how.decimals);
  return `${Number(told) === 0 ? told.replace('-', '') : told.replace('-', '\u2212')} ${how.unit}`;
}

class Carry {
  /** @param {HTMLElement} host */
  constructor(host) {
    this.host = host;
    this.timer = 0;
    this.saying = 0;
    this.asked = /** @type {AbortController | undefined} */ (undefined);
    this.carried = /** @type {Carried | undefined} */ (undefined);
    this.out = NaN;
    this.keys = new Map(KEYS.map((key) => [key, new URLSearchParams(location.search).get(key) ?? '']));
    this.found();
    this.listen();
    this.stands = host.querySelector('.carries, .carry-fields') ? this.subject() : undefined;
    if (this.stands === undefined && host.firstElementChild) this.ask();
  }

  listen() {
    document.addEventListener('sheet-drawn', () => this.ask());
    document.addEventListener('address-told', () => this.remember());
    document.addEventListener('drawn-out', (event) => {
      this.show(/** @type {CustomEvent} */ (event).detail.mm);
      queueMicrotask(() => this.remember());
    });
    for (const kind of ['input', 'change', 'click']) {
      document.addEventListener(kind, (event) => {
        if (!(event.target instanceof Element)) return;
        if (kind !== 'click' && event.target.closest('form[data-live]')) this.edited();
        queueMicrotask(() => this.remember());
      });
    }
    this.host.addEventListener('input', (event) => this.told(event));
    this.host.addEventListener('submit', (event) => {
      if (!(event.target instanceof Element) || !event.target.matches('[data-carry-fields]')) return;
      event.preventDefault();
      this.fetched();
    });
    this.host.addEventListener('click', (event) => this.clicked(event));
    addEventListener('online', () => this.ask());
  }

  /** What stands is of fields as they were: ask anew when the drawing has come. */
  edited() {
    clearTimeout(this.timer);
    this.asked?.abort();
    this.host.dataset.stale = '';
  }

  /** A field of the section was typed in. @param {Event} event */
  told(event) {
    const field = event.target;
    if (!(field instanceof HTMLInputElement) || !field.closest('[data-carry-fields]')) return;
    if (!this.keys.has(field.name)) return;
    this.keys.set(field.name, field.value.trim());
    this.remember();
    this.edited();
    this.ask();
  }

  /** @param {MouseEvent} event */
  clicked(event) {
    const link = event.target instanceof Element ? event.target.closest('[data-carry-open], [data-carry-fold]') : null;
    if (!link || event.ctrlKey || event.metaKey || event.shiftKey || event.button) return;
    event.preventDefault();
    const opens = link.matches('[data-carry-open]');
    for (const key of KEYS) if (!opens || key === 'carry') this.keys.set(key, opens ? '1' : '');
    this.remember();
    this.focusOn = opens ? '[data-carry-fold]' : '[data-carry-open]';
    this.fetched();
  }

  /** The address tells what is open here, whoever wrote it last. */
  remember() {
    const query = new URLSearchParams(location.search);
    for (const [key, text] of this.keys) {
      query.delete(key);
      if (text) query.append(key, text);
    }
    const told = query.toString();
    if (told === new URLSearchParams(location.search).toString()) return;
    history.replaceState(history.state, '', told ? `?${told}` : location.pathname);
  }

  /** What the section is of: the address but for what only draws. */
  subject() {
    const query = new URLSearchParams(location.search);
    for (const key of ['show', 'out']) query.delete(key);
    return query.toString();
  }

  /** Ask once nobody edits any more, if there is anything new to ask. */
  ask() {
    clearTimeout(this.timer);
    this.remember();
    if (this.subject() === this.stands) {
      delete this.host.dataset.stale;
      return;
    }
    this.timer = setTimeout(() => this.fetched(), QUIET);
  }

  async fetched() {
    clearTimeout(this.timer);
    this.asked?.abort();
    const asked = new AbortController();
    this.asked = asked;
    this.remember();
    const subject = this.subject();
    const query = new URLSearchParams(location.search);
    query.append('fragment', 'carry');
    try {
      const reply = await fetch(`${location.pathname}?${query}`, { headers: { Accept: 'text/html' }, signal: asked.signal });
      const html = (reply.headers.get('content-type') ?? '').startsWith('text/html');
      if (!html || (!reply.ok && reply.status !== 422)) return;
      const text = await reply.text();
      if (asked.signal.aborted) return;
      this.swap(text);
      this.stands = subject;
    } catch (lost) {
      if (!(lost instanceof TypeError) && !(lost instanceof DOMException)) throw lost;
    }
  }

  /** @param {string} html */
  swap(html) {
    const active = document.activeElement;
    const held = active instanceof HTMLElement && this.host.contains(active) ? active : null;
    const name = held instanceof HTMLInputElement ? held.name : '';
    const caret = held instanceof HTMLInputElement && held.type === 'text' ? held.selectionStart : null;
    const workings = this.host.querySelector('.carry-workings')?.hasAttribute('open');
    const out = this.out;
    this.host.innerHTML = html;
    delete this.host.dataset.stale;
    if (workings) this.host.querySelector('.carry-workings')?.setAttribute('open', '');
    this.found();
    if (!Number.isNaN(out)) this.show(out);
    const again = this.focusOn ? this.host.querySelector(this.focusOn) : name ? this.host.querySelector(`[name="${name}"]:not([type=hidden])`) : null;
    this.focusOn = '';
    if (!(again instanceof HTMLElement)) return;
    again.focus({ preventScroll: true });
    if (again instanceof HTMLInputElement && caret !== null) again.setSelectionRange(caret, caret);
  }

  /** Read the table that came with the section. */
  found() {
    const told = this.host.querySelector('[data-carried]')?.textContent;
    this.carried = told ? JSON.parse(told) : undefined;
  }

  /** Everything where the drawer is drawn out so far. @param {number} mm */
  show(mm) {
    this.out = mm;
    const carried = this.carried;
    if (!carried) return;
    const out = Math.min(Math.max(mm, 0), carried.travel);
    this.tell(carried, out);
    for (const [name, diagram] of Object.entries(carried.diagrams)) {
      const here = this.host.querySelector(`[data-diagram="${name}"] [data-here]`);
      const where = between(diagram.at, out);
      here?.setAttribute('transform', `translate(${((diagram.width * out) / carried.travel).toFixed(2)} 0)`);
      diagram.curves.forEach((curve, number) => {
        here?.querySelector(`[data-curve="${number}"]`)?.setAttribute('cy', mixed(curve, where).toFixed(2));
      });
    }
    if (carried.bent) this.bend(carried.bent, out);
  }

  /** The sentence of a place. @param {Carried} carried @param {number} out */
  tell(carried, out) {
    const { measures, told } = carried;
    const where = between(told.at, out);
    const value = (name) => (name === 'out' ? out : mixed(told[name], where));
    for (const slot of this.host.querySelectorAll('[data-place] [data-told]')) {
      const name = slot.getAttribute('data-told') ?? '';
      const kind = name === 'out' ? 'out' : name.startsWith('sag') ? 'sag' : 'force';
      slot.textContent = words(measures[kind], Math.abs(value(name)));
    }
    const way = this.host.querySelector('[data-way]');
    if (way) way.textContent = words(measures.sag, value('sag')).startsWith('\u2212') ? 'rises' : 'sags';
    for (const rear of this.host.querySelectorAll('[data-rear]')) {
      const name = rear.getAttribute('data-rear') ?? '';
      const lifts = value(name) < 0;
      rear.toggleAttribute('hidden', lifts);
      this.host.querySelector(`[data-lifts="${name}"]`)?.toggleAttribute('hidden', !lifts);
    }
    const output = this.host.querySelector('[data-out]');
    if (output) output.textContent = words(measures.out, out).split(' ')[0];
    clearTimeout(this.saying);
    this.saying = setTimeout(() => {
      const said = this.host.querySelector('[data-place-said]');
      const place = this.host.querySelector('[data-place]');
      if (said && place instanceof HTMLElement) said.textContent = place.innerText;
    }, SAID);
  }

  /** The members bent. @param {NonNullable<Carried['bent']>} bent @param {number} out */
  bend(bent, out) {
    const where = between(bent.at, out);
    const [low, high] = [where.after - 1, where.after];
    [0, out / 2, out].forEach((start, level) => {
      const heights = bent.heights[low][level].map((one, k) => one + (bent.heights[high][level][k] - one) * where.share);
      const step = bent.member / (heights.length - 1);
      const points = heights.map((y, k) => `${((start + step * k) * bent.scale).toFixed(2)},${y.toFixed(2)}`);
      this.host.querySelector(`[data-member="${level}"]`)?.setAttribute('points', points.join(' '));
    });
    const places = [...bent.fixings, ...bent.lower.map((one) => one + out / 4), ...bent.upper.map((one) => one + 0.75 * out)];
    places.forEach((place, number) => {
      const y = bent.supports[low][number] + (bent.supports[high][number] - bent.supports[low][number]) * where.share;
      const stand = this.host.querySelector(`[data-stand="${number}"]`);
      stand?.setAttribute('transform', `translate(${(place * bent.scale).toFixed(2)} ${y.toFixed(2)})`);
    });
  }
}

const host = document.querySelector('[data-carry]');
if (host instanceof HTMLElement) new Carry(host);
