/**
 * From an answer to lines on paper, in millimetres. x counts from the middle of the string,
 * y downwards from the upper fold of the binding: there a pennant's top edge lies, hidden as
 * deep as the binding holds it. Nothing here knows of a page.
 */

import { hung, straight } from "./curve.js";

/** A number for a path: to the micrometre, and no longer than it needs to be. */
export function mm(value) {
  const short = Math.round(value * 1000) / 1000;
  return Object.is(short, -0) ? "0" : String(short);
}

/**
 * A pennant's outline below its top edge, from the right top corner round to the left one.
 *
 * @param {object} pennant the pennant as it was understood
 * @param {number} widthMm of the template's top edge
 * @param {number} dropMm of the template
 * @returns {{points: number[][], arc?: number}} corners as [across from the left corner, down];
 *   with arc, the radius of the round foot between the two points
 */
export function outline(pennant, widthMm, dropMm) {
  const w = widthMm;
  const d = dropMm;
  switch (pennant.shape) {
    case "SHAPE_BLUNT": {
      const foot = pennant.footMm ?? w / 2;
      return { points: [[(w + foot) / 2, d], [(w - foot) / 2, d]] };
    }
    case "SHAPE_SWALLOWTAIL":
      return { points: [[w, d], [w / 2, d - (pennant.notchMm ?? 0)], [0, d]] };
    case "SHAPE_SHIELD": {
      // told where the size is taken; the template goes on behind the binding
      const straightMm = (pennant.shoulderMm ?? 0) + (d - (pennant.dropMm ?? d));
      return { points: [[w, straightMm], [w / 2, d], [0, straightMm]] };
    }
    case "SHAPE_SCALLOP": {
      const rise = pennant.riseMm ?? w / 2;
      return { points: [[w, d - rise], [0, d - rise]], arc: (w * w / 4 + rise * rise) / (2 * rise) };
    }
    case "SHAPE_RECTANGLE":
      return { points: [[w, d], [0, d]] };
    default:
      return { points: [[w / 2, d]] };
  }
}

/** Which fabric hangs at a place, counted from 0 at the left, where the answer lists no marks. */
export function fabricAt(order, index, count) {
  const codes = order.fabricCodes;
  const fromMiddle = count % 2 === 1
    ? Math.abs(index - (count - 1) / 2)
    : index < count / 2 ? count / 2 - 1 - index : index - count / 2;
  switch (order.rule) {
    case "RULE_MIRROR_ENDS": return codes[Math.min(index, count - 1 - index) % codes.length];
    case "RULE_MIRROR_CENTRE": return codes[fromMiddle % codes.length];
    case "RULE_LISTED": return codes[index] ?? codes[codes.length - 1];
    default: return codes[index % codes.length];
  }
}

/** Every pennant's marks: as listed, or counted from the first by the pitch. */
export function marks(quote) {
  const { positions, pennantCount, topWidthMm } = quote.layout;
  if (positions.marks.length > 0) return positions.marks;
  const all = [];
  for (let index = 0; index < pennantCount; index += 1) {
    const leftMm = index === pennantCount - 1 ? positions.last.leftMm : positions.first.leftMm + index * positions.pitchMm;
    all.push({ leftMm, rightMm: leftMm + topWidthMm, fabricCode: fabricAt(quote.understood.colourOrder, index, pennantCount), letter: "" });
  }
  return all;
}

/**
 * @typedef {object} Picture
 * @property {{code: string, d: string, count: number}[]} cloths one path a fabric, in the order first hung
 * @property {string} line the string, along the middle of what is seen of the binding
 * @property {string} stitch the seam that holds the pennants
 * @property {number} bandMm how much of the binding is seen
 * @property {object[]} letters letter, x, y, turn (degrees), sizeMm, code of the cloth below
 * @property {{x: number, y: number, atMm: number|null}[]} hooks
 * @property {{left: number, right: number, top: number, bottom: number}} box
 * @property {number} dropMm deepest that a pennant hangs below the string
 */

