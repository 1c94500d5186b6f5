/**
 * The drawing: a close look at the string, a tape under it, and all of it small below, with
 * a window to move along. Both show the same lines, in millimetres; only the windows differ.
 */

import { contrast, luminance, pattern, shade } from "./cloth.js";
import { el, say, svg } from "./dom.js";
import { picture } from "./geometry.js";

/** Room above and below what hangs. Unit px. */
const ABOVE = 26;
const BELOW = 46;
/** Beyond so many pennants they are drawn without their shading. */
const SHADED = 400;

export class Drawing {
  #text;
  #origin;
  #drawn = null;
  #middleMm = 0;
  #wideMm = 0;
  #known = "";

  constructor(text, origin) {
    this.#text = text;
    this.#origin = origin;
    this.cloths = svg("g", { class: "cloths" });
    this.shadow = svg("path", { fill: "url(#mto-fold)" });
    this.under = svg("path", { class: "under", fill: "none", "stroke-linejoin": "round" });
    this.band = svg("path", { class: "band", fill: "none", "stroke-linejoin": "round" });
    this.stitch = svg("path", { class: "stitch", fill: "none" });
    this.letters = svg("g", { class: "letters" });
    this.hooks = svg("g", { class: "hooks" });
    this.tape = svg("g", { class: "tape" });
    this.patterns = svg("defs");
    this.title = svg("title", { id: "mto-drawn" });
    const fold = svg("linearGradient", { id: "mto-fold", gradientUnits: "userSpaceOnUse", x1: 0, y1: 0, x2: 0, y2: 1 },
      svg("stop", { offset: 0, "stop-color": "#000", "stop-opacity": 0.3 }),
      svg("stop", { offset: 0.22, "stop-color": "#000", "stop-opacity": 0 }),
      svg("stop", { offset: 0.8, "stop-color": "#fff", "stop-opacity": 0 }),
      svg("stop", { offset: 1, "stop-color": "#fff", "stop-opacity": 0.14 }));
    this.fold = fold;
    this.near = svg("svg", { class: "near", role: "img", "aria-labelledby": "mto-drawn" }, this.title,
      this.patterns, svg("defs", {}, fold), this.tape,
      svg("g", { id: "mto-string" }, this.cloths, this.shadow, this.under, this.band, this.stitch, this.letters, this.hooks));
    this.pane = svg("rect", { class: "pane", y: 0 });
    this.far = svg("svg", { class: "far", "aria-hidden": "true", focusable: "false" }, svg("use", { href: "#mto-string" }), this.pane);
    this.along = el("input", { type: "range", class: "along", min: 0, max: 1000, value: 500, "aria-label": text.get("drawing.along"),
      on: { input: () => this.#moveTo(Number(this.along.value) / 1000) } });
    this.caption = el("p", { class: "caption", "aria-hidden": "true" });
    this.example = el("p", { class: "example" });
    this.root = el("figure", { class: "drawing" }, el("div", { class: "stage" }, this.near, this.example), this.far, this.along);
    this.#listen();
    this.watcher = new ResizeObserver(() => this.#frame());
    this.watcher.observe(this.near);
  }

  /** Draws an answer: `how` tells imperial, example and caption. */
  show(quote, catalogue, how) {
    const before = this.#drawn;
    const drawn = picture(quote);
    this.#drawn = drawn;
    this.imperial = how.imperial;
    this.#paint(drawn, quote, catalogue);
    say(this.caption, how.caption);
    say(this.title, how.caption);
    say(this.example, how.example ? this.#text.get("drawing.example") : "");
    this.root.classList.toggle("is-example", how.example);
    if (!before) this.#middleMm = (drawn.box.left + drawn.box.right) / 2;
    this.#frame();
  }

  #paint(drawn, quote, catalogue) {
    const fabrics = new Map(catalogue.fabrics.map((fabric) => [fabric.code, fabric]));
    const codes = drawn.cloths.map(({ code }) => code);
    // patterns stay while the fabrics do: made anew, they would be drawn anew
    if (this.#known !== codes.join()) {
      this.#known = codes.join();
      this.patterns.replaceChildren(...codes.map((code) => {
        const fabric = fabrics.get(code) ?? { code, name: code, fibre: "", swatch: "#999999" };
        return pattern(fabric, `mto-cloth-${code}`, this.#origin);
      }));
      this.cloths.replaceChildren(...codes.map((code) => svg("path", { fill: `url(#mto-cloth-${code})`, "data-fabric": code })));
    }
    drawn.cloths.forEach(({ d, count }, index) => {
      const path = this.cloths.children[index];
      path.setAttribute("d", d);
      path.setAttribute("data-count", count);
    });
    const shaded = !quote.layout.hang && quote.layout.pennantCount <= SHADED;
    this.shadow.setAttribute("d", shaded ? drawn.cloths.map(({ d }) => d).join("") : "");
    this.fold.setAttribute("y1", drawn.bandMm);
    this.fold.setAttribute("y2", drawn.dropMm);
    const binding = catalogue.bindings.find(({ code }) => code === quote.binding.bindingCode);
    const colour = binding?.swatch ?? "#888888";
    for (const path of [this.under, this.band]) path.setAttribute("d", drawn.line);
    this.under.setAttribute("stroke-width", drawn.bandMm + 1.6);
    this.under.setAttribute("stroke", shade(colour, -0.45));
    this.band.setAttribute("stroke-width", drawn.bandMm);
    this.band.setAttribute("stroke", colour);
    this.stitch.setAttribute("d", drawn.stitch);
    this.stitch.setAttribute("stroke", contrast(colour, 0.45));
    this.letters.replaceChildren(...drawn.letters.map((letter) => this.#letter(letter, fabrics)));
    this.hooks.replaceChildren(...drawn.hooks.map((hook) => svg("circle", { cx: hook.x, cy: hook.y, r: 9, "data-at-mm": hook.atMm })));
  }

  #letter({ letter, x, y, turn, sizeMm, code }, fabrics) {
    const cloth = fabrics.get(code)?.swatch ?? "#999999";
    return svg("text", { x, y, "font-size": sizeMm, "text-anchor": "middle", "dominant-baseline": "central",
      fill: luminance(cloth) > 0.3 ? "#20242e" : "#fbf6ea", transform: turn === 0 ? null : `rotate(${turn} ${x} ${y})` }, letter);
  }

  /** Sets both windows, from what there is room for. */
  #frame() {
    const drawn = this.#drawn;
    const width = this.near.clientWidth;
    const height = this.near.clientHeight;
    if (!drawn || width === 0 || height === 0) return;
    const whole = drawn.box.right - drawn.box.left;
    const tall = drawn.box.bottom;
    const pitch = Math.max(40, Math.min(whole, drawn.dropMm));
    const wanted = Math.max(70, Math.min(150, width / 8)) / pitch;
    const all = width / (whole * 1.05);
    const scale = Math.min((height - ABOVE - BELOW) / tall, Math.max(all, wanted));
    this.#wideMm = width / scale;
    const free = Math.max(0, whole * 1.05 - this.#wideMm) / 2;
    const centre = (drawn.box.left + drawn.box.right) / 2;
    this.#middleMm = Math.min(centre + free, Math.max(centre - free, this.#middleMm));
    this.free = free;
    this.centre = centre;
    const slack = (height - ABOVE - BELOW) / scale - tall;
    const top = -(ABOVE / scale) - slack / 2;
    this.near.setAttribute("viewBox", `${this.#middleMm - this.#wideMm / 2} ${top} ${this.#wideMm} ${height / scale}`);
    this.#tape(scale, top + height / scale);
    this.#overview(drawn, whole, tall, free);
  }

  #overview(drawn, whole, tall, free) {
    const width = this.far.clientWidth;
    const height = this.far.clientHeight;
    if (width === 0 || height === 0) return;
    const scale = Math.min(width / (whole * 1.05), (height - 12) / tall);
    const top = -(height / scale - tall) / 2;
    this.farMm = width / scale;
    this.far.setAttribute("viewBox", `${this.centre - this.farMm / 2} ${top} ${this.farMm} ${height / scale}`);
    const set = (name, value) => this.pane.setAttribute(name, value);
    set("x", this.#middleMm - this.#wideMm / 2);
    set("y", top + 1 / scale);
    set("width", this.#wideMm);
    set("height", (height - 2) / scale);
    this.root.classList.toggle("is-whole", free === 0);
    this.along.disabled = free === 0;
    const share = free === 0 ? 0.5 : (this.#middleMm - this.centre + free) / (2 * free);
    this.along.value = Math.round(share * 1000);
    this.along.setAttribute("aria-valuetext", this.#text.get("drawing.place", { percent: Math.round(share * 100) }));
  }

  /** A tape from the left end, in the buyer's own unit. */
  #tape(scale, bottom) {
    const px = 1 / scale;
    const drawn = this.#drawn;
    let [step, unit, name, parts] = tapeSteps(this.imperial ? IMPERIAL : METRIC, scale);
    // nobody counts ten metres in centimetres, or twelve feet in inches
    if (drawn.box.right - drawn.box.left > (this.imperial ? 3658 : 1e4)) [unit, name] = this.imperial ? [304.8, "ft"] : [1000, "m"];
    const from = Math.max(drawn.box.left, this.#middleMm - this.#wideMm / 2);
    const to = Math.min(drawn.box.right, this.#middleMm + this.#wideMm / 2);
    const edge = bottom - 34 * px;
    let small = "";
    let large = "";
    const words = [];
    const part = step / (parts ?? 10);
    const fine = part * scale >= 4;
    const first = Math.ceil((from - drawn.box.left) / step - 1e-9);
    for (let index = first; drawn.box.left + index * step <= to + 1e-6; index += 1) {
      const x = drawn.box.left + index * step;
      large += `M${x} ${edge}v${12 * px}`;
      const value = ((index * step) / unit + 0).toLocaleString(this.#text.locale, { maximumFractionDigits: 2 });
      words.push(svg("text", { x: x + 4 * px, y: edge + 20 * px, "font-size": 11 * px }, `${value}${index === first || index === 0 ? `\u00a0${name}` : ""}`));
    }
    if (fine) {
      for (let index = Math.ceil((from - drawn.box.left) / part - 1e-9); drawn.box.left + index * part <= to + 1e-6; index += 1) {
        small += `M${drawn.box.left + index * part} ${edge}v${6 * px}`;
      }
    }
    this.tape.replaceChildren(
      svg("rect", { x: from, y: edge, width: Math.max(0, to - from), height: 26 * px }),
      svg("path", { d: small + large, "stroke-width": px }), ...words);
  }

  #moveTo(share) {
    this.#middleMm = this.centre - this.free + share * 2 * this.free;
    this.#frame();
  }

  #listen() {
    const go = (event) => {
      const box = this.far.getBoundingClientRect();
      const x = this.centre - this.farMm / 2 + ((event.clientX - box.left) / box.width) * this.farMm;
      if (this.free > 0) this.#moveTo(Math.min(1, Math.max(0, (x - this.centre + this.free) / (2 * this.free))));
    };
    this.far.addEventListener("pointerdown", (event) => {
      this.far.setPointerCapture(event.pointerId);
      go(event);
    });
    this.far.addEventListener("pointermove", (event) => {
      if (event.buttons !== 0) go(event);
    });
  }

  stop() {
    this.watcher.disconnect();
  }
}

/** Steps of a tape: its length in mm, what it is counted in, that unit's name, and its parts where they are not ten. */
const METRIC = [[10, 10, "cm"], [20, 10, "cm"], [50, 10, "cm"], [100, 10, "cm"], [200, 10, "cm"], [500, 1000, "m"], [1000, 1000, "m"], [2000, 1000, "m"], [5000, 1000, "m"], [10000, 1000, "m"], [50000, 1000, "m"]];
const IMPERIAL = [[25.4, 25.4, "in", 8], [152.4, 25.4, "in", 6], [304.8, 304.8, "ft", 12], [609.6, 304.8, "ft", 2], [1524, 304.8, "ft", 5], [3048, 304.8, "ft"], [15240, 304.8, "ft"], [152400, 304.8, "ft"]];

function tapeSteps(steps, scale) {
  return steps.find(([step]) => step * scale >= 64) ?? steps[steps.length - 1];
}

/** Three small drawings of what a length can mean. */
export function meaning(measure) {
  const sag = measure === "hang";
  const y = (x) => (sag ? 14 + 20 * (1 - ((x - 80) / 72) ** 2) : 20);
  const starts = [32, 52, 72, 92, 112];
  const flags = starts.map((x) => `M${x} ${y(x)}L${x + 16} ${y(x + 16)}L${x + 8} ${y(x + 8) + 20}Z`).join("");
  const [from, to] = measure === "flagged" ? [32, 128] : [8, 152];
  const line = sag ? "M8 14Q80 54 152 14" : "M8 20H152";
  const rule = sag ? 5 : 50;
  return svg("svg", { viewBox: "0 0 160 60", class: "meaning", "aria-hidden": "true", focusable: "false" },
    svg("path", { d: flags, class: "flag" }), svg("path", { d: line, class: "string" }),
    sag ? [8, 152].map((cx) => svg("circle", { cx, cy: 14, r: 2.6, class: "nail" })) : "",
    svg("path", { d: `M${from} ${rule - 4}v8M${to} ${rule - 4}v8M${from} ${rule}H${to}`, class: "rule" }));
}

/** A pennant's shape, small. */
export function shapeIcon(d) {
  return svg("svg", { viewBox: "-8 -8 116 136", class: "shape", "aria-hidden": "true", focusable: "false" }, svg("path", { d }));
}
