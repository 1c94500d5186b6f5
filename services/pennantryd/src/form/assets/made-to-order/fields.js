/**
 * The form's controls: each with its label, a hint, and a place for what is wrong with it.
 *
 * `form` below is what controls talk to: `text`, `choices`, `set(changes)`, `onRefresh(refresh)`
 * and `fault(field, words)`, where "" takes a fault back. `id` names the field, `label` (`legend`)
 * and `hint` are words, and `key` is the choice that a control sets.
 */

import { el, say } from "./dom.js";
import { both, metricWords, read, UNITS } from "./lengths.js";

/** Puts a control into its field, with what stands `beside` and `after` it. */
export function field(form, id, { label, hint, control, beside, after, className = "" }) {
  control.id = `mto-${id}`;
  control.setAttribute("aria-describedby", `mto-${id}-hint mto-${id}-note mto-${id}-error`);
  return el("div", { class: `field ${className}`, "data-field": id },
    el("label", { for: `mto-${id}` }, label),
    el("p", { class: "hint", id: `mto-${id}-hint` }, hint ?? ""),
    el("div", { class: "control" }, control, beside ?? ""),
    after ?? "", ...marginalia(id));
}

/** Where a note of the shop's and an error go. */
function marginalia(id) {
  return [el("p", { class: "note", id: `mto-${id}-note`, lang: "en" }), el("p", { class: "error", id: `mto-${id}-error` })];
}

/** Several controls under one question. */
export function group(id, { legend, hint, className = "" }, ...children) {
  return el("fieldset", { class: `field ${className}`, "data-field": id, "aria-describedby": `mto-${id}-hint mto-${id}-note mto-${id}-error` },
    el("legend", {}, legend), el("p", { class: "hint", id: `mto-${id}-hint` }, hint ?? ""), ...children, ...marginalia(id));
}

/** One of several, each on its card: value, label, detail, picture. `chosen` tells which, `pick` takes one. */
export function oneOf(form, id, { legend, hint, options, chosen, pick, className = "" }) {
  const cards = options.map(({ value, label, detail, picture }) => {
    const input = el("input", { type: "radio", name: `mto-${id}`, value, on: { change: () => pick(value) } });
    return el("label", { class: "card" }, input, picture ?? "", el("span", { class: "card-words" }, el("span", {}, label), detail ? el("small", {}, detail) : ""));
  });
  const root = group(id, { legend, hint, className }, el("div", { class: "cards" }, cards));
  const refresh = () => {
    for (const card of cards) card.firstChild.checked = card.firstChild.value === chosen();
  };
  refresh();
  form.onRefresh(refresh);
  return root;
}

/** A length with its unit, echoed in both ways of measuring. */
export function length(form, id, { label, hint, key, unit, className = "" }) {
  const { text } = form;
  const input = el("input", { type: "text", autocomplete: "off", spellcheck: "false", enterkeyhint: "done", maxlength: 40 });
  const units = el("select", { "aria-label": text.get("length.unit", { label }) },
    UNITS.map((name) => el("option", { value: name }, text.get(`unit.${name}`))));
  units.value = unit;
  const echo = el("output", { class: "echo", for: `mto-${id}` });
  let own = null;
  const keys = () => {
    // fractions of an inch need letters and a stroke, which a number pad lacks
    input.setAttribute("inputmode", ["m", "cm", "mm"].includes(units.value) ? "decimal" : "text");
  };
  const take = () => {
    const found = read(input.value, units.value, text.point);
    own = "um" in found ? found.um : null;
    say(echo, own === null ? "" : both(own, found.imperial, text.locale));
    if (key === "lengthUm" && own !== null) form.setImperial(found.imperial);
    const fault = found.fault && found.fault !== "empty" ? text.get(`length.${found.fault}`, { example: text.get("length.example") }) : "";
    form.fault(id, fault);
    form.set({ [key]: own });
  };
  input.addEventListener("input", take);
  units.addEventListener("change", () => {
    keys();
    take();
  });
  const refresh = () => {
    if (form.choices[key] === own) return;
    own = form.choices[key];
    form.fault(id, "");
    if (own === null) {
      input.value = "";
      say(echo, "");
      return;
    }
    input.value = metricWords(own, text.locale).replace("\u00a0", " ");
    say(echo, both(own, ["ft", "in", "yd"].includes(units.value), text.locale));
  };
  keys();
  form.onRefresh(refresh);
  return field(form, id, { label, hint, control: input, beside: units, after: echo, className: `length ${className}` });
}

/** A whole number from `least` to `most`; `empty` stands for nothing typed. */
export function whole(form, id, { label, hint, key, least, most, empty, beside }) {
  const { text } = form;
  const input = el("input", { type: "text", inputmode: "numeric", autocomplete: "off", maxlength: 6, class: "short" });
  let own = form.choices[key];
  input.addEventListener("input", () => {
    const typed = input.value.trim();
    const value = typed === "" ? empty : /^\d{1,6}$/.test(typed) ? Number(typed) : NaN;
    const fits = value === empty || (value >= least && value <= most);
    form.fault(id, fits ? "" : text.get("whole.range", { least, most }));
    if (fits) own = value;
    form.set(fits ? { [key]: value } : {});
  });
  const write = () => {
    input.value = own === null ? "" : String(own);
  };
  const refresh = () => {
    if (form.choices[key] === own) return;
    own = form.choices[key];
    form.fault(id, "");
    write();
  };
  write();
  form.onRefresh(refresh);
  return field(form, id, { label, hint, control: input, beside });
}

/** One of a list of values and their words. */
export function list(form, id, { label, hint, key, options }) {
  const select = el("select", { on: { change: () => form.set({ [key]: select.value }) } },
    options.map(([value, words]) => el("option", { value }, words)));
  const refresh = () => {
    select.value = form.choices[key];
  };
  refresh();
  form.onRefresh(refresh);
  return field(form, id, { label, hint, control: select });
}
