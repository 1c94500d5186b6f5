/**
 * What the buyer has chosen, and the two ways in which it leaves the page: as an enquiry for
 * the gateway, and as the fragment of a link. No page here, so it can be tested without one.
 */

/**
 * @typedef {object} Choices what fresh() gives: lengths ("…Um") in whole micrometres, null or ""
 *   for what was not said. `measure` says what the length means; `count` and `leftover` go
 *   together, where one fewer or one more was chosen; `destination`, `service`, `design`,
 *   `fabrics` are codes; enums are those of the contract. `lettering` never leaves in a link.
 */

/** @returns {Choices} */
export function fresh() {
  return {
    measure: "flagged", lengthUm: null, dipUm: null, swagCount: 1,
    design: "", fabrics: [], rule: "RULE_REPEAT",
    place: "", who: "", months: null, heightUm: null, fixings: null, spanUm: null, cotUm: null,
    wallWidthUm: null, wallHeightUm: null,
    shape: "", construction: "", lettering: "", ends: "", loopUm: null, slips: "", tailUm: null,
    quantity: 1, destination: "", wantedDate: "",
    count: null, leftover: "", rush: false, service: "",
  };
}

/**
 * What a shape needs beside its width and drop, where the design is of another shape. Half,
 * a third and so on are a drawing hand's proportions: common practice, no source. Unit mm.
 *
 * @param {string} shape
 * @param {{widthMm: number, dropMm: number}} pennant the design's
 */
export function shapeDetail(shape, pennant) {
  const whole = (value) => Math.max(1, Math.round(value));
  switch (shape) {
    case "SHAPE_BLUNT": return { footMm: whole(pennant.widthMm * 0.4) };
    case "SHAPE_SWALLOWTAIL": return { notchMm: whole(pennant.dropMm * 0.28) };
    case "SHAPE_SHIELD": return { shoulderMm: whole(pennant.dropMm * 0.6) };
    case "SHAPE_SCALLOP": return { riseMm: Math.floor(Math.min(pennant.widthMm / 2, pennant.dropMm * 0.8, 500)) };
    default: return {};
  }
}

/**
 * The enquiry that stands for the choices.
 *
 * @param {Choices} choices
 * @param {object} [design] the design in force, of the catalogue
 * @returns {object|null} the gateway's Enquiry, or null while nothing says how long it is to be
 */
export function enquiry(choices, design) {
  const asked = {};
  const mm = (um) => um / 1000;
  if (choices.design) asked.designCode = choices.design;
  if (choices.lengthUm !== null) {
    if (choices.measure === "hang") {
      asked.hang = { spanMm: mm(choices.lengthUm), swagCount: choices.swagCount };
      if (choices.dipUm !== null) asked.hang.dipMm = mm(choices.dipUm);
    } else {
      asked[choices.measure === "overall" ? "overallMm" : "flaggedMm"] = mm(choices.lengthUm);
    }
  } else if (choices.lettering.trim() === "") {
    return null;
  }
  if (choices.count !== null) {
    asked.pennantCount = choices.count;
    if (choices.leftover) asked.fit = { leftover: choices.leftover };
  }
  if (choices.tailUm !== null) asked.tailMm = mm(choices.tailUm);
  if (choices.shape && choices.shape !== design?.pennant?.shape) {
    asked.pennant = { shape: choices.shape, ...(design ? shapeDetail(choices.shape, design.pennant) : {}) };
  }
  if (choices.construction) asked.construction = choices.construction;
  if (choices.fabrics.length > 0 || choices.rule !== "RULE_REPEAT") {
    const fabricCodes = choices.fabrics.length > 0 ? choices.fabrics : design?.fabricCodes ?? [];
    asked.colourOrder = { rule: choices.rule, fabricCodes };
  }
  if (choices.lettering.trim() !== "") asked.lettering = choices.lettering.trim();
  if (choices.ends) {
    const end = { style: choices.ends };
    if (choices.ends === "END_STYLE_LOOP") {
      if (choices.loopUm !== null) end.loopMm = mm(choices.loopUm);
      if (choices.slips) end.slips = choices.slips === "yes";
    }
    asked.finish = { ends: [end] };
  }
  if (choices.quantity !== 1) asked.quantity = choices.quantity;
  const near = nearby(choices);
  if (Object.keys(near).length > 0) asked.near = near;
  if (choices.destination) asked.destination = { countryCode: choices.destination };
  if (choices.service) asked.service = choices.service;
  if (choices.wantedDate) asked.wantedDate = choices.wantedDate;
  if (choices.rush) asked.rush = true;
  asked.shelf = true;
  return asked;
}

/** What was told of who is near. What was asked for another place is not passed on. */
function nearby(choices) {
  const near = {};
  const put = (name, um) => {
    if (um !== null) near[name] = um / 1000;
  };
  if (choices.who) near.who = choices.who;
  if (choices.who === "WHO_CHILD" && choices.months !== null) near.youngestMonths = choices.months;
  if (choices.place) near.place = choices.place;
  if (asksOfChild(choices)) {
    put("fixingHeightMm", choices.heightUm);
    if (choices.fixings !== null) near.fixings = choices.fixings;
    put("spanMm", choices.spanUm);
    put("cotDistanceMm", choices.cotUm);
  }
  if (choices.place === "PLACE_VENUE") {
    put("wallWidthMm", choices.wallWidthUm);
    put("wallHeightMm", choices.wallHeightUm);
  }
  return near;
}

