// The schedule under a script: each changed cell saves itself, the rest of the page follows the answer.
import { tellReach } from './house.js';
import { editBack, saidBack, saidLater } from './edit_back.js';
import { EditQueue, sendLeftBehind } from './edit_queue.js';
import { RefusedEdits } from './refused_edits.js';
import { ScheduleTable } from './schedule_table.js';

const form = /** @type {HTMLFormElement} */ (document.querySelector('#schedule'));
const { job, revision, start } = form.dataset;
const home = `/jobs/${encodeURIComponent(job)}`;
const address = `${home}/edits${location.search}`;
const prefix = `drawerwright.edits.${job}.`;
const own = prefix + Math.random().toString(36).slice(2);
const table = new ScheduleTable(form.querySelector('table.rows'), Number(start));
const status = form.querySelector('[data-saved]');
const remarks = form.querySelector('[data-remarks]');
const kept = new RefusedEdits(job, form.querySelector('[data-refused]'));
const bar = document.querySelector('[data-unreachable]');
let totalsTimer = 0;
navigator.locks?.request(own, () => new Promise(() => {}));

const queue = new EditQueue({ address, store: own, basedOn: Number(revision), toEnd: form.dataset.more === '', saved, refused, state: tell });

/** @param {any} answer @param {boolean} more */
function saved(answer, more) {
  form.elements.based_on.value = answer.revision;
  form.dataset.revision = answer.revision;
  form.querySelector('[value="undo"]').disabled = !answer.can_undo;
  form.querySelector('[value="redo"]').disabled = !answer.can_redo;
  form.dataset.count = answer.count;
  form.dataset.more = answer.to_end ? '' : '1';
  queue.toEnd = answer.to_end;
  document.querySelector('[data-pieces]').innerHTML = answer.pieces;
  if (!(answer.whole && more)) table.take(answer, (place, key) => queue.has(place, key));
  if (answer.shared) takeShared(answer.shared);
  remarks.replaceChildren(...answer.remarks.map((text) => Object.assign(document.createElement('li'), { textContent: text })));
  remarks.hidden = answer.remarks.length === 0;
  told = answer.whole ? '' : Object.keys(answer.rows).length === 1 ? spoken(Number(Object.keys(answer.rows)[0])) : '';
  clearTimeout(totalsTimer);
  totalsTimer = setTimeout(showTotals, 150);
}
let told = '';

/** What cannot be kept stays in its cell, marked, and in the list of what was not saved. @param {import('./edit_queue.js').Refused[]} list */
function refused(list) {
  for (const { edit, says } of list) {
    const row = edit.row === undefined ? undefined : table.rowAt(edit.row);
    const name = row ? nameOf(row) : edit.row === undefined ? '' : `row ${edit.row + 1}`;
    const heading = edit.key ? table.headingOf(edit.key) : edit.do === 'set' ? '' : edit.do;
    kept.add({ name, key: edit.key ?? '', heading, text: edit.text ?? JSON.stringify(edit), says });
    const input = row && edit.do === 'set' && table.cell(row, edit.key);
    if (!input) continue;
    if (edit.was !== undefined) input.defaultValue = edit.was;
    input.value = edit.text;
    table.markUnsaved(input, says);
  }
}

/** @param {HTMLTableSectionElement} row */
const nameOf = (row) => table.cell(row, 'id')?.defaultValue || `row ${table.placeOf(row) + 1}`;

/** Undo may have changed what all drawers share. @param {Record<string, string>} shared */
function takeShared(shared) {
  for (const [name, text] of Object.entries(shared)) {
    const field = form.elements.namedItem(name);
    if (field instanceof HTMLSelectElement) {
      if (numbers.hidden) for (const option of field.options) option.selected = option.defaultSelected = option.value === text;
    } else if (field && field !== document.activeElement) { field.value = text; field.defaultValue = text; }
  }
}

/** @param {number} place */
function spoken(place) {
  const row = table.rowAt(place);
  const verdict = row?.querySelector('.verdict-of')?.textContent.trim();
  return verdict ? `, ${table.cell(row, 'id')?.value} ${verdict.toLowerCase()}` : '';
}

