/**
 * Lengths as people type them, read exactly.
 *
 * The gateway counts whole micrometres, so that is what a text is read to: with whole
 * numbers all the way, because 0.1 + 0.2 of a metre must not come out as something else.
 */

/**
 * Micrometres in one of each unit. The inch is 25.4 mm and the yard 0.9144 m exactly
 * (international yard and pound agreement, 1959).
 */
const UNIT_UM = { mm: 1000n, cm: 10000n, m: 1000000n, in: 25400n, ft: 304800n, yd: 914400n };

/** Units that can be chosen beside a field, metric first. */
export const UNITS = ["m", "cm", "mm", "ft", "in", "yd"];

const METRIC = new Set(["mm", "cm", "m"]);

const SPELLED = new Map(Object.entries({
  mm: "mm", millimetre: "mm", millimetres: "mm", millimeter: "mm", millimeters: "mm",
  cm: "cm", centimetre: "cm", centimetres: "cm", centimeter: "cm", centimeters: "cm", zentimeter: "cm",
  m: "m", metre: "m", metres: "m", meter: "m", meters: "m", metern: "m",
  in: "in", inch: "in", inches: "in", zoll: "in", "\"": "in",
  ft: "ft", foot: "ft", feet: "ft", "fuß": "ft", fuss: "ft", "'": "ft",
  yd: "yd", yds: "yd", yard: "yd", yards: "yd",
}));

const VULGAR = { "½": "1/2", "⅓": "1/3", "⅔": "2/3", "¼": "1/4", "¾": "3/4", "⅛": "1/8", "⅜": "3/8", "⅝": "5/8", "⅞": "7/8" };

/** Beyond this no shop measures, and doubles would no longer hold whole micrometres. */
const MOST_UM = 4_000_000_000_000n;

/**
 * @typedef {{um: number, imperial: boolean} | {fault: "empty"|"unread"|"ambiguous"|"order"|"large"}} Reading
 *   Whole micrometres and whether they were said in feet and inches, or why the text is no length.
 */

/**
 * Reads a length. A unit in the text wins over the one chosen beside it.
 *
 * @param {string} text such as "20 ft 4 1/2 in", "6.2 m", "620 cm", "7 1/2 yd", "20′ 4½″"
 * @param {string} unit for a bare number: one of UNITS
 * @param {"."|","} [point] what separates decimals where the buyer lives
 * @returns {Reading}
 */
