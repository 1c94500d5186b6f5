/**
 * Who can use the form: axe-core by the rules of WCAG 2.2, levels A and AA, in every state, narrow
 * and wide, light and dark; nothing sticks out at 320 px (which is 1280 px at 400 %); nothing jumps
 * when the price changes; German as well as English.
 */

import assert from "node:assert/strict";
import { PUBLIC, answered, field, looked, receive, scenes, type } from "./tools.mjs";

const states = async (page) => {
  for (const [code, metres] of [["kelp", 2], ["chandlers-rope", 2], ["lamp-oil", 2], ["bosun-25", 20]]) await receive(code, metres);
  await page.goto(PUBLIC);
  await page.locator("made-to-order #mto-length").waitFor();
  await looked(page, "before anything is typed");
  await type(page, "length", "zzz");
  await page.locator("made-to-order .has-error").first().waitFor();
  await looked(page, "with an error");
  await type(page, "length", "2 m");
  await answered(page, "quote.layout.flaggedMm === 2000");
  await looked(page, "answered");
  await page.locator("made-to-order details.more > summary").click();
  await page.locator("made-to-order input[name=mto-measure][value=hang]").check();
  await type(page, "dip", "20 cm");
  await field(page, "lettering").fill("MARLA");
  await answered(page, "quote.layout.hang !== undefined && quote.understood.lettering === 'MARLA'");
  await looked(page, "all choices open, hanging, lettered");
  await page.locator("made-to-order input[name=mto-measure][value=flagged]").check();
  await field(page, "lettering").fill("");
  await page.locator("made-to-order input[name=mto-place][value=PLACE_COT]").check();
  await answered(page, "quote.child.outcome === 'OUTCOME_REFUSE' && !quote.understood.lettering");
  await looked(page, "refused");
  await page.locator("made-to-order input[name=mto-place][value=PLACE_HOME]").check();
  await page.locator("made-to-order input[name=mto-who][value=WHO_NO_CHILD]").check();
  await answered(page, "quote.layout.flaggedMm === 2000 && quote.understood.near?.who === 'WHO_NO_CHILD'");
  await page.locator("made-to-order [data-key=hold]").click();
  await page.locator("made-to-order .clock").waitFor();
  await looked(page, "held");
  await page.locator("made-to-order [data-key=release]").click();
  await page.locator("made-to-order .clock").waitFor({ state: "detached" });
};

const german = async (page) => {
  await page.goto(PUBLIC);
  await type(page, "length", "6,2 m");
  const quote = await answered(page, "quote.layout.flaggedMm === 6200");
  const minor = BigInt(quote.price.total.minorUnits);
  const total = await page.locator("made-to-order .total").innerText();
  assert.equal(total.replace(/\s/g, " "), `${minor / 100n},${String(minor % 100n).padStart(2, "0")} £`);
  await looked(page, "in German");
};

const still = async (page) => {
  await page.goto(PUBLIC);
  await type(page, "length", "6.2 m");
  await answered(page, "quote.layout.flaggedMm === 6200");
  await page.evaluate(() => {
    window.shifted = 0;
    new PerformanceObserver((list) => {
      for (const entry of list.getEntries()) window.shifted += entry.value;
    }).observe({ type: "layout-shift" });
  });
  for (const metres of [7, 19, 42, 63, 8]) {
    // a step by which the browser does not count what follows as asked for
    await page.evaluate(() => new Promise((done) => setTimeout(done, 600)));
    await page.evaluate((words) => {
      const input = document.querySelector("made-to-order").shadowRoot.querySelector("#mto-length");
      input.value = words;
      input.dispatchEvent(new Event("input", { bubbles: true }));
    }, `${metres} m`);
    await answered(page, `quote.layout.flaggedMm === ${metres * 1000}`);
  }
  const shifted = await page.evaluate(() => window.shifted);
  // 0.1 is the greatest that Web Vitals call good for a whole visit
  assert.ok(shifted < 0.05, `the page jumped by ${shifted}`);
};

const look = { bypassCSP: true, reducedMotion: "reduce" };
await scenes([
  ["every state, 1280 px, light", { ...look, viewport: { width: 1280, height: 900 }, colorScheme: "light" }, states],
  ["every state, 320 px, dark", { ...look, viewport: { width: 320, height: 640 }, colorScheme: "dark" }, states],
  ["in German", { ...look, locale: "de-DE" }, german],
  ["nothing jumps when the price changes", { viewport: { width: 390, height: 844 } }, still],
]);
