/**
 * The form on its own page, in a browser: the main path, each kind of error, keys alone, slow and
 * failing networks, links, the back button, loading again, two tabs on the last metre, every choice, ways to keep a
 * day, all that is said, and a photograph.
 *
 * What is checked against: the gateway's own answers to the same question, asked from here.
 */

import assert from "node:assert/strict";
import { LONG, PUBLIC, answered, field, opened, post, receive, scenes, type } from "./tools.mjs";

const QUOTES = `${PUBLIC}/v1/quotes`;
const text = (page, css) => page.locator(`made-to-order ${css}`).innerText();

/** Answers the questions of who is near so that nothing has to be acknowledged. */
async function nobodyNear(page) {
  await page.locator("made-to-order input[name=mto-place][value=PLACE_HOME]").check();
  await page.locator("made-to-order input[name=mto-who][value=WHO_NO_CHILD]").check();
}

const main = async (page) => {
  const asked = [];
  page.on("request", (request) => asked.push(request.url()));
  await page.goto(PUBLIC);
  await type(page, "length", "6.2");
  const quote = await answered(page, "quote.layout.flaggedMm === 6200");
  const { body: own } = await post(QUOTES, { flaggedMm: 6200, shelf: true });
  assert.equal(quote.quoteId, own.quoteId);
  const minor = BigInt(own.price.total.minorUnits);
  assert.equal(await text(page, ".total"), `£${minor / 100n}.${String(minor % 100n).padStart(2, "0")}`);
  assert.equal((await text(page, "output[for=mto-length]")).replace(/\s/g, " "), "6.2 m ≈ 20 ft 4 1/8 in");
  // every pennant's corners are the answer's, to the last digit: a triangle's point hangs in its middle
  for (const code of new Set(own.layout.positions.marks.map((mark) => mark.fabricCode))) {
    const d = await page.locator(`made-to-order path[data-fabric="${code}"]`).getAttribute("d");
    const marks = own.layout.positions.marks.filter((mark) => mark.fabricCode === code);
    const starts = d.split("M").filter(Boolean);
    assert.equal(starts.length, marks.length, code);
    starts.forEach((path, index) => {
      const { leftMm, rightMm } = marks[index];
      assert.deepEqual(path.match(/-?\d+(?:\.\d+)?/g).map(Number), [leftMm, 0, rightMm, 0, (leftMm + rightMm) / 2, own.layout.topDropMm], `${code} ${index}`);
    });
  }
  // one more by a click is the alternative that the answer offered
  await page.locator("made-to-order [data-key=more]").click();
  const more = await answered(page, "quote.layout.pennantCount === 30");
  assert.equal(more.layout.gapMm, own.layout.alternatives.find(({ pennantCount }) => pennantCount === 30).gapMm);
  assert.ok(asked.length > 5 && asked.every((url) => url.startsWith(`${PUBLIC}/`) || url.startsWith("data:")), asked.join("\n"));
};

const hanging = async (page) => {
  await page.goto(PUBLIC);
  await page.locator("made-to-order input[name=mto-measure][value=hang]").check();
  await type(page, "length", "4 m");
  await type(page, "dip", "30 cm");
  const { layout } = await answered(page, "quote.understood.hang?.spanMm === 4000 && quote.understood.hang.dipMm === 300");
  // a catenary of parameter a through hooks 4 m apart dips a (cosh(2 m / a) - 1), and x across from its
  // middle is a sinh(x / a) along it (any textbook of mechanics)
  let [low, high] = [1, 1e6];
  while (high - low > 1e-9) {
    const a = (low + high) / 2;
    if (a * (Math.cosh(2000 / a) - 1) > 300) low = a;
    else high = a;
  }
  const near = (is, wanted, what) => assert.ok(Math.abs(is - wanted) < 0.02, `${what}: ${is}, wanted ${wanted}`);
  let drawn = 0;
  for (const code of new Set(layout.positions.marks.map((mark) => mark.fabricCode))) {
    const d = await page.locator(`made-to-order path[data-fabric="${code}"]`).getAttribute("d");
    const marks = layout.positions.marks.filter((mark) => mark.fabricCode === code);
    d.split("M").filter(Boolean).forEach((path, index) => {
      const [x0, y0, x1, y1, tipX, tipY] = path.match(/-?\d+(?:\.\d+)?/g).map(Number);
      for (const [x, y, s] of [[x0, y0, marks[index].leftMm], [x1, y1, marks[index].rightMm]]) {
        near(low * Math.sinh(x / low), s, `${code} ${index} along the string`);
        near(y, 300 - low * (Math.cosh(x / low) - 1), `${code} ${index} below the hooks`);
      }
      near(Math.hypot(tipX - (x0 + x1) / 2, tipY - (y0 + y1) / 2), layout.topDropMm, `${code} ${index} long`);
      near(((tipX - (x0 + x1) / 2) * (x1 - x0) + (tipY - (y0 + y1) / 2) * (y1 - y0)) / Math.hypot(x1 - x0, y1 - y0), 0, `${code} ${index} square to the string`);
      drawn += 1;
    });
  }
  assert.equal(drawn, layout.pennantCount);
};

