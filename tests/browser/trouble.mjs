/**
 * The form when something is in the way: a hold that runs out or ends elsewhere, faults that come
 * and go, slow answers, several forms on a page, and a page that changes its mind about one.
 *
 * What is checked against: what the gateway says, and what a buyer would expect; no source.
 */

import assert from "node:assert/strict";
import { PUBLIC, answered, field, opened, receive, scenes, type } from "./tools.mjs";

const FORM = "made-to-order";
const shown = (page, selector) => page.locator(`${FORM} ${selector}`).first().innerText();
const stale = (page) => page.locator(`${FORM} .form.is-stale`);
const valid = (page) => page.evaluate(() => document.querySelector("made-to-order").checkValidity());
const listed = async (page) => (await page.locator(`${FORM} .summary:not([hidden]) li`).allInnerTexts()).length;

async function ready(page, words = "2.3 m") {
  for (const [code, metres] of [["kelp", 3], ["chandlers-rope", 3], ["lamp-oil", 3], ["bosun-25", 40]]) await receive(code, metres);
  await page.goto(PUBLIC);
  await type(page, "length", words);
  await page.locator(`${FORM} input[name=mto-place][value=PLACE_HOME]`).check();
  await page.locator(`${FORM} input[name=mto-who][value=WHO_NO_CHILD]`).check();
  return answered(page, "quote.understood.near?.who === 'WHO_NO_CHILD' && quote.shelf.available");
}

async function hold(page) {
  const held = page.evaluate(() => new Promise((done) => document.addEventListener("hold", (event) => done(event.detail), { once: true })));
  await page.locator(`${FORM} [data-key=hold]`).click();
  await page.locator(`${FORM} .clock`).waitFor();
  return held;
}

/** Where focus is, within the form. */
const focus = (page) => page.evaluate(() => {
  const root = document.querySelector("made-to-order").shadowRoot;
  const at = root.activeElement;
  return at ? at.dataset.key ?? at.id ?? at.tagName : "nowhere";
});

const runsOut = async (page) => {
  await page.route("**/v1/reservations", async (route) => {
    const answer = await route.fetch();
    const held = await answer.json();
    await route.fulfill({ response: answer, json: { ...held, expireTime: new Date(Date.now() + 2500).toISOString() } });
  });
  await ready(page);
  const { reservationId } = await hold(page);
  await page.locator(`${FORM} .hold`, { hasText: "The time is over" }).waitFor();
  assert.equal(await page.locator(`${FORM} .clock`).count(), 0);
  // and life goes on
  await type(page, "length", "2.4 m");
  await answered(page, "quote.layout.flaggedMm === 2400");
  assert.equal(await stale(page).count(), 0);
  assert.ok(await valid(page));
  await page.locator(`${FORM} [data-key=hold]`).waitFor();
  await fetch(`${PUBLIC}/v1/reservations/${reservationId}`, { method: "DELETE" });
};

const endsElsewhere = async (page) => {
  await ready(page);
  const { reservationId } = await hold(page);
  await fetch(`${PUBLIC}/v1/reservations/${reservationId}`, { method: "DELETE" });
  await page.locator(`${FORM} [data-key=extend]`).click();
  await page.locator(`${FORM} .clock`).waitFor({ state: "detached" });
  const again = await hold(page);
  assert.notEqual(again.reservationId, reservationId);
  await page.locator(`${FORM} [data-key=release]`).click();
  await page.locator(`${FORM} .clock`).waitFor({ state: "detached" });
};

const heldMeanwhile = async (page) => {
  await ready(page);
  await hold(page);
  // focus is where something can be done, whatever was pressed
  assert.equal(await focus(page), "extend");
  for (const words of ["2.3x", ""]) {
    await field(page, "length").fill(words);
    await page.locator(`${FORM} [data-key=hold]`).waitFor({ state: "detached" });
    assert.ok(await page.locator(`${FORM} .clock`).isVisible(), `with ${JSON.stringify(words)}`);
  }
  await page.locator(`${FORM} [data-key=release]`).click();
  await page.locator(`${FORM} .clock`).waitFor({ state: "detached" });
  await type(page, "length", "2.3 m");
  await answered(page, "quote.layout.flaggedMm === 2300");
  await page.locator(`${FORM} [data-key=more]`).click();
  await page.locator(`${FORM} [data-key=fit]`).click();
  await page.locator(`${FORM} [data-key=fit]`).waitFor({ state: "detached" });
  assert.equal(await focus(page), "fewer");
};

