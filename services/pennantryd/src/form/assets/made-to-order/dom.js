/** Making elements. Text goes in as text and never as markup. */

const SVG = "http://www.w3.org/2000/svg";

function fill(node, names, children) {
  for (const [name, value] of Object.entries(names)) {
    if (value === undefined || value === null || value === false) continue;
    if (name === "on") for (const [event, heard] of Object.entries(value)) node.addEventListener(event, heard);
    else if (name === "value") node.value = value;
    else node.setAttribute(name, value === true ? "" : String(value));
  }
  node.append(...children.flat().filter((child) => child !== null && child !== undefined && child !== false && child !== ""));
  return node;
}

/** An element: attributes by `names`, where `on` holds listeners; children that are null, false or "" are left out. */
export function el(tag, names = {}, ...children) {
  return fill(document.createElement(tag), names, children);
}

/** The same for a drawing. */
export function svg(tag, names = {}, ...children) {
  return fill(document.createElementNS(SVG, tag), names, children);
}

/** Sets a text only where it is another one, so that nothing is drawn or spoken for nothing. */
export function say(node, text) {
  if (node.textContent !== text) node.textContent = text;
}

/**
 * Makes a part of the page anew when what it shows has changed, and not else, so that
 * nobody loses their place in it. Focus goes back to what has the same `data-key`, else to the
 * next that can be used, else to the part's own heading.
 *
 * @param {Element} place
 * @param {unknown} shows anything JSON can write
 * @param {() => (Node|string|null)[]} make
 */
export function renew(place, shows, make) {
  const now = JSON.stringify(shows ?? null);
  if (place.shown === now) return;
  place.shown = now;
  const root = place.getRootNode();
  const active = root.activeElement;
  const within = Boolean(active) && active !== place && place.contains(active);
  const held = within ? active.dataset?.key : undefined;
  place.replaceChildren(...make().filter((child) => child !== null && child !== false));
  if (!within) return;
  const next = (held && place.querySelector(`[data-key="${CSS.escape(held)}"]`)) || place.querySelector('[data-key]:not([aria-disabled="true"])') || place.querySelector("h3, h4, p") || place;
  if (next.dataset.key === undefined) next.tabIndex = -1;
  next.focus();
}