/** Whether how it hangs has to be asked: wherever a child may come. */
export function asksOfChild(choices) {
  return choices.who === "WHO_CHILD" || ["PLACE_COT", "PLACE_CHILD_ROOM", "PLACE_CHILDCARE"].includes(choices.place);
}

/** The mark by which a fragment is known to be one of these, and not the page's own. */
const MARK = "made-to-order?";

/** Names in a link, short and for good: a link must still be read in a year. */
const LINKED = {
  m: ["measure", "word"], l: ["lengthUm", "whole"], dip: ["dipUm", "whole"], sw: ["swagCount", "whole"],
  d: ["design", "word"], f: ["fabrics", "words"], r: ["rule", "word"],
  pl: ["place", "word"], who: ["who", "word"], age: ["months", "whole"], h: ["heightUm", "whole"],
  fx: ["fixings", "whole"], sp: ["spanUm", "whole"], cot: ["cotUm", "whole"],
  ww: ["wallWidthUm", "whole"], wh: ["wallHeightUm", "whole"],
  s: ["shape", "word"], c: ["construction", "word"], e: ["ends", "word"], lp: ["loopUm", "whole"],
  sl: ["slips", "word"], t: ["tailUm", "whole"], q: ["quantity", "whole"], to: ["destination", "word"],
  day: ["wantedDate", "word"], n: ["count", "whole"], lo: ["leftover", "word"], rush: ["rush", "flag"], post: ["service", "word"],
};

/**
 * The choices as a link's fragment, without its "#". The lettering stays behind: it may be a
 * child's name, and links are passed on.
 *
 * @param {Choices} choices
 * @returns {string}
 */
export function toFragment(choices) {
  const plain = fresh();
  const pairs = new URLSearchParams();
  for (const [short, [name, kind]] of Object.entries(LINKED)) {
    const value = choices[name];
    if (JSON.stringify(value) === JSON.stringify(plain[name])) continue;
    pairs.set(short, kind === "words" ? value.join(".") : kind === "flag" ? "1" : String(value));
  }
  return MARK + pairs.toString();
}

/**
 * Reads a link's fragment. What it does not know it leaves out; the gateway judges the rest.
 *
 * @param {string} hash with or without "#"
 * @returns {Partial<Choices>|null} null where it is no such fragment
 */
export function fromFragment(hash) {
  const text = hash.replace(/^#/, "");
  if (!text.startsWith(MARK)) return null;
  const found = {};
  for (const [short, value] of new URLSearchParams(text.slice(MARK.length))) {
    const known = Object.hasOwn(LINKED, short) ? LINKED[short] : undefined;
    if (!known) continue;
    const [name, kind] = known;
    if (kind === "whole") {
      if (/^\d{1,13}$/.test(value)) found[name] = Number(value);
    } else if (kind === "words") {
      found[name] = value.split(".").filter((word) => /^[\w-]{1,40}$/.test(word)).slice(0, 26);
    } else if (kind === "flag") {
      found[name] = value === "1";
    } else if (/^[\w-]{1,60}$/.test(value)) {
      found[name] = value;
    }
  }
  if (found.measure && !["flagged", "overall", "hang"].includes(found.measure)) delete found.measure;
  return found;
}

/** Paths of the contract, longest first where one begins another, and the fields they are asked in. */
const FIELDS = [
  ["flaggedMm", "length"], ["overallMm", "length"], ["bindingMm", "length"], ["hang.dipMm", "dip"],
  ["hang.swagCount", "swags"], ["hang", "length"], ["pennantCount", "length"], ["gapMm", "length"], ["fit", "length"],
  ["colourOrder.rule", "rule"], ["colourOrder", "cloths"],
  ["near.youngestMonths", "months"], ["near.fixingHeightMm", "height"], ["near.fixings", "fixings"],
  ["near.spanMm", "span"], ["near.cotDistanceMm", "cot"], ["near.wallWidthMm", "wallWidth"],
  ["near.wallHeightMm", "wallHeight"], ["near.place", "place"], ["near", "who"],
  ["designCode", "design"], ["pennant", "shape"], ["construction", "sides"], ["backing", "sides"],
  ["lettering", "lettering"], ["finish.ends[0].loopMm", "loop"], ["finish.ends[0].slips", "slips"],
  ["finish", "ends"], ["tailMm", "tail"], ["bindingCode", "ends"], ["quantity", "quantity"],
  ["destination", "destination"], ["service", "day"], ["wantedDate", "day"], ["rush", "day"],
];

/** The form's field that a path such as "near.fixingHeightMm" is asked in, or "". */
export function fieldOf(path) {
  const found = FIELDS.find(([start]) => path === start || path.startsWith(`${start}.`) || path.startsWith(`${start}[`));
  return found ? found[1] : "";
}
