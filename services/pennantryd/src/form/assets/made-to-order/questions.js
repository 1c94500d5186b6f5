/** The three questions that come first: how long, which cloths, where and who. */

import { swatch } from "./cloth.js";
import { el } from "./dom.js";
import { meaning } from "./drawing.js";
import { asksOfChild } from "./enquiry.js";
import { group, length, oneOf, whole } from "./fields.js";

/** How long: what the length means, drawn, and then the number. */
export function howLong(form) {
  const { text } = form;
  const measure = oneOf(form, "measure", {
    legend: text.get("measure.legend"),
    className: "measure",
    options: ["flagged", "overall", "hang"].map((value) => ({
      value, label: text.get(`measure.${value}`), detail: text.get(`measure.${value}.detail`), picture: meaning(value),
    })),
    chosen: () => form.choices.measure,
    // a count that went with another meaning would now be another string
    pick: (value) => form.set({ measure: value, count: null, leftover: "" }),
  });
  const number = length(form, "length", {
    label: text.get("length.label"), hint: text.get("length.hint"), key: "lengthUm", unit: form.imperial ? "ft" : "m", className: "main",
  });
  const hang = el("div", { class: "pair" },
    length(form, "dip", { label: text.get("dip.label"), hint: text.get("dip.hint"), key: "dipUm", unit: form.imperial ? "in" : "cm" }),
    whole(form, "swags", { label: text.get("swags.label"), hint: text.get("swags.hint"), key: "swagCount", least: 1, most: 200, empty: 1 }));
  form.onRefresh(() => {
    hang.hidden = form.choices.measure !== "hang";
  });
  return question(1, text.get("question.long"), measure, number, hang);
}

/** Which cloths: pressed in the order in which they hang. */
export function whichCloths(form) {
  const { text, catalogue } = form;
  const some = catalogue.fabrics.some((fabric) => fabric.image);
  const mark = (fabric) => (some && !fabric.image ? ` · ${text.get("cloth.drawn")}` : "");
  const buttons = catalogue.fabrics.map((fabric) => {
    const place = el("span", { class: "place", "aria-hidden": "true" });
    const words = [fabric.name, fabric.fibre, fabric.oneWay ? text.get("cloth.oneWay") : "", fabric.image ? "" : text.get("cloth.drawn")];
    const button = el("button", {
      type: "button", class: "cloth", title: words.filter(Boolean).join(", "), "data-code": fabric.code,
      on: { click: () => form.set({ fabrics: pressed(form, fabric.code) }) },
    }, swatch(fabric, `mto-swatch-${fabric.code}`, form.origin), el("span", { class: "cloth-name" }, fabric.name, el("small", {}, fabric.fibre + mark(fabric))), place);
    return { fabric, button, place };
  });
  form.onRefresh(() => {
    const chosen = form.fabrics();
    for (const { fabric, button, place } of buttons) {
      const index = chosen.indexOf(fabric.code);
      button.setAttribute("aria-pressed", String(index >= 0));
      place.textContent = index >= 0 ? String(index + 1) : "";
    }
  });
  const all = catalogue.fabrics.every((fabric) => fabric.image);
  const hint = text.get("cloths.scale") + (all ? "" : ` ${text.get("cloths.drawn")}`);
  return question(2, text.get("question.cloths"),
    group("cloths", { legend: el("span", { class: "quiet" }, text.get("cloths.legend")), hint },
      el("div", { class: "cloths-grid" }, buttons.map(({ button }) => button))));
}

/** The fabrics once one of them is pressed. The last one stays: a string is of some cloth. */
function pressed(form, code) {
  const chosen = form.fabrics();
  if (!chosen.includes(code)) return [...chosen, code].slice(0, 26);
  return chosen.length > 1 ? chosen.filter((one) => one !== code) : chosen;
}

const NURSERY = ["PLACE_CHILD_ROOM", "PLACE_CHILDCARE"];

/** Where and who. "Nursery" can mean two places, so it is asked which. */
export function whereAndWho(form) {
  const { text } = form;
  let nursery = false;
  const option = (value) => ({ value, label: text.get(`place.${value || "none"}`) });
  const place = oneOf(form, "place", {
    legend: text.get("place.legend"),
    className: "words",
    options: [option("PLACE_HOME"), option("NURSERY"), option("PLACE_COT"), option("PLACE_VENUE"), option("PLACE_OUTDOORS"), option("")],
    chosen: () => (nursery || NURSERY.includes(form.choices.place) ? "NURSERY" : form.choices.place),
    pick: (value) => {
      nursery = value === "NURSERY";
      form.set({ place: nursery ? "" : value });
    },
  });
  const which = oneOf(form, "nursery", {
    legend: text.get("nursery.legend"),
    className: "words inner",
    options: NURSERY.map((value) => ({ value, label: text.get(`place.${value}`) })),
    chosen: () => form.choices.place,
    pick: (value) => form.set({ place: value }),
  });
  const who = oneOf(form, "who", {
    legend: text.get("who.legend"),
    hint: text.get("who.hint"),
    className: "words",
    options: ["WHO_CHILD", "WHO_NO_CHILD", ""].map((value) => ({ value, label: text.get(`who.${value || "none"}`) })),
    chosen: () => form.choices.who,
    pick: (value) => form.set({ who: value }),
  });
  const age = whole(form, "months", { label: text.get("months.label"), hint: text.get("months.hint"), key: "months", least: 0, most: 216, empty: null });
  const small = form.imperial ? "in" : "cm";
  const hanging = group("hanging", { legend: text.get("hanging.legend"), hint: text.get("hanging.hint"), className: "inner" },
    el("div", { class: "pair" },
      length(form, "height", { label: text.get("height.label"), hint: text.get("height.hint"), key: "heightUm", unit: small }),
      length(form, "cot", { label: text.get("cot.label"), hint: text.get("cot.hint"), key: "cotUm", unit: small }),
      whole(form, "fixings", { label: text.get("fixings.label"), hint: text.get("fixings.hint"), key: "fixings", least: 1, most: 1000, empty: null }),
      length(form, "span", { label: text.get("span.label"), hint: text.get("span.hint"), key: "spanUm", unit: form.imperial ? "ft" : "m" })));
  const wall = group("wall", { legend: text.get("wall.legend"), hint: text.get("wall.hint"), className: "inner" },
    el("div", { class: "pair" },
      length(form, "wallWidth", { label: text.get("wallWidth.label"), key: "wallWidthUm", unit: form.imperial ? "ft" : "m" }),
      length(form, "wallHeight", { label: text.get("wallHeight.label"), key: "wallHeightUm", unit: form.imperial ? "ft" : "m" })));
  form.onRefresh(() => {
    which.hidden = !(nursery || NURSERY.includes(form.choices.place));
    age.hidden = form.choices.who !== "WHO_CHILD";
    hanging.hidden = !asksOfChild(form.choices);
    wall.hidden = form.choices.place !== "PLACE_VENUE";
  });
  return question(3, text.get("question.near"), place, which, who, age, hanging, wall);
}

function question(number, heading, ...children) {
  return el("section", { class: "question" }, el("h3", {}, el("span", { class: "number", "aria-hidden": "true" }, number), heading), ...children);
}
