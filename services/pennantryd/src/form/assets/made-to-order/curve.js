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
 * A string in swags. What is beyond the outer hooks is the end left for the knot, and hangs down.
 *
 * @param {{spanMm: number, dipMm?: number, swagCount?: number}} hang
 * @param {number} curveMm along all swags, as the answer says
 * @param {number} overallMm
 * @returns {Course}
 */
export function hung(hang, curveMm, overallMm) {
  const swags = hang.swagCount ?? 1;
  const span = hang.spanMm / swags;
  const dip = hang.dipMm ?? 0;
  const arc = curveMm / swags;
  const halfMm = curveMm / 2;
  const end = overallMm / 2;
  const a = dip > 0 ? span / (2 * parameter(span, dip)) : 0;
  const at = (s) => {
    if (s < -halfMm) return { x: -hang.spanMm / 2, y: -halfMm - s };
    if (s > halfMm) return { x: hang.spanMm / 2, y: s - halfMm };
    const swag = Math.min(swags - 1, Math.max(0, Math.floor((s + halfMm) / arc)));
    const t = s + halfMm - (swag + 0.5) * arc;
    const middle = -hang.spanMm / 2 + (swag + 0.5) * span;
    if (dip <= 0) return { x: middle + t, y: 0 };
    return { x: middle + a * Math.asinh(t / a), y: dip - (t * t) / (Math.sqrt(a * a + t * t) + a) };
  };
  const each = Math.max(10, Math.min(48, Math.round(600 / swags)));
  const stops = [-end];
  for (let index = 0; index <= swags * each; index += 1) stops.push(-halfMm + (index * arc) / each);
  stops.push(end);
  return { at, stops, dipMm: dip, halfMm };
}