/** What the last undo or redo does, while the server has not answered it. */
let back = '';

/** Undo or redo. What it does to a cell that waits to be sent is shown at once. @param {'undo'|'redo'} what */
function goBack(what) {
  const edit = editBack([...queue.flight, ...queue.waiting], what);
  const row = edit && edit.row < Number(form.dataset.count) ? table.rowAt(edit.row) : undefined;
  const input = row && edit.was !== undefined ? table.cell(row, edit.key) : null;
  back = saidLater(what);
  if (input) {
    input.value = input.defaultValue = what === 'undo' ? edit.was : edit.text;
    table.markSaved(input);
    back = saidBack(what, `${nameOf(row)} ${table.headingOf(edit.key)}`, input.value);
  }
  queue.goBack(what);
  if (what === 'undo') form.querySelector('[value="redo"]').disabled = false;
}

function tell(state, what) {
  tellReach(state === 'lost');
  form.dataset.state = state;
  if (state === 'idle') back = '';
  if (state === 'saving') status.textContent = 'Saving';
  if (state === 'saving' || state === 'lost') form.querySelector('[value="undo"]').disabled = false;
  if (state === 'idle') status.textContent = `Saved, revision ${what}${told}${kept.count ? `; not saved: ${kept.count}` : ''}`;
  if (state === 'lost') {
    const edits = what === 1 ? '1 edit' : `${what} edits`;
    bar.textContent = `Not reachable, ${edits} kept here`;
    status.textContent = back ? `${edits} kept here; ${back}` : `${edits} kept here`;
  }
  if (state === 'conflict') location.assign(what);
  form.querySelectorAll('tbody.waiting').forEach((row) => row.classList.toggle('waiting', state === 'lost'));
}

async function showTotals() {
  if (!queue.idle) return;
  try {
    const reply = await fetch(`${home}/totals`, { headers: { Accept: 'text/html' } });
    if (!reply.ok) return;
    const totals = document.querySelector('[data-totals]');
    totals.innerHTML = await reply.text();
    // Whether a cabinet that stands free tips hangs on what was edited: told anew with the totals.
    const free = totals.querySelector('[data-free-now]');
    if (free) document.querySelector('[data-free]')?.replaceChildren(free.content);
    free?.remove();
  } catch { /* the next answer asks again */ }
}

/** A cell was typed. @param {HTMLInputElement} input */
function save(input) {
  if (input.value === input.defaultValue) return;
  const row = table.rowOf(input);
  const place = table.placeOf(row);
  if (table.isBlank(row)) table.begin(row);
  row.classList.add('waiting');
  kept.drop(nameOf(row), table.keyOf(input));
  table.markSaved(input);
  const was = input.defaultValue;
  input.defaultValue = input.value;
  queue.add({ do: 'set', row: place, key: table.keyOf(input), text: input.value, was });
}

const numbers = form.querySelector('[data-numbers]');
const units = form.elements.namedItem('units');
numbers.hidden = true;
numbers.querySelector('[data-numbers-do]').hidden = false;

/** Other units mean other lengths wherever a number has none: asked before, never done silently. */
function askUnits() {
  const [before, after] = [[...units.options].find((one) => one.value !== units.value)?.value ?? '', units.value];
  const some = [...form.querySelectorAll('[data-key^="opening."] input')].find((input) => /^[\d.,]+$/.test(input.value))?.value ?? '562';
  numbers.querySelector('[data-keep]').textContent = `${some} becomes “${some} ${before}”`;
  numbers.querySelector('[data-reread]').textContent = `${some} ${before} becomes ${some} ${after}`;
  numbers.hidden = false;
  numbers.querySelector('input').focus();
}

/** @param {string} how */
function changeUnits(how) {
  numbers.hidden = true;
  for (const option of units.options) option.defaultSelected = option.selected;
  queue.add({ do: 'share', key: 'units', text: units.value, numbers: how });
}

numbers.querySelector('[data-numbers-change]').addEventListener('click', () => {
  changeUnits(numbers.querySelector('input:checked').value);
  units.focus();
});
numbers.querySelector('[data-numbers-leave]').addEventListener('click', () => {
  for (const option of units.options) option.selected = option.defaultSelected;
  numbers.hidden = true;
  units.focus();
});

