/**
 * Cloth on a screen: the shop's photograph tiled at its true repeat, or a drawing in its place.
 *
 * A drawing shows what the catalogue tells and no more: the colour, how such a fibre is made
 * up, and whether the print has one right way up. It is a stand-in, and the form says so.
 */

import { svg } from "./dom.js";

/** A whole number from a code, the same every time (FNV-1a, 32 bits). */
function seed(code) {
  let hash = 0x811c9dc5;
  for (const sign of code) hash = Math.imul(hash ^ sign.codePointAt(0), 0x01000193);
  // its last letters alone would hardly reach the high bits
  return Math.imul(hash ^ (hash >>> 15), 0x2c1b3c6d) >>> 0;
}

/** A row of numbers from 0 to 1, the same for the same code. */
function dice(code) {
  let turn = 0;
  return () => {
    turn += 1;
    return seed(`${code}${turn}`) / 2 ** 32;
  };
}

function channels(swatch) {
  const found = /^#([0-9a-f]{2})([0-9a-f]{2})([0-9a-f]{2})$/i.exec(swatch ?? "");
  return found ? found.slice(1).map((pair) => parseInt(pair, 16)) : [150, 150, 150];
}

/** Relative luminance by WCAG 2.2, from 0 to 1. */
export function luminance(swatch) {
  const [r, g, b] = channels(swatch).map((value) => {
    const part = value / 255;
    return part <= 0.04045 ? part / 12.92 : ((part + 0.055) / 1.055) ** 2.4;
  });
  return 0.2126 * r + 0.7152 * g + 0.0722 * b;
}

/** A colour moved towards white (above 0) or black (below 0). */
export function shade(swatch, by) {
  const to = by > 0 ? 255 : 0;
  return `rgb(${channels(swatch).map((value) => Math.round(value + (to - value) * Math.abs(by))).join(" ")})`;
}

/** What is seen on a cloth: dark on a light one and light on a dark one. */
export function contrast(swatch, by = 0.62) {
  return shade(swatch, luminance(swatch) > 0.22 ? -by : by + 0.2);
}

/** How a cloth is drawn where there is no photograph of it. */
function drawnAs(fabric) {
  const told = `${fabric.code} ${fabric.name} ${fabric.fibre}`.toLowerCase();
  if (/stripe|ticking/.test(told)) return "stripe";
  if (/dot|spot/.test(told)) return "dots";
  if (fabric.oneWay) return "print";
  if (/felt/.test(told)) return "felt";
  if (/canvas/.test(told)) return "canvas";
  if (/coated|oil|wax/.test(fabric.fibre.toLowerCase())) return "coated";
  if (/linen/.test(told)) return "linen";
  return "plain";
}

/** The tile of a fabric as an SVG pattern in millimetres, along the cloth downwards. */
export function pattern(fabric, id, origin) {
  if (fabric.image?.path && fabric.image.repeatAcrossMm > 0 && fabric.image.repeatAlongMm > 0) {
    const { path, repeatAcrossMm: width, repeatAlongMm: height } = fabric.image;
    const photograph = svg("image", { href: new URL(path, origin).href, width, height, preserveAspectRatio: "none" });
    // the colour stands in until the photograph is there
    return tile(id, width, height, svg("rect", { width, height, fill: fabric.swatch }), photograph);
  }
  return TILES[drawnAs(fabric)](fabric, id);
}

function tile(id, width, height, ...parts) {
  return svg("pattern", { id, width, height, patternUnits: "userSpaceOnUse" }, ...parts);
}

function ground(fabric, width, height = width) {
  return svg("rect", { width, height, fill: fabric.swatch });
}

function lines(d, stroke, width, opacity = 1) {
  return svg("path", { d, stroke, "stroke-width": width, fill: "none", "stroke-opacity": opacity });
}