const feet = async (page) => {
  await page.goto(PUBLIC);
  await type(page, "length", "20 ft 4 1/2 in");
  // 20 ft 4 1/2 in is 244.5 in, and an inch is 25.4 mm exactly (yard and pound agreement, 1959)
  const quote = await answered(page, "quote.layout.flaggedMm === 6210.3");
  assert.equal(quote.understood.flaggedMm, 6210.3);
};

const holding = async (page) => {
  for (const [code, metres] of [["kelp", 2], ["chandlers-rope", 2], ["lamp-oil", 2], ["bosun-25", 20]]) await receive(code, metres);
  await page.goto(PUBLIC);
  await type(page, "length", "2 m");
  await nobodyNear(page);
  await answered(page, "quote.layout.flaggedMm === 2000 && quote.understood.near?.who === 'WHO_NO_CHILD' && quote.shelf.available");
  const held = page.evaluate(() => new Promise((done) => document.addEventListener("hold", (event) => done(event.detail), { once: true })));
  await page.locator("made-to-order [data-key=hold]").click();
  const reservation = await held;
  assert.equal(reservation.state, "RESERVATION_STATE_HELD");
  assert.match(await text(page, ".clock"), /1[45]/);
  const seen = await (await fetch(`${PUBLIC}/v1/reservations/${reservation.reservationId}`)).json();
  assert.equal(seen.state, "RESERVATION_STATE_HELD");
  await page.locator("made-to-order [data-key=extend]").click();
  await page.locator("made-to-order [role=status]", { hasText: /longer|more|until/ }).waitFor({ state: "attached" });
  await page.locator("made-to-order [data-key=release]").click();
  await page.locator("made-to-order .clock").waitFor({ state: "detached" });
  const gone = await (await fetch(`${PUBLIC}/v1/reservations/${reservation.reservationId}`)).json();
  assert.equal(gone.state, "RESERVATION_STATE_RELEASED");
};

const acknowledging = async (page) => {
  await page.goto(PUBLIC);
  await type(page, "length", "2 m");
  await page.locator("made-to-order input[name=mto-place][value=NURSERY]").check();
  await page.locator("made-to-order input[name=mto-nursery][value=PLACE_CHILD_ROOM]").check();
  await page.locator("made-to-order input[name=mto-who][value=WHO_CHILD]").check();
  await type(page, "months", "0");
  const quote = await answered(page, "quote.understood.near?.youngestMonths === 0 && quote.child.outcome === 'OUTCOME_RESTRICT' && quote.child.acknowledge.length > 0");
  for (const finding of quote.child.findings) {
    const shown = await page.locator(`made-to-order [data-rule="${finding.ruleId}"]`).first().innerText();
    assert.ok(shown.includes(finding.text), finding.ruleId);
  }
  assert.ok((await text(page, ".findings")).includes(quote.child.scope));
  await page.locator("made-to-order [data-key=hold]").click();
  const told = await text(page, ".summary");
  for (const rule of quote.child.acknowledge) assert.ok(told.includes(rule), `${rule} in ${told}`);
  for (const rule of quote.child.acknowledge) await page.locator(`made-to-order #mto-ack-${rule}`).check();
  const held = page.evaluate(() => new Promise((done) => document.addEventListener("hold", (event) => done(event.detail), { once: true })));
  await page.locator("made-to-order [data-key=hold]").click();
  const reservation = await held;
  assert.deepEqual([...reservation.acknowledgedRuleIds].sort(), [...quote.child.acknowledge].sort());
  await page.locator("made-to-order [data-key=release]").click();
  await page.locator("made-to-order .clock").waitFor({ state: "detached" });
  // a cot is refused: priced, and not to be held
  await page.locator("made-to-order input[name=mto-place][value=PLACE_COT]").check();
  await answered(page, "quote.child.outcome === 'OUTCOME_REFUSE'");
  assert.equal(await page.locator("made-to-order [data-key=hold]").count(), 0);
};

