// Edits on their way to the server: one batch in flight, the newest next, all of them kept in this browser
// until the server has them. Each counts rows as the edits before it left them, on the revision `basedOn`.

const AGAIN_MS = [500, 1000, 2000, 4000, 8000];

/** @typedef {{do: string, row?: number, at?: number, rows?: number[], key?: string, text?: string, by?: number}} Edit */
/** @typedef {{basedOn: number, flight: Edit[], waiting: Edit[]}} Kept */

/** Send a batch. @param {string} address @param {number} basedOn @param {Edit[]} edits @param {object} more */
export async function send(address, basedOn, edits, more = {}) {
  const reply = await fetch(address, {
    method: 'POST',
    headers: { 'Content-Type': 'application/json', Accept: 'application/json' },
    body: JSON.stringify({ based_on: basedOn, edits, ...more }),
  });
  if (reply.status >= 500) throw new Error(`status ${reply.status}`);
  return { status: reply.status, answer: await reply.json() };
}

export class EditQueue {
  /**
   * @param {object} of
   * @param {string} of.address where edits are posted
   * @param {string} of.store key under which they are kept in this browser
   * @param {number} of.basedOn revision of the page
   * @param {boolean} of.toEnd whether the page shows the last row
   * @param {(answer: any, more: boolean) => void} of.saved told of each answer, and whether more is waiting
   * @param {(state: 'saving'|'idle'|'lost'|'refused'|'conflict', told: any) => void} of.state
   */
  constructor({ address, store, basedOn, toEnd, saved, state }) {
    Object.assign(this, { address, store, basedOn, toEnd, saved, state });
    /** @type {Edit[]} */ this.flight = [];
    /** @type {Edit[]} */ this.waiting = [];
    this.whole = false; this.then = null; this.sending = false; this.tries = 0; this.timer = 0; this.closed = false;
    addEventListener('online', () => this.again());
  }

  get count() { return this.flight.length + this.waiting.length; }
  get idle() { return this.count === 0 && !this.then && !this.sending; }

  /** @param {Edit} edit */
  add(edit) {
    const last = this.waiting.at(-1);
    if (edit.do === 'set' && last?.do === 'set' && last.row === edit.row && last.key === edit.key) last.text = edit.text;
    else this.waiting.push(edit);
    this.keep();
    if (this.tries) this.state('lost', this.count);
    this.go();
  }

  /** Undo or redo, behind all that waits. @param {'undo'|'redo'} what */
  goBack(what) { this.then = what; this.go(); }

  /** Whether a cell has an edit that no answer knows yet. @param {number} row @param {string} key */
  has(row, key) { return this.waiting.some((edit) => edit.do === 'set' && edit.row === row && edit.key === key); }

  keep() {
    try {
      if (this.count === 0) localStorage.removeItem(this.store);
      else localStorage.setItem(this.store, JSON.stringify({ basedOn: this.basedOn, flight: this.flight, waiting: this.waiting }));
    } catch { /* no room, or not allowed: the edits are still on the page */ }
  }

  again() { clearTimeout(this.timer); this.timer = 0; this.go(); }

  async go() {
    if (this.sending || this.timer || this.closed) return;
    // A batch that may have arrived is sent again as it was: done twice it changes nothing.
    if (this.flight.length === 0) this.flight = this.waiting.splice(0);
    const then = this.flight.length && this.waiting.length ? null : this.then;
    if (this.flight.length === 0 && !then) return;
    this.sending = true;
    this.keep();
    if (!this.tries) this.state('saving', this.count);
    let reply;
    try {
      reply = await send(this.address, this.basedOn, this.flight, { whole: this.whole, then, to_end: this.toEnd });
    } catch {
      this.sending = false;
      this.state('lost', this.count);
      this.timer = setTimeout(() => this.again(), AGAIN_MS[Math.min(this.tries++, AGAIN_MS.length - 1)]);
      return;
    }
    this.sending = false;
    this.tries = 0;
    this.take(reply, then);
  }

  take({ status, answer }, then) {
    if (status === 409 && this.waiting.length) {
      // All that was typed goes into the version that is kept.
      this.flight.push(...this.waiting.splice(0));
      this.go();
      return;
    }
    if (then) this.then = null;
    this.flight = [];
    if (status === 409) {
      this.closed = true;
      this.keep();
      this.state('conflict', answer.settle);
      return;
    }
    if (status !== 200) {
      this.then = null;
      this.keep();
      this.state('refused', answer.errors ?? []);
      this.go();
      return;
    }
    this.basedOn = answer.revision;
    if (answer.places) this.waiting = this.waiting.flatMap((edit) => moved(edit, answer.places));
    this.keep();
    const more = this.waiting.length > 0;
    this.whole = more && (answer.whole || this.whole);
    this.saved(answer, more);
    if (!more) this.state('idle', answer.revision);
    this.go();
  }
}

/** An edit for rows that stand elsewhere now; none where its rows are gone. @param {Edit} edit @param {(number|null)[]} places */
function moved(edit, places) {
  const to = (row) => (row < places.length ? places[row] : row);
  if (edit.rows) return [{ ...edit, rows: edit.rows.map(to).filter((row) => row !== null) }];
  if (edit.row !== undefined) return to(edit.row) === null ? [] : [{ ...edit, row: to(edit.row) }];
  return [edit];
}

/**
 * Send what another page of this job left behind when it was closed. @param {string} prefix @param {string} own
 * @param {string} address @returns {Promise<{sent: number, settle: string}>} how many edits, and where to settle a conflict
 */
export async function sendLeftBehind(prefix, own, address) {
  let sent = 0;
  const keys = Object.keys(localStorage).filter((key) => key.startsWith(prefix) && key !== own);
  for (const key of keys) {
    const mine = async () => {
      /** @type {Kept} */
      const kept = JSON.parse(localStorage.getItem(key) ?? 'null');
      if (!kept) return '';
      let basedOn = kept.basedOn;
      for (const batch of [kept.flight, kept.waiting]) {
        if (!batch.length) continue;
        const { status, answer } = await send(address, basedOn, batch);
        if (status === 409) {
          localStorage.removeItem(key);
          return answer.settle;
        }
        if (status === 200) {
          sent += batch.length;
          if (answer.places) kept.waiting = kept.waiting.flatMap((edit) => moved(edit, answer.places));
          basedOn = answer.revision;
        }
      }
      localStorage.removeItem(key);
      return '';
    };
    // A page that is still open holds the lock of its own edits.
    const settle = navigator.locks
      ? await navigator.locks.request(key, { ifAvailable: true }, (lock) => (lock ? mine() : ''))
      : await mine();
    if (settle) return { sent, settle };
  }
  return { sent, settle: '' };
}
