// A fragment of a sheet laid over what is in the page: only what an edit changed is touched, so that the
// browser sets and paints no more than that, and what has the focus or was scrolled stays as it is.
//
// The drawing's elements come one a line inside elements with `data-pieces`, and are compared as text with
// those that came before; the rest is compared element by element.

const BEGINS = /data-pieces="([^"]*)">$/;
const ENDS = '</g>';

/** @type {WeakMap<Element, string[]>} the pieces of a container as they came */
const came = new WeakMap();

export class Fragment {
  /** @param {string} html a fragment as the server sends it */
  constructor(html) {
    /** @type {Map<string, string[]>} */
    this.pieces = new Map();
    const lines = html.split('\n'), rest = [];
    for (let at = 0; at < lines.length; at += 1) {
      rest.push(lines[at]);
      const begins = lines[at].includes('data-pieces') && BEGINS.exec(lines[at]);
      if (!begins) continue;
      const from = at + 1;
      do at += 1; while (at < lines.length && !lines[at].startsWith(ENDS));
      this.pieces.set(begins[1], lines.slice(from, at).filter(Boolean));
      rest.push(lines[at]);
    }
    const holder = document.createElement('template');
    holder.innerHTML = rest.join('\n');
    this.content = holder.content;
  }

  /** Make an element of the page the same as one of the fragment. @param {Element} old @param {Element} fresh */
  lay(old, fresh) {
    if (fresh.hasAttribute('data-picture') && !fresh.querySelector('path, circle')) {
      for (const name of ['x', 'y', 'width', 'height']) this.attribute(old, fresh, name);
      return; // the picture stays until the next comes
    }
    for (const { name } of [...old.attributes]) {
      if (!fresh.hasAttribute(name) && !(name === 'open' && old instanceof HTMLDetailsElement)) old.removeAttribute(name);
    }
    for (const { name } of fresh.attributes) this.attribute(old, fresh, name);
    if (fresh.hasAttribute('data-pieces')) this.draw(old, this.pieces.get(fresh.getAttribute('data-pieces')) ?? []);
    else this.children(old, fresh);
  }

  /** @param {Element} old @param {Element} fresh @param {string} name */
  attribute(old, fresh, name) {
    const value = fresh.getAttribute(name);
    if (value === null || value === old.getAttribute(name) || (name === 'href' && !value)) return;
    old.setAttribute(name, value);
    if (name === 'value' && old instanceof HTMLInputElement) old.value = value;
  }

  /** @param {Element} old @param {Element} fresh */
  children(old, fresh) {
    let at = old.firstChild;
    for (let next = fresh.firstChild; next;) {
      const one = next;
      next = one.nextSibling;
      if (!at) old.append(this.whole(one));
      else {
        const here = at;
        at = here.nextSibling;
        if (here.nodeName !== one.nodeName) here.replaceWith(this.whole(one));
        else if (here instanceof Element) {
          if (!here.isEqualNode(one)) this.lay(here, /** @type {Element} */ (one));
        }
        else if (here.nodeValue !== one.nodeValue) here.nodeValue = one.nodeValue;
      }
    }
    while (at) {
      const gone = at;
      at = gone.nextSibling;
      gone.remove();
    }
  }

  /** A node of the fragment with its drawing in it. @param {Node} one */
  whole(one) {
    if (one instanceof Element) {
      for (const each of one.querySelectorAll('[data-pieces]')) {
        each.replaceChildren();
        this.draw(each, this.pieces.get(each.getAttribute('data-pieces')) ?? []);
      }
    }
    return one;
  }

  /** Put a container's pieces into it, those that are not in it already. @param {Element} container @param {string[]} pieces */
  draw(container, pieces) {
    const before = container.childElementCount === came.get(container)?.length ? came.get(container) : [];
    const changed = pieces.flatMap((piece, at) => (piece === before[at] ? [] : [at]));
    came.set(container, pieces);
    while (container.childElementCount > pieces.length) container.lastElementChild.remove();
    if (!changed.length) return;
    const there = [...container.children];
    const holder = container.cloneNode(false);
    holder.innerHTML = changed.map((at) => pieces[at]).join('');
    const fresh = [...holder.children];
    changed.forEach((at, nth) => {
      const old = there[at], one = fresh[nth];
      if (!old) container.append(one);
      else if (old.nodeName !== one.nodeName) old.replaceWith(one);
      else this.lay(old, one);
    });
  }
}

/** Make the links of dimensions lead to where a sheet is now. @param {HTMLElement} part */
export function lead(part) {
  const folded = part.dataset.folded ?? '';
  const more = `${folded}${folded.includes('?') ? '&' : '?'}show=`;
  for (const link of part.querySelectorAll('a.dimension[data-quantity]')) {
    const open = link.getAttribute('aria-expanded') === 'true';
    link.setAttribute('href', open ? folded : more + link.getAttribute('data-quantity'));
  }
}
