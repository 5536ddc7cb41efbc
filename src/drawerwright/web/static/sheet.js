// Fragments of a sheet put into the page: drawings, notes and tables in the place of those before.
import { Fragment, lead } from './patch.js';

/** @param {string} html */
function parsed(html) {
  const holder = document.createElement('template');
  holder.innerHTML = html;
  return holder.content;
}

/**
 * Put every part of a fragment into the place of the part of its name.
 * @param {string} html @param {HTMLElement} host where parts go that have no place yet
 * @param {string} [focus] quantity whose dimension is to have the focus
 */
export function swap(html, host, focus) {
  const fragment = new Fragment(html);
  const fresh = fragment.content;
  const active = document.activeElement;
  const held = active instanceof Element && active.closest('[data-swap]') ? active.id : '';
  for (const part of fresh.querySelectorAll('[data-swap]')) {
    const old = document.querySelector(`[data-swap="${part.getAttribute('data-swap')}"]`);
    if (old) fragment.lay(old, part);
    else host.append(fragment.whole(part));
    if (part.hasAttribute('data-folded')) lead(old ?? part);
  }
  placePictures(fresh);
  const title = fresh.querySelector('[data-title]');
  if (title) document.title = title.textContent ?? '';
  say();
  if (focus) showUnfolded();
  const target = (held && document.getElementById(held)) || (focus && shown(focus));
  if (target && document.activeElement !== target) target.focus({ preventScroll: true });
}

/** A working that stands under its view, one view of several aside: bring it onto the screen. */
export function showUnfolded() {
  const under = document.querySelector('.unfolded-under');
  if (under && under.getBoundingClientRect().height) under.scrollIntoView({ block: 'center', inline: 'center' });
}

/** Put a drawn-out picture into its place, and how far it is drawn out beside the slider. @param {string} html */
export function swapPictures(html) {
  placePictures(parsed(html));
}

function placePictures(fresh) {
  for (const picture of fresh.querySelectorAll('[data-picture]')) {
    if (picture.closest('[data-swap]')) continue;
    const old = document.querySelector(`[data-swap] [data-picture="${picture.getAttribute('data-picture')}"]`);
    if (!old) continue;
    old.setAttribute('viewBox', picture.getAttribute('viewBox'));
    old.setAttribute('aria-label', picture.getAttribute('aria-label'));
    old.replaceChildren(...picture.childNodes);
  }
  const out = fresh.querySelector('[data-told-out]')?.textContent;
  if (out === undefined || out === null) return;
  for (const told of document.querySelectorAll('[data-out]')) told.textContent = out;
  for (const slider of document.querySelectorAll('[data-pull] input[type="range"]')) {
    slider.setAttribute('aria-valuetext', slider.closest('label')?.querySelector('b')?.textContent ?? '');
  }
}

/** The dimension of a quantity that is on the screen. @param {string} quantity */
function shown(quantity) {
  const found = [...document.querySelectorAll(`a.dimension[data-quantity="${CSS.escape(quantity)}"]`)];
  return found.find((one) => one.getBoundingClientRect().width > 0);
}

let said = document.querySelector('[data-verdict]')?.textContent?.trim() ?? '';

/** Tell whoever listens that the verdict is another one. */
function say() {
  const verdict = document.querySelector('[data-verdict]')?.textContent?.trim() ?? '';
  const live = document.querySelector('[data-said]');
  if (live && verdict !== said) live.textContent = verdict;
  said = verdict;
}