const TILES = {
  plain: (fabric, id) => tile(id, 6, 6, ground(fabric, 6),
    lines("M0 1.5H3M3 4.5H6", shade(fabric.swatch, 0.35), 1.1, 0.34),
    lines("M1.5 3V6M4.5 0V3", shade(fabric.swatch, -0.4), 1.1, 0.26)),
  canvas: (fabric, id) => tile(id, 10, 10, ground(fabric, 10),
    lines("M.5 1.6H4.5M.5 3.4H4.5M5.5 6.6H9.5M5.5 8.4H9.5", shade(fabric.swatch, -0.35), 0.8, 0.4),
    lines("M6.6 .5V4.5M8.4 .5V4.5M1.6 5.5V9.5M3.4 5.5V9.5", shade(fabric.swatch, -0.5), 0.8, 0.34)),
  stripe: (fabric, id) => tile(id, 22, 22, ground(fabric, 22),
    svg("rect", { x: 2, width: 9, height: 22, fill: shade(fabric.swatch, 0.72) }),
    svg("rect", { x: 14.5, width: 2, height: 22, fill: shade(fabric.swatch, 0.72) })),
  dots: (fabric, id) => tile(id, 24, 24, ground(fabric, 24),
    ...[[6, 6], [18, 18]].map(([cx, cy]) => svg("circle", { cx, cy, r: 3.4, fill: contrast(fabric.swatch, 0.7) }))),
  coated: (fabric, id) => tile(id, 90, 90, ground(fabric, 90),
    lines("M-10 60L60 -10M30 110L110 30", shade(fabric.swatch, 0.6), 13, 0.3),
    lines("M8 96L98 6", shade(fabric.swatch, 0.6), 3, 0.3)),
  linen: (fabric, id) => {
    const roll = dice(fabric.code);
    let across = "";
    let down = "";
    for (let index = 0; index < 11; index += 1) {
      const x = roll() * 30;
      const y = roll() * 30;
      across += `M${(x - 8).toFixed(1)} ${y.toFixed(1)}h${(5 + roll() * 10).toFixed(1)}`;
      down += `M${y.toFixed(1)} ${(x - 8).toFixed(1)}v${(4 + roll() * 9).toFixed(1)}`;
    }
    return tile(id, 30, 30, ground(fabric, 30), lines(across, shade(fabric.swatch, -0.4), 0.8, 0.34), lines(down, shade(fabric.swatch, 0.5), 0.8, 0.4));
  },
  felt: (fabric, id) => {
    const roll = dice(fabric.code);
    let flecks = "";
    for (let index = 0; index < 26; index += 1) {
      flecks += `M${(roll() * 24).toFixed(1)} ${(roll() * 24).toFixed(1)}l${(roll() * 3 - 1.5).toFixed(1)} ${(roll() * 3 - 1.5).toFixed(1)}`;
    }
    return tile(id, 24, 24, ground(fabric, 24), lines(flecks, shade(fabric.swatch, 0.45), 0.7, 0.5));
  },
  print: (fabric, id) => {
    const ink = contrast(fabric.swatch, 0.5);
    const mark = MARKS[seed(fabric.code) % MARKS.length];
    const at = (x, y) => svg("path", { d: mark, transform: `translate(${x} ${y})`, stroke: ink, "stroke-width": 1.6, fill: "none", "stroke-linecap": "round" });
    return tile(id, 44, 44, ground(fabric, 44), at(11, 12), at(33, 34));
  },
};

/** Small marks that stand upright, for prints with one right way up. */
const MARKS = [
  "M-7 -2Q-3 -6 0 0Q3 -6 7 -2M0 0V1.5",
  "M0 7V-1M-3.5 -4A3.5 3.5 0 1 0 3.5 -4A3.5 3.5 0 1 0 -3.5 -4",
  "M0 7V-6M0 2Q-6 1 -6 -4Q-1 -4 0 2M0 4Q6 3 6 -2Q1 -2 0 4",
  "M0 -7L5 3H-5ZM-6 5Q0 9 6 5",
];

/** A piece of cloth to choose by: 40 mm of it across. */
export function swatch(fabric, id, origin) {
  return svg("svg", { viewBox: "0 0 40 40", preserveAspectRatio: "xMidYMid slice", class: "swatch", "aria-hidden": "true", focusable: "false" },
    svg("defs", {}, pattern(fabric, id, origin)), svg("rect", { width: 40, height: 40, fill: `url(#${id})` }));
}
