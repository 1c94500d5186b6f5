/** What is asked only of those who want to say more, behind one disclosure. */

import { colourOrder } from "./colours.js";
import { el } from "./dom.js";
import { shapeIcon } from "./drawing.js";
import { shapeDetail } from "./enquiry.js";
import { field, group, length, list, oneOf, whole } from "./fields.js";
import { mm, outline } from "./geometry.js";

const SHAPES = ["SHAPE_TRIANGLE", "SHAPE_BLUNT", "SHAPE_SWALLOWTAIL", "SHAPE_SHIELD", "SHAPE_SCALLOP", "SHAPE_RECTANGLE"];

export function more(form) {
  const { text } = form;
  const parts = [designs(form), shapes(form), colours(form), letters(form), ends(form), sides(form), delivery(form)];
  return el("details", { class: "more" },
    el("summary", {}, el("span", {}, text.get("more.summary")), el("small", {}, text.get("more.detail"))),
    el("div", { class: "more-body" }, ...parts.filter(Boolean)));
}

/** The shop's designs, where the page does not say which one it is about. */
function designs(form) {
  if (form.fixedDesign || form.catalogue.designs.length < 2) return null;
  return list(form, "design", {
    label: form.text.get("design.label"), hint: form.text.get("design.hint"), key: "design",
    options: form.catalogue.designs.map(({ code, name }, index) => [index === 0 ? "" : code, name]),
  });
}

function shapes(form) {
  const { text } = form;
  const icon = (shape) => {
    const pennant = { shape, widthMm: 100, dropMm: 120, ...shapeDetail(shape, { widthMm: 100, dropMm: 120 }) };
    const { points, arc } = outline(pennant, 100, 120);
    const spots = points.map((point) => point.map(mm).join(" "));
    return shapeIcon(`M0 0H100L${arc === undefined ? spots.join("L") : `${spots[0]}A${mm(arc)} ${mm(arc)} 0 0 1 ${spots[1]}`}Z`);
  };
  return oneOf(form, "shape", {
    legend: text.get("shape.legend"), className: "shapes",
    options: SHAPES.map((value) => ({ value, label: text.get(`shape.${value}`), picture: icon(value) })),
    chosen: () => form.choices.shape || form.design().pennant.shape,
    pick: (value) => form.set({ shape: value === form.design().pennant.shape ? "" : value }),
  });
}

function colours(form) {
  const { text } = form;
  return group("order", { legend: text.get("order.legend"), hint: text.get("order.hint") }, colourOrder(form),
    list(form, "rule", {
      label: text.get("rule.label"), key: "rule",
      options: ["RULE_REPEAT", "RULE_MIRROR_ENDS", "RULE_MIRROR_CENTRE"].map((rule) => [rule, text.get(`rule.${rule}`)]),
    }));
}

function letters(form) {
  if (!form.catalogue.lettersOffered) return null;
  const { text } = form;
  const input = el("input", { type: "text", maxlength: 60, autocomplete: "off", on: { input: () => form.set({ lettering: input.value }) } });
  form.onRefresh(() => {
    if (input.value !== form.choices.lettering) input.value = form.choices.lettering;
  });
  return field(form, "lettering", { label: text.get("lettering.label"), hint: text.get("lettering.hint"), control: input });
}

function ends(form) {
  const { text } = form;
  const small = form.imperial ? "in" : "cm";
  const loop = el("div", { class: "pair" },
    length(form, "loop", { label: text.get("loop.label"), hint: text.get("loop.hint"), key: "loopUm", unit: small }),
    list(form, "slips", { label: text.get("slips.label"), hint: text.get("slips.hint"), key: "slips",
      options: ["", "no", "yes"].map((value) => [value, text.get(`slips.${value || "none"}`)]) }));
  form.onRefresh(() => {
    loop.hidden = form.choices.ends !== "END_STYLE_LOOP";
  });
  return group("finish", { legend: text.get("ends.legend") },
    el("div", { class: "pair" },
      list(form, "ends", { label: text.get("ends.label"), key: "ends",
        options: ["", "END_STYLE_LOOP", "END_STYLE_TIE"].map((value) => [value, text.get(`ends.${value || "plain"}`)]) }),
      length(form, "tail", { label: text.get("tail.label"), hint: text.get("tail.hint"), key: "tailUm", unit: small })),
    loop);
}

function sides(form) {
  const { text } = form;
  const select = el("select", { on: { change: () => form.set({ construction: select.value === form.design().construction ? "" : select.value }) } });
  let known = "";
  form.onRefresh(() => {
    const design = form.design();
    if (known !== design.code) {
      known = design.code;
      select.replaceChildren(...design.constructions.map((kind) => el("option", { value: kind }, text.get(`construction.${kind}`))));
    }
    select.value = form.choices.construction || design.construction;
  });
  return field(form, "sides", { label: text.get("sides.label"), hint: text.get("sides.hint"), control: select });
}

function delivery(form) {
  const { text, catalogue } = form;
  const countries = [...new Set(catalogue.services.flatMap(({ countryCodes }) => countryCodes))]
    .map((code) => [code, text.country(code)]).sort((a, b) => a[1].localeCompare(b[1], text.locale));
  const day = el("input", { type: "date", min: new Date().toISOString().slice(0, 10), on: { change: () => form.set({ wantedDate: day.value, rush: false, service: "" }) } });
  form.onRefresh(() => {
    if (day.value !== form.choices.wantedDate) day.value = form.choices.wantedDate;
  });
  return group("sending", { legend: text.get("sending.legend") },
    el("div", { class: "pair" },
      whole(form, "quantity", { label: text.get("quantity.label"), hint: text.get("quantity.hint"), key: "quantity", least: 1, most: 10000, empty: 1 }),
      list(form, "destination", { label: text.get("destination.label"), key: "destination", options: [["", text.get("destination.none")], ...countries] })),
    field(form, "day", { label: text.get("day.label"), hint: text.get("day.hint"), control: day }));
}
