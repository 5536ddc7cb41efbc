// What undo or redo means while edits still wait for the server: told where it is one of theirs.

/** @typedef {import('./edit_queue.js').Edit} Edit */

/**
 * The edit that undo would take back, or redo do again, if it is a typed cell that the server has not got yet.
 * None where rows came, went or moved meanwhile, or where it is a save of before: the server alone knows then.
 * @param {Edit[]} edits on their way, the oldest first @param {'undo'|'redo'} what @returns {Edit | undefined}
 */
export function editBack(edits, what) {
  /** @type {Edit[]} */ let done = [];
  /** @type {Edit[]} */ let undone = [];
  for (const edit of edits) {
    const [from, to] = edit.do === 'undo' ? [done, undone] : [undone, done];
    if (edit.do === 'set') { done.push(edit); undone = []; }
    else if (edit.do !== 'undo' && edit.do !== 'redo') return undefined;
    else if (from.length) to.push(from.pop());
    else { done = []; undone = []; } // a save of before, or nothing at all
  }
  return (what === 'undo' ? done : undone).at(-1);
}

/** @param {'undo'|'redo'} what @param {string} cell name of the row and heading @param {string} text that stands there now */
export function saidBack(what, cell, text) {
  return `${what === 'undo' ? 'taken back' : 'done again'}: ${cell} is ${text || 'empty'}${what === 'undo' ? ' again' : ''}`;
}

/** @param {'undo'|'redo'} what */
export function saidLater(what) {
  return `what ${what === 'undo' ? 'Undo takes back' : 'Redo brings back'} is shown once the server is back`;
}