const errors = async (page) => {
  await page.goto(PUBLIC);
  for (const [words, fits] of [["abc", /cannot be read/], ["1,200.5.3", /read/], ["6.2 m 3 ft", /mix|order|first/], ["10 cm", /makes lengths from/], ["900 m", /makes lengths from/]]) {
    await type(page, "length", words);
    await page.locator("made-to-order .has-error #mto-length-error").waitFor();
    await page.locator("made-to-order #mto-length-error", { hasText: fits }).waitFor();
    assert.equal(await page.locator("made-to-order .summary li").count(), 1, words);
    assert.equal(await field(page, "length").getAttribute("aria-invalid"), "true", words);
    assert.match(await field(page, "length").getAttribute("aria-describedby"), /mto-length-error/);
    // the list leads to the field
    await page.locator("made-to-order .summary [data-key=length]").click();
    assert.equal(await page.evaluate(() => document.querySelector("made-to-order").shadowRoot.activeElement.id), "mto-length", words);
  }
  await type(page, "length", "6.2 m");
  await answered(page, "quote.layout.flaggedMm === 6200");
  assert.equal(await field(page, "length").getAttribute("aria-invalid"), null);
  // what the gateway refuses is told beside its field, too
  await page.locator("made-to-order details.more > summary").click();
  await type(page, "quantity", "20000");
  await page.locator("made-to-order .has-error #mto-quantity-error").waitFor();
  await type(page, "quantity", "2");
  await answered(page, "quote.understood.quantity === 2");
  await field(page, "lettering").fill("ABCDEFGHIJKLMNOPQRSTUVWXYZABCDEFGHIJKLMNOPQRSTUVWXYZABCDEFGH");
  await page.locator("made-to-order .has-error #mto-lettering-error").waitFor();
  await field(page, "lettering").fill("");
  await answered(page, "quote.understood.quantity === 2 && !quote.understood.lettering");
};

const keys = async (page) => {
  await page.goto(PUBLIC);
  await page.locator("made-to-order #mto-length").waitFor();
  const at = () => page.evaluate(() => {
    const here = document.querySelector("made-to-order")?.shadowRoot?.activeElement;
    return here ? here.id || here.dataset.key || here.name || here.className : "";
  });
  const tabTo = async (name) => {
    for (let steps = 0; steps < 120; steps += 1) {
      await page.keyboard.press("Tab");
      if ((await at()) === name) return;
    }
    throw new Error(`${name} is not reached by Tab; at ${await at()}`);
  };
  await tabTo("mto-length");
  await page.keyboard.type("3 m");
  await answered(page, "quote.layout.flaggedMm === 3000");
  await tabTo("mto-place");
  await tabTo("mto-who");
  await page.keyboard.press("ArrowDown");
  await answered(page, "quote.understood.near !== undefined");
  await tabTo("hold");
};

const slow = async (page) => {
  let first = true;
  await page.route("**/v1/quotes", async (route) => {
    const wanted = route.request().postDataJSON();
    if (first && wanted.flaggedMm === 5000) {
      first = false;
      await new Promise((done) => setTimeout(done, 1500));
    }
    await route.continue().catch(() => {});
  });
  await page.goto(PUBLIC);
  await type(page, "length", "5 m");
  await type(page, "length", "7 m");
  await answered(page, "quote.layout.flaggedMm === 7000");
  await page.waitForTimeout(2000);
  // the answer that was slow does not come back over the newer one
  assert.equal((await answered(page)).layout.flaggedMm, 7000);
};

