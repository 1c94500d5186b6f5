// The form's parts that need no page. Run: node --test tests/browser/units.mjs
import assert from "node:assert/strict";
import { readdirSync, readFileSync } from "node:fs";
import { test } from "node:test";
import { gzipSync } from "node:zlib";

const assets = new URL("../../services/pennantryd/src/form/assets/", import.meta.url);
const home = new URL("../../services/pennantryd/src/form/assets/made-to-order/", import.meta.url);
const part = (name) => import(new URL(name, home));
const { read, imperialWords, metricWords, both, millimetres } = await part("lengths.js");
const { decimal, written } = await part("money.js");
const { swagLength, hung, straight } = await part("curve.js");
const { picture, fabricAt, outline, marks } = await part("geometry.js");
const { enquiry, fresh, toFragment, fromFragment, fieldOf, shapeDetail } = await part("enquiry.js");
const { Asker, Gateway, Problem } = await part("gateway.js");

/** A table of check values. Cells in quotation marks may hold commas. */
function table(path) {
  const lines = readFileSync(new URL(`../../${path}`, import.meta.url), "utf8").trim().split("\n");
  const cells = (line) => [...line.matchAll(/(?:^|,)(?:"([^"]*)"|([^,]*))/g)].map((cell) => cell[1] ?? cell[2]);
  const names = cells(lines[0]);
  return lines.slice(1).map((line) => Object.fromEntries(cells(line).map((cell, index) => [names[index], cell])));
}

// International yard and pound agreement, 1959: 1 yd = 0.9144 m, so 1 in = 25.4 mm, exactly.
test("lengths are read to the micrometre", () => {
  for (const [text, unit, um] of [
    ["6.2 m", "ft", 6_200_000], ["620 cm", "m", 6_200_000], ["6200mm", "m", 6_200_000], ["6.2", "m", 6_200_000],
    ["6,2 m", "m", 6_200_000], [".5 m", "m", 500_000], ["6 m 20 cm", "m", 6_200_000], ["0.1m", "m", 100_000],
    ["20 ft 4 1/2 in", "m", 20 * 304_800 + 114_300], ["20′ 4½″", "m", 6_210_300], ["20' 4 1/2\"", "m", 6_210_300],
    ["20’4½”", "m", 6_210_300], ["20 feet, 4.5 inches", "m", 6_210_300], ["7 1/2 yd", "m", 6_858_000], ["7½", "yd", 6_858_000],
    ["1/3 ft", "m", 101_600], ["1/3 in", "m", 8_467], ["2/3 in", "m", 16_933], ["12 in", "m", 304_800], ["4½ in", "m", 114_300],
    ["1 200 mm", "m", null], ["12,5 cm", "m", 125_000], ["6 Meter", "cm", 6_000_000], ["5 ft", "m", 1_524_000], ["1/2⁄2 in", "m", null],
  ]) {
    const found = read(text, unit);
    if (um === null) assert.ok("fault" in found, text);
    else assert.equal(found.um, um, text);
  }
});

test("what can be read in two ways is not guessed", () => {
  assert.deepEqual(read("1,200 mm", "m", "."), { fault: "ambiguous" });
  assert.deepEqual(read("1.200 m", "m", ","), { fault: "ambiguous" });
  assert.equal(read("1.200 m", "m", ".").um, 1_200_000);
  assert.equal(read("1,200 m", "m", ",").um, 1_200_000);
  assert.equal(read("1.200,5 mm", "m", ",").um, 1_200_500);
  assert.equal(read("1,200.5 mm", "m", ".").um, 1_200_500);
  assert.equal(read("1,200,000 mm", "m", ".").um, 1_200_000_000);
  assert.deepEqual(read("1,2,3 m", "m", "."), { fault: "ambiguous" });
});

test("what is no length says why", () => {
  for (const [text, fault] of [["", "empty"], ["long", "unread"], ["6 miles", "unread"], ["-2 m", "unread"], ["4 in 20 ft", "order"],
    ["6 m 2 ft", "order"], ["6 6", "unread"], ["20 ft 4", "unread"], ["1/0 in", "unread"], ["99999999 m", "large"], ["6 m m", "unread"]]) {
    assert.deepEqual(read(text, "m"), { fault }, text);
  }
});

test("lengths are said in both ways", () => {
  assert.deepEqual(imperialWords(6_210_300), { text: "20\u00a0ft 4 1/2\u00a0in", exact: true });
  // 6.2 m is 244.094 in (6200 / 25.4): 20 ft 4 in and 1.5 sixteenths, so 1/8 is the nearest
  assert.deepEqual(imperialWords(6_200_000), { text: "20\u00a0ft 4 1/8\u00a0in", exact: false });
  assert.equal(imperialWords(304_800).text, "1\u00a0ft");
  assert.equal(imperialWords(0).text, "0\u00a0in");
  assert.equal(imperialWords(304_799).text, "1\u00a0ft");
  assert.equal(metricWords(6_200_000, "en"), "6.2\u00a0m");
  assert.equal(metricWords(6_200_001, "de"), "6,200001\u00a0m");
  assert.equal(metricWords(197_500, "en"), "19.75\u00a0cm");
  assert.match(both(6_210_300, true, "en"), /^20\u00a0ft .* = 6.2103\u00a0m$/);
  assert.match(both(6_200_000, true, "en"), /^6.2\u00a0m ≈ 20\u00a0ft/);
});

test("every micrometre survives as the double on the wire", () => {
  for (let um = 1; um < 2e12; um = um * 3 + 7) assert.equal(Math.round(millimetres(um) * 1000), um);
});

// Minor digits by ISO 4217: JPY 0, GBP 2, KWD 3, and 4 for a unit of account such as CLF.
test("money is moved digits, never a float", () => {
  for (const [minor, digits, text] of [["9945", 2, "99.45"], ["5", 2, "0.05"], ["-432", 2, "-4.32"], ["0", 2, "0.00"], ["120", 0, "120"],
    ["9007199254740993", 2, "90071992547409.93"], ["1", 3, "0.001"], ["-7", 4, "-0.0007"]]) {
    assert.equal(decimal(minor, digits), text);
  }
  assert.equal(written({ currencyCode: "GBP", minorUnits: "9945" }, 2, "en-GB"), "£99.45");
  assert.equal(written({ currencyCode: "EUR", minorUnits: "123456" }, 2, "de-DE"), "1.234,56\u00a0€");
});

// crates/calc/tables/hang.csv names the source of each row.
test("a swag is as long as the table says", () => {
  let checked = 0;
  for (const row of table("crates/calc/tables/hang.csv")) {
    if (row.function !== "curve" && row.function !== "total") continue;
    const swags = Number(row.swags);
    const length = swagLength(Number(row.span_mm) / swags, Number(row.dip_mm)) * swags;
    assert.ok(Math.abs(length - Number(row.expected)) <= Number(row.tolerance), `${row.id}: ${length}`);
    checked += 1;
  }
  assert.ok(checked >= 20, `${checked} rows`);
});

test("points of a hung string lie on it by arc length", () => {
  const curveMm = swagLength(2000, 250) * 3;
  const course = hung({ spanMm: 6000, dipMm: 250, swagCount: 3 }, curveMm, curveMm + 240);
  assert.ok(Math.abs(course.at(0).y - 250) < 1e-6 && Math.abs(course.at(0).x) < 1e-6);
  for (const s of [-curveMm / 2, -curveMm / 6, curveMm / 6, curveMm / 2]) assert.ok(Math.abs(course.at(s).y) < 1e-6, `${s}`);
  assert.ok(Math.abs(course.at(curveMm / 6).x - 1000) < 1e-6);
  // chords add up to the arc between any two places
  let sum = 0;
  for (let s = -900; s < 900; s += 1) sum += Math.hypot(course.at(s + 1).x - course.at(s).x, course.at(s + 1).y - course.at(s).y);
  assert.ok(Math.abs(sum - 1800) < 0.01, `${sum}`);
  assert.deepEqual(course.at(curveMm / 2 + 120), { x: 3000, y: 120 });
  assert.deepEqual(straight(6800).at(-3100), { x: -3100, y: 0 });
});

// crates/calc/tables/colours.csv names the source of each row.
test("colours that the answer does not list follow the rule", () => {
  const rules = { ends: "RULE_MIRROR_ENDS", centre: "RULE_MIRROR_CENTRE", repeat: "RULE_REPEAT" };
  let checked = 0;
  for (const row of table("crates/calc/tables/colours.csv")) {
    if (!rules[row.rule] || row.lettering || !row.hung) continue;
    const fabricCodes = [..."ABCDEFGHIJKLMNOPQRSTUVWXYZ"].slice(0, Number(row.fabrics));
    const count = Number(row.count);
    const hangs = Array.from({ length: count }, (_, index) => fabricAt({ rule: rules[row.rule], fabricCodes }, index, count)).join("");
    assert.equal(hangs, row.hung, row.id);
    checked += 1;
  }
  assert.ok(checked >= 12, `${checked} rows`);
});

/** The story of README.md, as far as it is drawn. */
function story() {
  const pair = [[-3100, -2910, "kelp"], [-2885, -2695, "chandlers-rope"], [2910, 3100, "chandlers-rope"]];
  const list = pair.map(([leftMm, rightMm, fabricCode]) => ({ leftMm, rightMm, fabricCode, letter: "" }));
  return {
    understood: { pennant: { shape: "SHAPE_TRIANGLE", widthMm: 190, dropMm: 210 }, colourOrder: { rule: "RULE_REPEAT", fabricCodes: ["kelp", "chandlers-rope", "lamp-oil"] } },
    layout: { pennantCount: 29, overallMm: 6800, topWidthMm: 190, topDropMm: 210, visibleWidthMm: 178.69, visibleDropMm: 197.5,
      positions: { pitchMm: 214.643, first: list[0], last: list[2], marks: list } },
    binding: { insertionMm: 12.5 },
  };
}

test("corners are where the marks are", () => {
  const drawn = picture(story());
  assert.equal(drawn.cloths[0].d, "M-3100 0L-2910 0L-3005 210Z");
  assert.equal(drawn.cloths[1].d, "M-2885 0L-2695 0L-2790 210ZM2910 0L3100 0L3005 210Z");
  assert.deepEqual(drawn.box, { left: -3400, right: 3400, top: 0, bottom: 210 });
});

test("beyond 400 pennants places are counted by the pitch", () => {
  const quote = story();
  quote.layout.positions.marks = [];
  const all = marks(quote);
  assert.equal(all.length, 29);
  assert.equal(all[28].leftMm, 2910);
  assert.ok(Math.abs(all[14].leftMm - (-3100 + 14 * 214.643)) < 1e-9);
  assert.equal(all[28].fabricCode, "chandlers-rope");
});

// From memory: an arc of rise h on a chord w has the radius (w²/4 + h²) / 2h.
test("shapes have their own feet", () => {
  assert.deepEqual(outline({ shape: "SHAPE_BLUNT", footMm: 60 }, 150, 200).points, [[105, 200], [45, 200]]);
  assert.deepEqual(outline({ shape: "SHAPE_SWALLOWTAIL", notchMm: 60 }, 150, 220).points, [[150, 220], [75, 160], [0, 220]]);
  assert.deepEqual(outline({ shape: "SHAPE_SHIELD", shoulderMm: 130, dropMm: 220 }, 180, 220).points, [[180, 130], [90, 220], [0, 130]]);
  assert.deepEqual(outline({ shape: "SHAPE_SCALLOP", riseMm: 70 }, 140, 160), { points: [[140, 90], [0, 90]], arc: 70 });
  assert.deepEqual(outline({ shape: "SHAPE_RECTANGLE" }, 150, 220).points, [[150, 220], [0, 220]]);
});

test("choices become an enquiry, and only what was chosen", () => {
  assert.equal(enquiry(fresh()), null);
  assert.deepEqual(enquiry({ ...fresh(), lengthUm: 6_200_000 }), { flaggedMm: 6200, shelf: true });
  assert.deepEqual(enquiry({ ...fresh(), lengthUm: 6_000_000, measure: "hang", dipUm: 250_000, swagCount: 3 }),
    { hang: { spanMm: 6000, dipMm: 250, swagCount: 3 }, shelf: true });
  // what was told of a child's room is not passed on for a hall
  const hall = { ...fresh(), lengthUm: 1e6, place: "PLACE_VENUE", who: "WHO_NO_CHILD", heightUm: 2e6, cotUm: 1e6, months: 3, wallWidthUm: 4e6 };
  assert.deepEqual(enquiry(hall).near, { who: "WHO_NO_CHILD", place: "PLACE_VENUE", wallWidthMm: 4000 });
  const design = { pennant: { shape: "SHAPE_TRIANGLE", widthMm: 190, dropMm: 210 }, fabricCodes: ["kelp"] };
  assert.deepEqual(enquiry({ ...fresh(), lengthUm: 1e6, shape: "SHAPE_BLUNT", rule: "RULE_MIRROR_ENDS" }, design),
    { flaggedMm: 1000, pennant: { shape: "SHAPE_BLUNT", footMm: 76 }, colourOrder: { rule: "RULE_MIRROR_ENDS", fabricCodes: ["kelp"] }, shelf: true });
  assert.ok(shapeDetail("SHAPE_SCALLOP", { widthMm: 190, dropMm: 210 }).riseMm <= 95);
});

test("a link carries the choices and never the lettering", () => {
  const choices = { ...fresh(), lengthUm: 6_200_000, fabrics: ["kelp", "lamp-oil"], lettering: "ANNA", place: "PLACE_HOME", rush: true, count: 28 };
  const link = toFragment(choices);
  assert.ok(!/anna/i.test(link));
  assert.deepEqual({ ...fresh(), ...fromFragment(`#${link}`) }, { ...choices, lettering: "" });
  assert.equal(fromFragment("#contact"), null);
  assert.deepEqual(fromFragment("#made-to-order?l=1e9&lettering=ANNA&__proto__=x&m=odd&q=2"), { quantity: 2 });
});

test("a path of the contract leads to its field", () => {
  for (const [path, field] of [["flaggedMm", "length"], ["hang.spanMm", "length"], ["hang.dipMm", "dip"], ["pennant.footMm", "shape"],
    ["finish.ends[0].loopMm", "loop"], ["finish.ends[0].style", "ends"], ["near.cotDistanceMm", "cot"], ["near.who", "who"],
    ["destination.countryCode", "destination"], ["colourOrder.fabricCodes[2]", "cloths"], ["requestId", ""]]) {
    assert.equal(fieldOf(path), field, path);
  }
});

test("an older answer never overwrites a newer one", async () => {
  const waiting = [];
  const asker = new Asker((question, signal) => new Promise((give) => waiting.push({ question, signal, give })), 0);
  const got = [];
  const then = { answered: (answer) => got.push(answer), failed: (problem) => got.push(problem) };
  asker.next("one", then);
  asker.next("two", then);
  await new Promise((done) => setTimeout(done, 5));
  assert.equal(waiting[0].signal.aborted, true);
  // the first one answers all the same, and late
  waiting[1].give("answer two");
  waiting[0].give("answer one");
  await new Promise((done) => setTimeout(done, 5));
  assert.deepEqual(got, ["answer two"]);
});

test("of what comes in one pause the newest is asked", async () => {
  const asked = [];
  const asker = new Asker(async (question) => asked.push(question), 30);
  const then = { answered: () => {}, failed: () => {} };
  for (const question of [1, 2, 3, 4]) asker.next(question, then);
  await new Promise((done) => setTimeout(done, 60));
  assert.deepEqual(asked, [1, 4]);
});

test("the gateway's refusals are passed on as they are", async () => {
  const refusal = { reason: "INVALID_ENQUIRY", status: 400, detail: "one thing", violations: [{ field: "flaggedMm", reason: "OUT_OF_RANGE", message: "12 mm" }] };
  let sent;
  const gateway = new Gateway("https://shop.example", async (url, request) => {
    sent = { url, request };
    return { ok: false, status: 400, json: async () => refusal };
  });
  await assert.rejects(gateway.hold({ token: "t" }, "once"), (problem) => problem instanceof Problem && problem.detail.violations[0].field === "flaggedMm");
  assert.equal(sent.url, "https://shop.example/v1/reservations");
  assert.equal(sent.request.headers["idempotency-key"], "once");
  assert.equal(sent.request.credentials, "omit");
});

// What a page that carries the form fetches: the element, its modules and one language.
test("it is under 60 kB as gzip packs it, in each language", () => {
  const packed = (name) => gzipSync(readFileSync(new URL(name, assets)), { level: 6 }).length;
  const modules = readdirSync(new URL("made-to-order/", assets)).filter((name) => name.endsWith(".js"));
  const all = ["made-to-order.js", ...modules.map((name) => `made-to-order/${name}`)].map(packed);
  for (const language of readdirSync(new URL("made-to-order/text/", assets))) {
    const bytes = [...all, packed(`made-to-order/text/${language}`)].reduce((sum, one) => sum + one, 0);
    assert.ok(bytes > 10_000 && bytes < 60_000, `${language}: ${bytes}`);
  }
});
