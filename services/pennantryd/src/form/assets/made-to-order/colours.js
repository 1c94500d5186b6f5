/** The order of the colours: moved by buttons and by dragging. */

import { swatch } from "./cloth.js";
import { el, renew } from "./dom.js";

export function colourOrder(form) {
  const { text, catalogue } = form;
  const rows = el("ol", { class: "order" });
  const move = (from, to) => {
    const chosen = [...form.fabrics()];
    if (to < 0 || to >= chosen.length || from === to) return;
    const [one] = chosen.splice(from, 1);
    chosen.splice(to, 0, one);
    form.set({ fabrics: chosen });
    const name = catalogue.fabrics.find(({ code }) => code === one)?.name ?? one;
    form.announce(text.get("order.moved", { name, place: to + 1, of: chosen.length }));
  };
  const row = (code, index, count) => {
    const fabric = catalogue.fabrics.find((one) => one.code === code) ?? { code, name: code, fibre: "", swatch: "#999999" };
    const button = (kind, sign, off, act) => el("button", {
      type: "button", class: "icon", "data-key": `${kind}-${code}`, "aria-disabled": off ? "true" : null,
      "aria-label": text.get(`order.${kind}`, { name: fabric.name }), on: { click: () => !off && act() },
    }, sign);
    const item = el("li", { "data-code": code },
      el("span", { class: "grip", "aria-hidden": "true" }, "⠿"),
      swatch(fabric, `mto-order-${code}`, form.origin), el("span", { class: "order-name" }, fabric.name),
      button("earlier", "↑", index === 0, () => move(index, index - 1)),
      button("later", "↓", index === count - 1, () => move(index, index + 1)),
      button("remove", "×", count === 1, () => form.set({ fabrics: form.fabrics().filter((one) => one !== code) })));
    dragged(item, rows, index, move);
    return item;
  };
  form.onRefresh(() => {
    const chosen = form.fabrics();
    renew(rows, chosen, () => chosen.map((code, index) => row(code, index, chosen.length)));
  });
  return rows;
}

/** Dragging by the grip, with a finger, a pen or a mouse. */
function dragged(item, rows, index, move) {
  const grip = item.firstChild;
  const target = (y) => {
    const others = [...rows.children];
    const over = others.findIndex((one) => y < one.getBoundingClientRect().bottom);
    return over < 0 ? others.length - 1 : over;
  };
  grip.addEventListener("pointerdown", (event) => {
    event.preventDefault();
    grip.setPointerCapture(event.pointerId);
    item.classList.add("is-dragged");
    const follow = (moved) => {
      [...rows.children].forEach((one, at) => one.classList.toggle("is-target", at === target(moved.clientY) && at !== index));
    };
    const end = (ended) => {
      grip.removeEventListener("pointermove", follow);
      item.classList.remove("is-dragged");
      for (const one of rows.children) one.classList.remove("is-target");
      if (ended.type === "pointerup") move(index, target(ended.clientY));
    };
    grip.addEventListener("pointermove", follow);
    grip.addEventListener("pointerup", end, { once: true });
    grip.addEventListener("pointercancel", end, { once: true });
  });
}