const failing = async (page) => {
  await page.goto(PUBLIC);
  await type(page, "length", "5 m");
  await answered(page, "quote.layout.flaggedMm === 5000");
  await page.route("**/v1/quotes", (route) => route.abort("connectionrefused"));
  await type(page, "length", "8 m");
  await page.locator("made-to-order .summary:not([hidden])").waitFor();
  assert.ok((await page.locator("made-to-order .is-stale").count()) === 1, "the old price is marked as such");
  await page.unroute("**/v1/quotes");
  await type(page, "length", "9 m");
  await answered(page, "quote.layout.flaggedMm === 9000");
  assert.equal(await page.locator("made-to-order .summary:not([hidden])").count(), 0);
};

const linked = async (page) => {
  await page.goto(PUBLIC);
  await type(page, "length", "4 m");
  await page.locator("made-to-order details.more > summary").click();
  await field(page, "lettering").fill("MARLA");
  await answered(page, "quote.understood.lettering === 'MARLA'");
  await page.locator("made-to-order .share button").click();
  const address = await page.locator("made-to-order .share input").inputValue();
  assert.ok(!/marla/i.test(address), address);
  assert.ok(new URL(address).hash.length > 10 && new URL(address).search === "", address);
  await page.goto("about:blank");
  await page.goto(address);
  const again = await answered(page, "quote.layout.flaggedMm === 4000");
  assert.equal(again.understood.lettering, undefined);
  // two links on one page, and back
  await page.goto(address.replace(/l=\d+/, "l=5500000"));
  await answered(page, "quote.layout.flaggedMm === 5500");
  await page.goBack();
  await answered(page, "quote.layout.flaggedMm === 4000");
};

const comingBack = async (page) => {
  for (const [code, metres] of [["kelp", 2], ["chandlers-rope", 2], ["lamp-oil", 2], ["bosun-25", 20]]) await receive(code, metres);
  await page.goto(PUBLIC);
  await type(page, "length", "2.3 m");
  await nobodyNear(page);
  const asked = "quote.layout.flaggedMm === 2300 && quote.understood.near?.who === 'WHO_NO_CHILD'";
  await answered(page, `${asked} && quote.shelf.available`);
  const held = page.evaluate(() => new Promise((done) => document.addEventListener("hold", (event) => done(event.detail), { once: true })));
  await page.locator("made-to-order [data-key=hold]").click();
  const { reservationId, quoteId } = await held;
  // loaded again, the choices and the hold are there
  await page.reload();
  assert.equal((await answered(page, asked)).quoteId, quoteId);
  await page.locator("made-to-order .clock").waitFor();
  assert.equal(await page.locator("made-to-order [data-key=hold]").count(), 0);
  // and so they are after a look at another page
  await page.goto("about:blank");
  await page.goBack();
  await answered(page, asked);
  await page.locator("made-to-order [data-key=release]").click();
  await page.locator("made-to-order .clock").waitFor({ state: "detached" });
  assert.equal((await (await fetch(`${PUBLIC}/v1/reservations/${reservationId}`)).json()).state, "RESERVATION_STATE_RELEASED");
  // one that ended elsewhere is not spoken of
  const again = page.evaluate(() => new Promise((done) => document.addEventListener("hold", (event) => done(event.detail), { once: true })));
  await page.locator("made-to-order [data-key=hold]").click();
  const ended = await again;
  await fetch(`${PUBLIC}/v1/reservations/${ended.reservationId}`, { method: "DELETE" });
  await page.reload();
  await answered(page, asked);
  await page.locator("made-to-order [data-key=hold]").waitFor();
  assert.equal(await page.locator("made-to-order .clock").count(), 0);
  // what is to be written on pennants stays nowhere, and a link goes before what was chosen
  await page.locator("made-to-order details.more > summary").click();
  await field(page, "lettering").fill("MARLA");
  await answered(page, "quote.understood.lettering === 'MARLA'");
  assert.ok(!/marla/i.test(await page.evaluate(() => JSON.stringify({ ...sessionStorage, ...localStorage }))));
  await page.goto("about:blank");
  await page.goto(`${PUBLIC}/#made-to-order?l=4000000`);
  await answered(page, "quote.layout.flaggedMm === 4000 && quote.understood.lettering === undefined");
};

