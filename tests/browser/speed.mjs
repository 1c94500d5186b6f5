/**
 * How fast the form is, by hand: a benchmark and not a test.
 *
 *   PENNANTRY_PUBLIC=http://127.0.0.1:8080 PENNANTRY_NPM=… PENNANTRY_CHROMIUM=$(which chromium) node tests/browser/speed.mjs
 *
 * where PENNANTRY_NPM is the folder in which the tools of `tests/npm` are installed. First paint is
 * the browser's own first contentful paint, beside that of a page of plain text from the same
 * server; an answer is from the keystroke until it is drawn, by the form's own measure; a redraw is
 * the drawing of 1 000 pennants and the layout that follows.
 */

import { createRequire } from "node:module";
import { answered, field } from "./tools.mjs";

const { PENNANTRY_PUBLIC: PUBLIC, PENNANTRY_NPM: NPM, PENNANTRY_CHROMIUM: CHROMIUM } = process.env;
const { chromium } = createRequire(`${NPM}/package.json`)("playwright-core");

const sorted = (list) => [...list].sort((one, other) => one - other);
const at = (list, share) => sorted(list)[Math.min(list.length - 1, Math.floor(share * list.length))];
const told = (name, list) => console.log(`${name.padEnd(44)} median ${at(list, 0.5).toFixed(1)} ms, 95 % within ${at(list, 0.95).toFixed(1)} ms, of ${list.length}`);

const browser = await chromium.launch({ executablePath: CHROMIUM, args: ["--no-sandbox"] });
for (const [name, path] of [["first contentful paint", "/"], ["the same of plain text", "/v1/catalogue"]]) {
  const paints = [];
  for (let round = 0; round < 9; round += 1) {
    const context = await browser.newContext({ locale: "en-GB" });
    const page = await context.newPage();
    await page.goto(PUBLIC + path);
    paints.push(await page.evaluate(() => new Promise((done) => {
      const seen = new PerformanceObserver((list) => list.getEntriesByName("first-contentful-paint").forEach(({ startTime }) => done(startTime)));
      seen.observe({ type: "paint", buffered: true });
    })));
    await context.close();
  }
  told(name, paints);
}

const page = await (await browser.newContext({ locale: "en-GB", viewport: { width: 390, height: 844 } })).newPage();
await page.goto(PUBLIC);
// keys as fast as anybody types (200 words of five letters a minute), and all at once
for (const [name, delay] of [["keys 60 ms apart, to the answer drawn", 60], ["keys all at once, to the answer drawn", 0]]) {
  await page.evaluate(() => performance.clearMeasures());
  for (let count = 0; count < 60; count += 1) {
    await field(page, "length").fill("");
    const metres = 2 + (count % 37);
    await field(page, "length").pressSequentially(`${metres} m`, { delay });
    await answered(page, `quote.layout.flaggedMm === ${metres * 1000}`);
  }
  told(name, await page.evaluate(() => performance.getEntriesByName("made-to-order: answer").map((entry) => entry.duration)));
}

const redraws = await page.evaluate(async () => {
  const ask = async (path, body) => (await fetch(path, body && { method: "POST", headers: { "Content-Type": "application/json" }, body: JSON.stringify(body) })).json();
  const [{ Drawing }, { choose, load }, catalogue] = await Promise.all([import("/made-to-order/drawing.js"), import("/made-to-order/text.js"), ask("/v1/catalogue")]);
  const quotes = await Promise.all([100_000, 99_900].map((flaggedMm) => ask("/v1/quotes", { designCode: "minnow", flaggedMm, pennantCount: 1000 })));
  const drawing = new Drawing(await load(`${location.origin}/made-to-order/`, choose(["en-GB"])), location.origin);
  document.querySelector("made-to-order").shadowRoot.append(drawing.root);
  const spent = [];
  for (let round = 0; round < 60; round += 1) {
    await new Promise((next) => requestAnimationFrame(next));
    const begun = performance.now();
    drawing.show(quotes[round % 2], catalogue, { imperial: false, example: false, caption: "" });
    drawing.root.getBoundingClientRect();
    spent.push(performance.now() - begun);
  }
  return spent;
});
told("1 000 pennants drawn again", redraws);
await browser.close();
