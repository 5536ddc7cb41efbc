// Edits on their way to the server: one batch in flight, the newest next, all of them kept in this browser
// until the server has them. Each counts rows as the edits before it left them, on the revision `basedOn`.

const AGAIN_MS = [500, 1000, 2000, 4000, 8000];

const KEPT_ALIVE = 60_000; // characters of a request that a browser still sends while its page is left

/**
 * @typedef {{do: string, row?: number, at?: number, rows?: number[], key?: string, text?: string, by?: number, was?: string}} Edit
 * `was`: what a typed cell held before. Undo and redo stand among the edits, in their order.
 */
/** @typedef {{edit: Edit, says: string}} Refused */
/** @typedef {{basedOn: number, flight: Edit[], waiting: Edit[]}} Kept */

/** @param {Edit} edit */
const isBack = (edit) => edit.do === 'undo' || edit.do === 'redo';

/** The next batch of what waits: up to the first undo or redo. @param {Edit[]} waiting */
function nextBatch(waiting) {
  const at = waiting.findIndex(isBack);
  return waiting.splice(0, at < 0 ? waiting.length : at + 1);
}

/** Send a batch. @param {string} address @param {number} basedOn @param {Edit[]} batch @param {object} more */
export async function send(address, basedOn, batch, more = {}) {
  const edits = batch.filter((edit) => !isBack(edit)).map(({ was, ...edit }) => edit);
  const body = JSON.stringify({ based_on: basedOn, edits, then: batch.find(isBack)?.do ?? null, ...more });
  const reply = await fetch(address, {
    method: 'POST',
    headers: { 'Content-Type': 'application/json', Accept: 'application/json' },
    body,
    keepalive: body.length < KEPT_ALIVE,
  });
  if (reply.status >= 500) throw new Error(`status ${reply.status}`);
  return { status: reply.status, answer: await reply.json() };
}

/**
 * What an answer refused of a batch; null: all of it, for a reason that may be one edit's alone.
 * @param {number} status @param {any} answer @param {Edit[]} batch @returns {Refused[] | null}
 */
function refusedOf(status, answer, batch) {
  const edits = batch.filter((edit) => !isBack(edit));
  if (answer.refused) return answer.refused.map((fault) => ({ edit: edits[fault.at], says: fault.says }));
  if (status === 200) return [];
  if (batch.length > 1) return null;
  return edits.map((edit) => ({ edit, says: answer.errors?.[0]?.says ?? `the server answered ${status}` }));
}

export class EditQueue {
  /**
   * @param {object} of
   * @param {string} of.address where edits are posted
   * @param {string} of.store key under which they are kept in this browser
   * @param {number} of.basedOn revision of the page
   * @param {boolean} of.toEnd whether the page shows the last row
   * @param {(answer: any, more: boolean) => void} of.saved told of each answer, and whether more is waiting
   * @param {(refused: Refused[]) => void} of.refused told of edits that cannot be kept, after `saved`
   * @param {(state: 'saving'|'idle'|'lost'|'conflict', told: any) => void} of.state
   */
  constructor({ address, store, basedOn, toEnd, saved, refused, state }) {
    Object.assign(this, { address, store, basedOn, toEnd, saved, refused, state });
    /** @type {Edit[]} */ this.flight = [];
    /** @type {Edit[]} */ this.waiting = [];
    this.whole = false; this.sending = false; this.tries = 0; this.timer = 0; this.closed = false;
    addEventListener('online', () => this.again());
  }