const lastMetre = async (page, context, faults) => {
  // 0.80 m of it and no more: one string takes it
  await receive("quay-stone", 0.8, "LAST");
  await receive("bosun-25", 10);
  const other = await opened(context, faults);
  for (const tab of [page, other]) {
    await tab.goto(PUBLIC);
    for (const code of ["kelp", "chandlers-rope", "lamp-oil"]) {
      await tab.locator(`made-to-order button[data-code="${code === "kelp" ? "quay-stone" : code}"]`).click();
    }
    await tab.locator('made-to-order button[data-code="kelp"]').click();
    await type(tab, "length", "4.5 m");
    await nobodyNear(tab);
    await answered(tab, "quote.understood.colourOrder.fabricCodes.join() === 'quay-stone' && quote.layout.flaggedMm === 4500 && quote.understood.near?.who === 'WHO_NO_CHILD'");
  }
  const one = await answered(page);
  assert.ok(one.fabrics[0].chargedMm <= 800 && one.fabrics[0].chargedMm > 400, `${one.fabrics[0].chargedMm} mm of the last 800`);
  await page.locator("made-to-order [data-key=hold]").click();
  await page.locator("made-to-order .clock").waitFor();
  await other.locator("made-to-order [data-key=hold]").click();
  await other.locator("made-to-order .summary:not([hidden])").waitFor();
  assert.equal(await other.locator("made-to-order .clock").count(), 0);
  assert.match(await text(other, ".summary"), /shelf|cloth/i);
  await page.locator("made-to-order [data-key=release]").click();
  await page.locator("made-to-order .clock").waitFor({ state: "detached", timeout: LONG });
};

const ordered = async (page) => {
  await page.goto(PUBLIC);
  // no more than three questions are open at first
  await page.locator("made-to-order #mto-length").waitFor();
  const questions = page.locator("made-to-order section.question h3");
  const asked = (await questions.allInnerTexts()).map((words) => words.replace(/\s+/g, " "));
  assert.deepEqual(asked, ["1 How long?", "2 Which cloths?", "3 Where, and who is near?"]);
  assert.equal(await page.locator("made-to-order details.more").getAttribute("open"), null);
  await type(page, "length", "6.2 m");
  await answered(page, "quote.layout.flaggedMm === 6200");
  await page.locator("made-to-order details.more > summary").click();
  const order = "quote.understood.colourOrder.fabricCodes.join()";
  await page.locator("made-to-order [data-key=earlier-lamp-oil]").click();
  await answered(page, `${order} === 'kelp,lamp-oil,chandlers-rope'`);
  // the last is dragged to the top by its dots
  const grip = await page.locator('made-to-order .order li[data-code="chandlers-rope"] .grip').boundingBox();
  const first = await page.locator("made-to-order .order li").first().boundingBox();
  await page.mouse.move(grip.x + grip.width / 2, grip.y + grip.height / 2);
  await page.mouse.down();
  await page.mouse.move(grip.x + grip.width / 2, first.y + 4, { steps: 6 });
  await page.mouse.up();
  const quote = await answered(page, `${order} === 'chandlers-rope,kelp,lamp-oil'`);
  assert.equal(quote.layout.positions.marks[0].fabricCode, "chandlers-rope");
  await page.locator("made-to-order [data-key=remove-kelp]").click();
  await answered(page, `${order} === 'chandlers-rope,lamp-oil'`);
  // shape, ends and both sides are asked for as they are chosen
  await page.locator("made-to-order input[name=mto-shape][value=SHAPE_SWALLOWTAIL]").check();
  await answered(page, "quote.understood.pennant.shape === 'SHAPE_SWALLOWTAIL'");
  await field(page, "ends").selectOption("END_STYLE_LOOP");
  await type(page, "loop", "10 cm");
  await answered(page, "quote.understood.finish?.ends[0].loopMm === 100");
  const sides = await field(page, "sides").locator("option").evaluateAll((options) => options.map(({ value }) => value));
  const both = sides.find((kind) => kind.startsWith("CONSTRUCTION_DOUBLE"));
  if (both) {
    await field(page, "sides").selectOption(both);
    await answered(page, `quote.understood.construction === '${both}'`);
  }
  await field(page, "destination").selectOption("DE");
  await answered(page, "quote.understood.destination.countryCode === 'DE'");
};