/** What all drawers share was typed. @param {HTMLInputElement} field */
function share(field) {
  if (field.name === 'units') {
    const same = [...units.options].every((option) => option.selected === option.defaultSelected);
    if (same) numbers.hidden = true;
    else if ([...form.querySelectorAll('.cell input, .shared-fields input')].some((input) => /\d/.test(input.value))) askUnits();
    else changeUnits('keep');
    return;
  }
  if (/^(title|defaults\.)/.test(field.name)) queue.add({ do: 'share', key: field.name, text: field.value.replace(/\n/g, ' ') });
}

form.addEventListener('change', (event) => {
  const field = /** @type {HTMLInputElement} */ (event.target);
  if (field.closest('.cell')) save(field); else share(field);
});

// Leaving in the midst of a cell: what stands there is kept, and sent now or by the next page.
addEventListener('pagehide', () => {
  const field = document.activeElement;
  if (!(field instanceof HTMLInputElement || field instanceof HTMLTextAreaElement) || field.form !== form) return;
  if (field.closest('.cell')) save(field); else if (field.value !== field.defaultValue) share(field);
});

/** @param {number} by */
function move(by) {
  const rows = table.chosen;
  if (!rows.length) return;
  const places = rows.map((row) => table.placeOf(row));
  const active = document.activeElement;
  for (const row of by < 0 ? rows : [...rows].reverse()) {
    const other = by < 0 ? row.previousElementSibling : row.nextElementSibling;
    if (!(other instanceof HTMLTableSectionElement) || other.tagName !== 'TBODY' || table.isBlank(other) || rows.includes(other)) continue;
    if (by < 0) other.before(row); else other.after(row);
  }
  if (active instanceof HTMLElement && active !== document.activeElement) active.focus();
  queue.add({ do: 'move', rows: places, by });
}

const does = {
  add() {
    const rows = table.chosen;
    const after = rows.at(-1);
    const before = after?.nextElementSibling ?? null;
    if (!after || !before || table.isBlank(before)) {
      const blank = table.rows.at(-1);
      if (blank && table.isBlank(blank)) { table.cell(blank, 'opening.width')?.focus(); return; }
    }
    const at = after ? table.placeOf(after) + 1 : Number(form.dataset.count);
    const row = before ? table.addBlank(before) : null;
    queue.add({ do: 'add', at });
    if (row) table.cell(row, 'opening.width')?.focus();
  },
  copy() {
    const rows = table.chosen;
    if (rows.length) queue.add({ do: 'copy', rows: rows.map((row) => table.placeOf(row)) });
  },
  remove() {
    const rows = table.chosen;
    if (!rows.length) return;
    const places = rows.map((row) => table.placeOf(row));
    const near = rows.at(-1).nextElementSibling ?? rows[0].previousElementSibling;
    rows.forEach((row) => row.remove());
    if (near instanceof HTMLElement && near.tagName === 'TBODY') table.cell(near, 'id')?.focus();
    queue.add({ do: 'remove', rows: places });
    status.textContent = `${rows.length === 1 ? '1 row' : `${rows.length} rows`} deleted: Undo brings it back`;
  },
  up() { move(-1); },
  down() { move(1); },
  undo() { goBack('undo'); },
  redo() { goBack('redo'); },
  paste() {
    const [box, at] = [form.elements.paste, form.elements['paste-at'].value];
    if (box.value.trim()) queue.add({ do: 'paste', row: at ? Number.parseInt(at, 10) : Number(form.dataset.count), key: 'id', columns: table.columns, text: box.value });
    box.value = '';
  },
  async block() {
    const rows = table.chosen.map((row) => table.placeOf(row)).join(',');
    const query = new URLSearchParams(location.search);
    if (rows) query.set('rows', rows);
    const text = await (await fetch(`${home}/block?${query}`)).text();
    try {
      await navigator.clipboard.writeText(text);
      status.textContent = 'Copied';
    } catch {
      form.elements.paste.closest('details').open = true;
      form.elements.paste.value = text;
      form.elements.paste.select();
      status.textContent = 'Marked in the paste box: copy it from there';
    }
  },
};