export function read(text, unit, point = ".") {
  const plain = text.trim().toLowerCase()
    .replace(/[½⅓⅔¼¾⅛⅜⅝⅞]/g, (sign) => ` ${VULGAR[sign]}`)
    .replace(/⁄/g, "/")
    .replace(/''|[″”“„]/g, "\"")
    .replace(/[′’‘`´]/g, "'")
    .replace(/[\s\u00a0\u202f]+/g, " ").trim();
  if (plain === "") return { fault: "empty" };
  let total = 0n;
  let finest = null;
  let rest = plain;
  while (rest !== "") {
    const part = /^(?:(\d+) )?(\d+) ?\/ ?(\d+)|^(\d[\d.,]*|[.,]\d+)/.exec(rest);
    if (!part) return { fault: "unread" };
    rest = rest.slice(part[0].length).trim();
    const named = /^(?:[a-zäöüß]+\.?|["'])/.exec(rest);
    const known = named ? SPELLED.get(named[0].replace(".", "")) : undefined;
    if (named && !known) return { fault: "unread" };
    // only the last part may go without a unit, and then only if it is the only one
    if (!named && (rest !== "" || finest !== null)) return { fault: "unread" };
    const own = known ?? unit;
    const size = UNIT_UM[own];
    // "4 in 20 ft" is a slip, and so is "6 m 2 ft": each part is finer than the one before
    if (finest !== null && (size >= UNIT_UM[finest] || METRIC.has(own) !== METRIC.has(finest))) return { fault: "order" };
    finest = own;
    const amount = part[3] ? fraction(part[1], part[2], part[3]) : decimal(part[4], point);
    if (amount === null) return { fault: part[3] ? "unread" : "ambiguous" };
    total += rounded(amount.over * size, amount.under);
    if (total > MOST_UM) return { fault: "large" };
    rest = named ? rest.slice(named[0].length).trim() : rest;
    rest = rest.replace(/^(?:,|and |und )/, "").trim();
  }
  return { um: Number(total), imperial: !METRIC.has(finest) };
}

function fraction(whole, over, under) {
  const below = BigInt(under);
  if (below === 0n) return null;
  return { over: BigInt(whole ?? "0") * below + BigInt(over), under: below };
}

/**
 * One mark among the digits is the decimal point, unless it could as well part thousands:
 * "1.200" where people write 1,2 is asked about and not guessed.
 */
function decimal(digits, point) {
  const other = point === "." ? "," : ".";
  const marks = digits.replace(/\d/g, "");
  let plain = digits;
  if (marks.length > 0) {
    const grouped = /^[1-9]\d{0,2}(?:([.,])\d{3})+(?!\d)/.exec(digits);
    if (new Set(marks).size === 2) {
      // both kinds: groups first, then the point once
      if (!grouped || grouped[1] !== other || !marks.endsWith(point) || marks.indexOf(point) !== marks.length - 1) return null;
      plain = digits.replaceAll(other, "").replace(point, ".");
    } else if (marks.length > 1) {
      if (marks[0] === point || !grouped || grouped[0] !== digits) return null;
      plain = digits.replaceAll(other, "");
    } else if (marks[0] === other && grouped && grouped[0] === digits) {
      return null;
    } else {
      plain = digits.replace(/[.,]/, ".");
    }
  }
  const [whole, part = ""] = plain.split(".");
  if (part.length > 12 || whole.length > 12) return null;
  return { over: BigInt((whole || "0") + part), under: 10n ** BigInt(part.length) };
}

/** To the nearest, a half up; neither is below nought. */
function rounded(over, under) {
  return (2n * over + under) / (2n * under);
}

/** The millimetres that stand for whole micrometres on the wire: the nearest double. */
export function millimetres(um) {
  return um / 1000;
}

/** The whole micrometres that millimetres off the wire stand for. */
export function micrometres(mm) {
  return Math.round(mm * 1000);
}

/**
 * A length in metric words: metres from one metre on, below it centimetres, or millimetres
 * below ten of them. Says every micrometre that there is.
 *
 * @param {number} um whole micrometres
 * @param {string} [locale]
 */
export function metricWords(um, locale) {
  const size = Math.abs(um);
  const [unit, each, digits] = size >= 1e6 ? ["m", 1e6, 6] : size >= 1e4 ? ["cm", 1e4, 4] : ["mm", 1e3, 3];
  return `${new Intl.NumberFormat(locale, { maximumFractionDigits: digits }).format(um / each)}\u00a0${unit}`;
}

/**
 * A length in feet and inches to the nearest sixteenth of an inch.
 *
 * @param {number} um whole micrometres
 * @returns {{text: string, exact: boolean}} such as "20 ft 4 1/2 in", and whether it is that to the micrometre
 */
export function imperialWords(um) {
  const sixteenth = 25400 / 16;
  const count = Math.round(Math.abs(um) / sixteenth);
  const exact = Math.abs(um) * 16 === count * 25400;
  const feet = Math.floor(count / 192);
  const inches = Math.floor((count % 192) / 16);
  let over = count % 16;
  let under = 16;
  while (over > 0 && over % 2 === 0) {
    over /= 2;
    under /= 2;
  }
  const small = over === 0 ? `${inches}` : inches === 0 ? `${over}/${under}` : `${inches} ${over}/${under}`;
  const parts = [];
  if (feet > 0) parts.push(`${feet}\u00a0ft`);
  if (small !== "0" || feet === 0) parts.push(`${small}\u00a0in`);
  return { text: (um < 0 ? "−" : "") + parts.join(" "), exact };
}

/** A length said in both ways, feet first where they are the buyer's and say all of it. */
export function both(um, imperialFirst, locale) {
  const feet = imperialWords(um);
  const metres = metricWords(um, locale);
  if (!feet.exact) return `${metres} ≈ ${feet.text}`;
  return imperialFirst ? `${feet.text} = ${metres}` : `${metres} = ${feet.text}`;
}