const aDay = async (page) => {
  await page.goto(PUBLIC);
  await type(page, "length", "60 m");
  const plain = await answered(page, "quote.layout.flaggedMm === 60000");
  await page.locator("made-to-order details.more > summary").click();
  // the day before it arrives cannot be kept as it is; what would keep it is the answer's own list
  const before = new Date(Date.parse(plain.dates.arriveTo) - 86_400_000).toISOString().slice(0, 10);
  await field(page, "day").fill(before);
  const quote = await answered(page, `quote.understood.wantedDate === '${before}'`);
  assert.equal(quote.dates.wantedKept, false);
  assert.equal(await page.locator("made-to-order .ways li").count(), quote.dates.ways.length);
  assert.ok(quote.dates.ways.length > 0, "this shop has a way to keep that day");
  await page.locator("made-to-order .ways button").first().click();
  const kept = await answered(page, "quote.dates.wantedKept === true");
  assert.equal(kept.price.total.minorUnits, quote.dates.ways[0].total.minorUnits);
};

const said = async (page) => {
  await page.goto(PUBLIC);
  await type(page, "length", "6.2 m");
  const quote = await answered(page, "quote.layout.flaggedMm === 6200");
  const all = (await page.locator("made-to-order .form").innerText()).replace(/\s+/g, " ");
  const minor = ({ minorUnits }) => `£${BigInt(minorUnits) / 100n}.${String(BigInt(minorUnits) % 100n).padStart(2, "0")}`;
  const money = [...quote.price.lines.map(({ amount }) => amount), quote.price.total, quote.price.tax.included, quote.price.tax.net, quote.price.perMetre];
  for (const amount of money) assert.ok(all.includes(minor(amount)), minor(amount));
  const { maker } = await (await fetch(`${PUBLIC}/v1/catalogue`)).json();
  const { withdrawal } = quote.price;
  const words = [withdrawal.reason, withdrawal.source, quote.child.scope, maker.name, maker.postalAddress, maker.electronicAddress, maker.responsiblePerson, ...quote.leaflet];
  for (const word of words) assert.ok(all.includes(word.replace(/\s+/g, " ")), word);
  for (const { message, field: of } of quote.notices) {
    if (!of.startsWith("near")) assert.ok(all.includes(message.replace(/\s+/g, " ")), message);
  }
  assert.ok(!/\b(safe|compliant)\b/i.test(all), "nothing is cleared");
};

const photographed = async (page) => {
  await page.goto(PUBLIC);
  await type(page, "length", "6.2 m");
  await answered(page, "quote.layout.flaggedMm === 6200");
  const image = page.locator("made-to-order pattern#mto-cloth-kelp image");
  // 160 mm across and 240 mm along, as the catalogue of these tests says; the drawing is in mm
  assert.deepEqual([await image.getAttribute("width"), await image.getAttribute("height")], ["160", "240"]);
  const href = await image.getAttribute("href");
  assert.equal(href, `${PUBLIC}/pictures/kelp.png`);
  const size = await page.evaluate(async (address) => {
    const picture = new Image();
    picture.src = address;
    await picture.decode();
    return [picture.naturalWidth, picture.naturalHeight];
  }, href);
  assert.deepEqual(size, [1, 1]);
};

await scenes([
  ["a length is typed, drawn and priced", {}, main],
  ["hooks, and the string drawn as it hangs", {}, hanging],
  ["feet, inches and fractions", {}, feet],
  ["held, extended, let go", {}, holding],
  ["what restricts is acknowledged, what is refused is not held", {}, acknowledging],
  ["each kind of error", {}, errors],
  ["keys alone", {}, keys],
  ["a slow network", {}, slow],
  ["a failing network", {}, failing],
  ["a link, and back", {}, linked],
  ["loaded again, and come back to", {}, comingBack],
  ["two tabs on the last metre", {}, lastMetre],
  ["three questions first; then order, shape, ends, sides, destination", { viewport: { width: 1280, height: 2000 } }, ordered],
  ["a day that is missed, and a way to keep it", {}, aDay],
  ["all that the answer says is shown", {}, said],
  ["a photograph is laid to scale", {}, photographed],
]);