form.addEventListener('submit', (event) => {
  event.preventDefault();
  if (document.activeElement?.closest?.('.cell')) save(document.activeElement);
  const what = /** @type {HTMLButtonElement | null} */ (event.submitter)?.value;
  if (what && what in does) does[what]();
});

// A button takes the focus away from the row that it is meant for: the row is remembered.
table.table.addEventListener('focusin', (event) => { table.last = table.rowOf(event.target); });

table.table.addEventListener('paste', (event) => {
  const input = /** @type {HTMLInputElement} */ (event.target);
  const text = event.clipboardData?.getData('text/plain') ?? '';
  if (!input.closest?.('.cell') || !/[\t\n\r]/.test(text.replace(/[\r\n]+$/, ''))) return;
  event.preventDefault();
  const row = table.rowOf(input);
  status.textContent = 'Pasting';
  queue.add({ do: 'paste', row: table.placeOf(row), key: table.keyOf(input), columns: table.columns, text });
});

table.table.addEventListener('keydown', (event) => {
  const input = /** @type {HTMLInputElement} */ (event.target);
  if (!input.closest?.('.cell') || event.isComposing) return;
  const arrow = { ArrowUp: [-1, 0], ArrowDown: [1, 0], ArrowLeft: [0, -1], ArrowRight: [0, 1] }[event.key];
  if (arrow && event.altKey && arrow[0]) { event.preventDefault(); save(input); move(arrow[0]); return; }
  if (event.key.toLowerCase() === 'z' && (event.ctrlKey || event.metaKey) && input.value === input.defaultValue) {
    event.preventDefault();
    goBack(event.shiftKey ? 'redo' : 'undo');
    return;
  }
  if (event.altKey || event.ctrlKey || event.metaKey) return;
  if (event.key === 'Enter') { event.preventDefault(); if (!table.go(input, event.shiftKey ? -1 : 1, 0)) save(input); return; }
  if (event.key === 'Escape') { input.value = input.defaultValue; input.select(); return; }
  if (!arrow || event.shiftKey) return;
  const [from, to, end] = [input.selectionStart, input.selectionEnd, input.value.length];
  const all = from === 0 && to === end;
  const atEdge = arrow[1] < 0 ? from === 0 && (to === 0 || all) : to === end && (from === end || all);
  if (arrow[0] || atEdge) if (table.go(input, arrow[0], arrow[1])) event.preventDefault();
});

/** Changes of single drawers that were typed on their sheets and never saved. */
function showDrafts() {
  const [host, home_] = [form.querySelector('[data-drafts]'), `draft:${home}/drawers/`];
  let keys = [];
  try { keys = Object.keys(localStorage).filter((key) => key.startsWith(home_)).sort(); } catch { /* nothing is kept */ }
  host.replaceChildren(...keys.map((key) => {
    const [item, link] = [document.createElement('li'), document.createElement('a')];
    link.href = `${key.slice('draft:'.length)}?${localStorage.getItem(key)}`;
    link.textContent = 'show them';
    item.append(`Drawer ${decodeURIComponent(key.slice(home_.length))} has changes that were not saved: `, link);
    return item;
  }));
  host.hidden = keys.length === 0;
}
addEventListener('pageshow', (event) => { if (event.persisted) showDrafts(); });

form.querySelector('[data-save]').hidden = true;
form.querySelector('[data-keys]').hidden = false;
form.querySelector('#title').addEventListener('keydown', (event) => { if (event.key === 'Enter') { event.preventDefault(); event.target.blur(); } });

function takeUp() {
  sendLeftBehind(prefix, own, address, refused).then(({ sent, settle }) => {
    if (settle) location.assign(settle);
    else if (sent) location.reload();
    else if (form.dataset.state === 'lost' && queue.idle) tell('idle', form.dataset.revision);
  }, () => { if (queue.idle) tell('lost', 0); setTimeout(takeUp, 4000); });
}
takeUp();
showDrafts();
if (!document.querySelector('[data-totals] .count')) showTotals();
form.dataset.ready = '1';