const faults = async (page) => {
  await page.goto(PUBLIC);
  await page.locator(`${FORM} input[name=mto-measure][value=hang]`).check();
  await type(page, "length", "4 m");
  await answered(page, "quote.understood.hang?.spanMm === 4000");
  // a field that may be empty: its fault goes with what was typed
  await field(page, "dip").fill("x");
  assert.equal(await listed(page), 1);
  await stale(page).waitFor({ state: "attached" });
  assert.ok(!await valid(page));
  await field(page, "dip").fill("");
  await stale(page).waitFor({ state: "detached" });
  assert.equal(await listed(page), 0);
  // a field that is asked no longer has no faults
  await field(page, "dip").fill("x");
  await page.locator(`${FORM} input[name=mto-measure][value=flagged]`).check();
  await answered(page, "quote.layout.flaggedMm === 4000 && quote.understood.hang === undefined");
  assert.equal(await listed(page), 0);
  await stale(page).waitFor({ state: "detached" });
  // and has them again when it is asked again
  await page.locator(`${FORM} input[name=mto-measure][value=hang]`).check();
  assert.equal(await listed(page), 1);
  await field(page, "dip").fill("20 cm");
  await answered(page, "quote.understood.hang?.dipMm === 200");
  // a whole number that cannot be is not the one before it
  await page.locator(`${FORM} details.more > summary`).click();
  await field(page, "quantity").fill("5");
  await answered(page, "quote.understood.quantity === 5");
  await field(page, "quantity").fill("0");
  await stale(page).waitFor({ state: "attached" });
  assert.ok(!await valid(page));
  assert.equal(await page.locator(`${FORM} [data-key=hold]`).count(), 0);
  await page.locator(`${FORM} [role=status]`, { hasText: /thing/ }).waitFor({ state: "attached" });
  await field(page, "quantity").fill("2");
  await answered(page, "quote.understood.quantity === 2");
  assert.ok(await valid(page));
  // what a link brings takes the place of what could not be read
  await field(page, "length").fill("rubbish");
  assert.equal(await listed(page), 1);
  await page.evaluate(() => { location.hash = "made-to-order?l=6200000"; });
  await answered(page, "quote.layout.flaggedMm === 6200");
  assert.equal(await listed(page), 0);
};

const slow = async (page) => {
  await page.goto(PUBLIC);
  await type(page, "length", "6.2 m");
  await answered(page, "quote.layout.flaggedMm === 6200");
  const wait = { ms: 1500 };
  await page.route("**/v1/quotes", async (route) => {
    await new Promise((done) => setTimeout(done, wait.ms));
    await route.continue();
  });
  await type(page, "length", "12 m");
  await page.locator(`${FORM} .state`, { hasText: "being worked out" }).waitFor();
  assert.equal(await stale(page).count(), 1);
  assert.equal(await page.locator(`${FORM} [data-key=hold]`).count(), 0);
  await answered(page, "quote.layout.flaggedMm === 12000");
  await stale(page).waitFor({ state: "detached" });
  assert.equal(await shown(page, ".state"), "");
};

const twoForms = async (page) => {
  for (const [code, metres] of [["kelp", 3], ["chandlers-rope", 3], ["lamp-oil", 3], ["bosun-25", 40]]) await receive(code, metres);
  await page.goto(PUBLIC);
  await page.evaluate(() => document.querySelector("main").append(document.createElement("made-to-order")));
  const nth = (index) => page.locator(FORM).nth(index);
  const said = (index) => page.evaluate((at) => document.querySelectorAll("made-to-order")[at].quote?.layout.flaggedMm, index);
  await nth(0).locator("#mto-length").fill("2.3 m");
  await nth(1).locator("#mto-length").waitFor();
  await nth(1).locator("#mto-length").fill("3 m");
  await nth(0).locator("input[name=mto-place][value=PLACE_HOME]").check();
  await nth(0).locator("input[name=mto-who][value=WHO_NO_CHILD]").check();
  await page.waitForFunction(() => document.querySelectorAll("made-to-order")[0].quote?.understood.near?.who === "WHO_NO_CHILD");
  await nth(0).locator("[data-key=hold]").click();
  await nth(0).locator(".clock").waitFor();
  await nth(1).locator("#mto-length").fill("3.1 m");
  await page.waitForFunction(() => document.querySelectorAll("made-to-order")[1].quote?.layout.flaggedMm === 3100);
  await page.reload();
  await page.evaluate(() => document.querySelector("main").append(document.createElement("made-to-order")));
  await page.waitForFunction(() => document.querySelectorAll("made-to-order")[1]?.quote?.layout.flaggedMm === 3100);
  assert.equal(await said(0), 2300);
  await nth(0).locator(".clock").waitFor();
  await nth(0).locator("[data-key=release]").click();
  await nth(0).locator(".clock").waitFor({ state: "detached" });
};

