/**
 * How a string runs: straight, or in equal swags between level hooks.
 *
 * Equal pennants on a binding are an even load along the string, so a swag is a catenary
 * (Karnovsky and Lebed, Advanced Methods of Structural Analysis, chapter 5). With span l,
 * dip f, u = l / 2a: f / l = tanh(u/2) sinh(u) / 2u, which is sinh²(u/2) / u; the curve is
 * l sinh(u) / u long, and t along it from its lowest point is a asinh(t/a) across.
 */

/** The parameter u of a swag with some dip, by halving until nothing is left to halve. */
function parameter(spanMm, dipMm) {
  const ratio = dipMm / spanMm;
  let low = 0;
  let high = 1;
  while (Math.sinh(high / 2) ** 2 / high < ratio) high *= 2;
  for (let step = 0; step < 200 && low < high; step += 1) {
    const middle = (low + high) / 2;
    if (middle === low || middle === high) break;
    if (Math.sinh(middle / 2) ** 2 / middle < ratio) low = middle;
    else high = middle;
  }
  return (low + high) / 2;
}

/** Length along one swag. Units mm. */
export function swagLength(spanMm, dipMm) {
  if (!(dipMm > 0)) return spanMm;
  const u = parameter(spanMm, dipMm);
  return (spanMm * Math.sinh(u)) / u;
}

/**
 * @typedef {object} Course
 * @property {(s: number) => {x: number, y: number}} at the point s mm along the string from
 *   its middle; y counts downwards from the hooks. Units mm.
 * @property {number[]} stops where to sample it, s in mm, from the left end to the right end
 * @property {number} dipMm deepest point of the string itself
 * @property {number} halfMm half of what hangs between the outer hooks; all of it if straight
 */

/** A straight string. @returns {Course} */
export function straight(overallMm) {
  const halfMm = overallMm / 2;
  return { at: (s) => ({ x: s, y: 0 }), stops: [-halfMm, halfMm], dipMm: 0, halfMm };
}

/**
 * A string in swags, from hook to hook: where hooks are not evenly spaced along it, each swag is as
 * wide and as deep as its share of the string. What is beyond the outer hooks is the end left for the knot, and hangs down.
 *
 * @param {{spanMm: number, dipMm?: number, swagCount?: number}} hang
 * @param {number} curveMm along all swags, as the answer says
 * @param {number} overallMm
 * @param {number[]} [between] where the hooks between the outer ones are, in mm along the string from
 *   its middle; evenly spaced where they are not told
 * @returns {Course}
 */
export function hung(hang, curveMm, overallMm, between = []) {
  const swags = hang.swagCount ?? 1;
  const span = hang.spanMm / swags;
  const dip = hang.dipMm ?? 0;
  const arc = curveMm / swags;
  const halfMm = curveMm / 2;
  const end = overallMm / 2;
  const a = dip > 0 ? span / (2 * parameter(span, dip)) : 0;
  const even = Array.from({ length: swags - 1 }, (_, index) => -halfMm + (index + 1) * arc);
  const ties = [-halfMm, ...(between.length === swags - 1 ? [...between].sort((one, other) => one - other) : even), halfMm];
  const widest = Math.max(...ties.slice(1).map((tie, index) => tie - ties[index])) / arc;
  const at = (s) => {
    if (s < -halfMm) return { x: -hang.spanMm / 2, y: -halfMm - s };
    if (s > halfMm) return { x: hang.spanMm / 2, y: s - halfMm };
    let swag = 0;
    while (swag < swags - 1 && s > ties[swag + 1]) swag += 1;
    const [from, to] = [ties[swag], ties[swag + 1]];
    const share = (to - from) / arc;
    const t = s - (from + to) / 2;
    const middle = ((from + to) / 2) * (span / arc);
    if (dip <= 0) return { x: middle + t, y: 0 };
    const own = a * share;
    return { x: middle + own * Math.asinh(t / own), y: dip * share - (t * t) / (Math.sqrt(own * own + t * t) + own) };
  };
  const each = Math.max(10, Math.min(48, Math.round(600 / swags)));
  const stops = [-end];
  for (let index = 0; index < swags * each; index += 1) {
    const swag = Math.floor(index / each);
    stops.push(ties[swag] + ((index % each) / each) * (ties[swag + 1] - ties[swag]));
  }
  stops.push(halfMm);
  stops.push(end);
  return { at, stops, dipMm: dip * widest, halfMm };
}