/** Draws an answer of the gateway's. @returns {Picture} */
export function picture(quote) {
  const { layout, understood } = quote;
  const band = quote.binding?.insertionMm ?? 0;
  const course = layout.hang ? hung(understood.hang, layout.hang.curveMm, layout.overallMm, (layout.hang.hooks ?? []).map((hook) => hook.atMm)) : straight(layout.overallMm);
  const shape = outline(understood.pennant, layout.topWidthMm, layout.topDropMm);
  const paths = new Map();
  const letters = [];
  for (const mark of marks(quote)) {
    const found = paths.get(mark.fabricCode) ?? { code: mark.fabricCode, parts: [], count: 0 };
    paths.set(mark.fabricCode, found);
    found.parts.push(layout.hang ? turned(course, mark, shape, layout.topWidthMm) : level(mark, shape));
    found.count += 1;
    if (mark.letter && mark.letter.trim() !== "") letters.push(letterAt(course, mark, layout, band));
  }
  const depth = course.dipMm + layout.topDropMm;
  const ends = layout.hang ? understood.hang.spanMm / 2 : course.halfMm;
  return {
    cloths: [...paths.values()].map(({ code, parts, count }) => ({ code, d: parts.join(""), count })),
    line: along(course, band / 2),
    stitch: along(course, band - Math.min(2, band / 4)),
    bandMm: band,
    letters,
    hooks: hooks(layout, course, ends),
    box: { left: -ends, right: ends, top: 0, bottom: depth },
    dropMm: layout.topDropMm,
  };
}

/** A pennant on a straight string, its corners as the marks say. */
function level(mark, shape) {
  const start = `M${mm(mark.leftMm)} 0L${mm(mark.rightMm)} 0`;
  const spots = shape.points.map(([across, down]) => `${mm(mark.leftMm + across)} ${mm(down)}`);
  return start + foot(spots, shape.arc);
}

/** A pennant on a curve: its corners by arc length, its sides square to the line between them. */
function turned(course, mark, shape, widthMm) {
  const a = course.at(mark.leftMm);
  const b = course.at(mark.rightMm);
  const far = Math.hypot(b.x - a.x, b.y - a.y) || 1;
  const cos = (b.x - a.x) / far;
  const sin = (b.y - a.y) / far;
  const scale = far / widthMm;
  const spots = shape.points.map(([across, down]) => {
    const u = across * scale;
    return `${mm(a.x + u * cos - down * sin)} ${mm(a.y + u * sin + down * cos)}`;
  });
  return `M${mm(a.x)} ${mm(a.y)}L${mm(b.x)} ${mm(b.y)}${foot(spots, shape.arc && shape.arc * scale)}`;
}

function foot(spots, arc) {
  if (arc === undefined) return `L${spots.join("L")}Z`;
  return `L${spots[0]}A${mm(arc)} ${mm(arc)} 0 0 1 ${spots[1]}Z`;
}

function along(course, belowMm) {
  return course.stops.map((s, index) => {
    const { x, y } = course.at(s);
    return `${index === 0 ? "M" : "L"}${mm(x)} ${mm(y + belowMm)}`;
  }).join("");
}

/** Where a letter goes is the bench's business; it is drawn in the upper half, where there is room. */
function letterAt(course, mark, layout, band) {
  const a = course.at(mark.leftMm);
  const b = course.at(mark.rightMm);
  const turn = Math.atan2(b.y - a.y, b.x - a.x);
  const down = band + layout.visibleDropMm * 0.36;
  return {
    letter: mark.letter,
    x: (a.x + b.x) / 2 - down * Math.sin(turn),
    y: (a.y + b.y) / 2 + down * Math.cos(turn),
    turn: (turn * 180) / Math.PI,
    sizeMm: Math.min(layout.visibleDropMm * 0.46, layout.visibleWidthMm * 0.5),
    code: mark.fabricCode,
  };
}

function hooks(layout, course, ends) {
  if (!layout.hang) return [];
  const between = (layout.hang.hooks ?? []).map((hook) => ({ ...course.at(hook.atMm), atMm: hook.atMm }));
  return [{ x: -ends, y: 0, atMm: null }, ...between, { x: ends, y: 0, atMm: null }];
}