const changed = async (page) => {
  await page.goto(PUBLIC);
  const set = (name, value) => page.evaluate(([what, is]) => document.querySelector("made-to-order").setAttribute(what, is), [name, value]);
  await set("destination", "DE");
  await type(page, "length", "4 m");
  await answered(page, "quote.layout.flaggedMm === 4000 && quote.understood.destination.countryCode === 'DE'");
  await page.locator(`${FORM} details.more > summary`).click();
  await field(page, "lettering").fill("MARLA");
  await answered(page, "quote.understood.lettering === 'MARLA'");
  // the page goes before what it said before; what the buyer said stays, in this tab's memory alone
  await set("destination", "US");
  await answered(page, "quote.understood.destination.countryCode === 'US' && quote.understood.lettering === 'MARLA' && quote.layout.flaggedMm === 4000");
  await set("locale", "de-DE");
  await page.locator(`${FORM} h1`, { hasText: /Länge|Wimpel/ }).waitFor();
  await answered(page, "quote.understood.lettering === 'MARLA'");
  await page.evaluate(() => document.body.append(document.querySelector("made-to-order")));
  await answered(page, "quote.understood.lettering === 'MARLA' && quote.layout.flaggedMm === 4000");
  // a disabled fieldset disables what is in it
  await page.evaluate(() => {
    const fieldset = document.createElement("fieldset");
    document.body.append(fieldset);
    fieldset.append(document.querySelector("made-to-order"));
    fieldset.disabled = true;
  });
  await page.waitForFunction(() => document.querySelector("made-to-order").shadowRoot.querySelector(".form[inert]"));
  await page.evaluate(() => { document.querySelector("fieldset").disabled = false; });
  await page.waitForFunction(() => document.querySelector("made-to-order").shadowRoot.querySelector(".form:not([inert])"));
};

const days = async (page) => {
  await page.goto(PUBLIC);
  await type(page, "length", "4 m");
  const quote = await answered(page, "quote.layout.flaggedMm === 4000");
  // it ends as a day begins at the shop, which is in London: the day before is the last
  const last = new Date(Date.parse(quote.expireTime) - 1000);
  const words = new Intl.DateTimeFormat("en-GB", { weekday: "long", day: "numeric", month: "long", timeZone: "Europe/London" }).format(last);
  assert.ok((await shown(page, ".also")).includes(words), words);
  const next = new Date().getFullYear() + 1;
  await page.locator(`${FORM} details.more > summary`).click();
  await field(page, "day").fill(`${next}-10-06`);
  await answered(page, `quote.understood.wantedDate === '${next}-10-06'`);
  assert.ok((await shown(page, ".day")).includes(String(next)));
};

const hostile = async (page) => {
  await page.goto(PUBLIC);
  await type(page, "length", "4 m");
  await answered(page, "quote.layout.flaggedMm === 4000");
  const wide = () => page.evaluate(() => document.documentElement.scrollWidth);
  const before = await wide();
  await page.evaluate(() => {
    const sheet = new CSSStyleSheet();
    sheet.replaceSync("body { white-space: nowrap; text-indent: 3em; word-spacing: 1em; stroke: red; stroke-width: 9px; font-variant: small-caps; text-shadow: 0 0 4px red; cursor: wait; }");
    document.adoptedStyleSheets.push(sheet);
  });
  assert.equal(await wide(), before);
  const style = await page.evaluate(() => {
    const root = document.querySelector("made-to-order").shadowRoot;
    const of = (selector) => getComputedStyle(root.querySelector(selector));
    return [of(".cloths path").stroke, of("h3").whiteSpaceCollapse ?? of("h3").whiteSpace, of("h3").textIndent, of("h3").textShadow];
  });
  assert.ok(!style.some((value) => /255, 0, 0|3em|nowrap/.test(value)), style.join());
  // and as it prints: nothing stays put over the rest, ink is dark
  await page.emulateMedia({ media: "print", colorScheme: "dark" });
  const printed = await page.evaluate(() => {
    const root = document.querySelector("made-to-order").shadowRoot;
    return [...[".bar", ".drawing", ".answer"].map((selector) => getComputedStyle(root.querySelector(selector)).position), getComputedStyle(root.querySelector(".form")).color];
  });
  assert.deepEqual(printed.slice(1), ["static", "static", "rgb(35, 42, 61)"]);
};

const tape = async (context, faultsOf) => {
  const page = await opened(context, faultsOf);
  await page.goto(PUBLIC);
  await type(page, "length", "30 ft");
  await answered(page, "quote.layout.flaggedMm === 9144");
  const words = await page.locator(`${FORM} .tape text`).allTextContents();
  assert.ok(words.length > 1 && words.every((word) => !word.startsWith("-0") && !/\bin\b/.test(word)), words.join());
};

await scenes([
  ["a hold runs out", {}, runsOut],
  ["a hold ends elsewhere", {}, endsElsewhere],
  ["a hold while something has to be put right", {}, heldMeanwhile],
  ["faults come and go with what is asked", {}, faults],
  ["a slow answer", {}, slow],
  ["two forms on a page", {}, twoForms],
  ["a page changes its mind", {}, changed],
  ["days, with their year", {}, days],
  ["a page with styles of its own, and paper", {}, hostile],
  ["a tape in feet", { locale: "en-US" }, (page, context, told) => tape(context, told)],
]);