  get count() { return this.flight.length + this.waiting.length; }
  get idle() { return this.count === 0 && !this.sending; }

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
  goBack(what) { this.add({ do: what }); }

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
    if (this.flight.length === 0) this.flight = nextBatch(this.waiting);
    if (this.flight.length === 0) return;
    this.sending = true;
    this.keep();
    if (!this.tries) this.state('saving', this.count);
    let reply;
    try {
      reply = await send(this.address, this.basedOn, this.flight, { whole: this.whole, to_end: this.toEnd });
    } catch {
      this.sending = false;
      this.state('lost', this.count);
      this.timer = setTimeout(() => this.again(), AGAIN_MS[Math.min(this.tries++, AGAIN_MS.length - 1)]);
      return;
    }
    this.sending = false;
    this.tries = 0;
    this.take(reply);
  }

  take({ status, answer }) {
    if (status === 409 && this.waiting.length) {
      // All that was typed goes into the version that is kept.
      this.flight = [...this.flight, ...this.waiting.splice(0)].filter((edit) => !isBack(edit));
      this.go();
      return;
    }
    const refused = status === 409 ? [] : refusedOf(status, answer, this.flight);
    if (refused === null) {
      // One after the other: one of them must not cost the others.
      this.waiting.unshift(...this.flight.splice(1));
      this.go();
      return;
    }
    this.flight = [];
    if (status === 409) {
      this.closed = true;
      this.keep();
      this.state('conflict', answer.settle);
      return;
    }
    if (status !== 200) {
      this.refused(refused);
      this.keep();
      if (this.count === 0) this.state('idle', this.basedOn);
      this.go();
      return;
    }
    this.basedOn = answer.revision;
    if (answer.places) this.waiting = this.waiting.flatMap((edit) => moved(edit, answer.places));
    this.keep();
    const more = this.waiting.length > 0;
    this.whole = more && (answer.whole || this.whole);
    this.saved(answer, more);
    if (refused.length) this.refused(refused);
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

/** What is kept under a key of this browser; null where it does not read. @param {string} text @returns {Kept | null} */
function readKept(text) {
  try {
    const kept = JSON.parse(text);
    const whole = Number.isInteger(kept.basedOn) && [kept.flight, kept.waiting].every((batch) => Array.isArray(batch) && batch.every((edit) => typeof edit?.do === 'string'));
    return whole ? kept : null;
  } catch { return null; }
}

const CLOSING_MS = 3000; // a page that is being left holds its lock a little longer

/**
 * Send what another page of this job left behind when it was closed. @param {string} prefix @param {string} own
 * @param {string} address @param {(refused: Refused[]) => void} refuse told of what cannot be kept
 * @returns {Promise<{sent: number, settle: string}>} how many edits, and where to settle a conflict
 */
export async function sendLeftBehind(prefix, own, address, refuse) {
  let sent = 0;
  const keys = Object.keys(localStorage).filter((key) => key.startsWith(prefix) && key !== own);
  for (const key of keys) {
    const mine = async () => {
      const text = localStorage.getItem(key);
      if (text === null) return '';
      const kept = readKept(text);
      if (!kept) {
        refuse([{ edit: { do: 'set', text }, says: 'was kept in this browser in a form that does not read' }]);
        localStorage.removeItem(key);
        return '';
      }
      const put = () => localStorage.setItem(key, JSON.stringify(kept));
      while (kept.flight.length || kept.waiting.length) {
        if (!kept.flight.length) kept.flight = nextBatch(kept.waiting);
        const { status, answer } = await send(address, kept.basedOn, kept.flight);
        if (status === 409) {
          if (kept.waiting.length) {
            kept.flight = [...kept.flight, ...kept.waiting.splice(0)].filter((edit) => !isBack(edit));
            continue;
          }
          localStorage.removeItem(key);
          return answer.settle;
        }
        const refused = refusedOf(status, answer, kept.flight);
        if (refused === null) {
          kept.waiting.unshift(...kept.flight.splice(1));
          continue;
        }
        refuse(refused);
        if (status === 200) {
          sent += kept.flight.length - refused.length;
          if (answer.places) kept.waiting = kept.waiting.flatMap((edit) => moved(edit, answer.places));
          kept.basedOn = answer.revision;
        }
        kept.flight = [];
        put();
      }
      localStorage.removeItem(key);
      return '';
    };
    const settle = navigator.locks ? await whenLeft(key, mine) : await mine();
    if (settle) return { sent, settle };
  }
  return { sent, settle: '' };
}

/** Do it once no page holds the edits any more; not at all where one is still open. @param {string} key @param {() => Promise<string>} mine */
async function whenLeft(key, mine) {
  let got = false;
  try {
    return await navigator.locks.request(key, { signal: AbortSignal.timeout(CLOSING_MS) }, () => { got = true; return mine(); });
  } catch (failed) {
    if (got) throw failed;
    return '';
  }
}
