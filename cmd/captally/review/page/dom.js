// Makes and replaces elements. Text is always set as text, never as markup.

/** The element with an id. */
export const find = (id) => document.getElementById(id);

/** An element with properties and children. "data" and "aria" are objects of their own; "class" is a list of names. */
export function make(tag, properties = {}, ...children) {
  const e = document.createElement(tag);
  for (const [name, value] of Object.entries(properties)) {
    if (value === undefined || value === null) continue;
    if (name === 'class') e.className = value;
    else if (name === 'data') Object.assign(e.dataset, value);
    else if (name === 'aria') for (const [k, v] of Object.entries(value)) e.setAttribute(`aria-${k}`, v);
    else if (name.startsWith('on')) e.addEventListener(name.slice(2), value);
    else if (name in e) e[name] = value;
    else e.setAttribute(name, value);
  }
  e.append(...children.filter((c) => c !== '' && c !== null && c !== undefined));
  return e;
}

/** A button that does something. The key says which it is, so that the focus finds it again after a redraw. */
export function button(text, key, act, properties = {}) {
  return make('button', { type: 'button', data: { key }, onclick: act, ...properties }, text);
}

/** Redraws, and puts the focus back on the element with the same key. */
export function keepingFocus(draw) {
  const key = document.activeElement?.dataset?.key;
  draw();
  if (key && document.activeElement?.dataset?.key !== key) focusOn(key);
}

/** Puts the focus on the element with a key; says whether there is one. */
export function focusOn(key) {
  const e = document.querySelector(`[data-key="${CSS.escape(key)}"]`);
  e?.focus();
  return Boolean(e);
}

const drawn = new WeakMap(); // parent: its children by what they show

/** Draws a list of children, one an item. What shows the same as before stays: of a session of 200 sets, one decision changes a few. */
export function redraw(parent, items, draw) {
  const before = drawn.get(parent) ?? new Map();
  const now = new Map();
  for (const item of items) {
    let key = JSON.stringify(item);
    while (now.has(key)) key += '+';
    now.set(key, before.get(key) ?? draw(item));
  }
  drawn.set(parent, now);
  for (const [key, e] of before) if (!now.has(key)) e.remove();
  let at = parent.firstChild;
  for (const e of now.values()) {
    if (e === at) at = at.nextSibling;
    else parent.insertBefore(e, at);
  }
}
