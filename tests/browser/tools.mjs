/** What the browser programs share: a browser, the shop's doors, and a way to look. */

import assert from "node:assert/strict";
import { createRequire } from "node:module";

const { PENNANTRY_PUBLIC: PUBLIC, PENNANTRY_PRIVATE: PRIVATE, PENNANTRY_NPM: NPM, PENNANTRY_CHROMIUM: CHROMIUM } = process.env;
const installed = createRequire(`${NPM}/package.json`);

export { PUBLIC, PRIVATE };
const axe = () => installed("axe-core").source;

const RULES = ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa"];

/** Fails where a page cannot be used by everybody, or sticks out at the side. */
export async function looked(page, state) {
  await page.evaluate(axe());
  const found = await page.evaluate((tags) => window.axe.run(document, { runOnly: { type: "tag", values: tags } }), RULES);
  const faults = found.violations.map(({ id, nodes }) => `${id}: ${nodes.map((node) => `${node.target.flat().join(" ")} (${node.failureSummary})`).join("; ")}`);
  assert.deepEqual(faults, [], state);
  assert.ok(found.passes.length > 10, `${state}: axe looked at next to nothing`);
  const wide = await page.evaluate(() => document.documentElement.scrollWidth - document.documentElement.clientWidth);
  assert.ok(wide <= 0, `${state}: sticks out by ${wide} px`);
}

/** Longer than anything here takes, on a busy machine too. Unit ms. */
export const LONG = 30_000;

/** Runs scenes one after the other, each with a page of its own, and tells all that fail. */
export async function scenes(list) {
  const { chromium } = installed("playwright-core");
  const browser = await chromium.launch({ executablePath: CHROMIUM, args: ["--no-sandbox"] });
  const failed = [];
  for (const [name, options, act] of list) {
    const context = await browser.newContext({ locale: "en-GB", timezoneId: "Europe/London", ...options });
    const faults = [];
    const page = await opened(context, faults);
    try {
      await act(page, context, faults);
      assert.deepEqual(faults, [], "what the browser complained of");
      console.log(`ok ${name}`);
    } catch (error) {
      failed.push(name);
      console.log(`FAILED ${name}\n${error.stack ?? error}`);
    }
    await context.close();
  }
  await browser.close();
  process.exit(failed.length === 0 ? 0 : 1);
}

/** A page whose complaints are kept. */
export async function opened(context, faults) {
  const page = await context.newPage();
  page.setDefaultTimeout(LONG);
  page.on("pageerror", (error) => faults.push(String(error)));
  page.on("console", (message) => {
    // answers that refuse are looked at by the scenes themselves
    if (message.type() === "error" && !/Failed to load resource/.test(message.text())) faults.push(message.text());
  });
  return page;
}

/** Posts JSON and gives the answer's status and body. */
export async function post(address, body, headers = {}) {
  const answer = await fetch(address, { method: "POST", headers: { "Content-Type": "application/json", ...headers }, body: JSON.stringify(body) });
  return { status: answer.status, body: await answer.json() };
}

/** Puts a length of something on the shelf. */
export async function receive(code, metres, lot = "T1") {
  const name = `${code}-${Math.random().toString(36).slice(2, 8)}`.toUpperCase();
  const told = await post(`${PRIVATE}/pennantry.v1.StockService/ReceiveStock`, {
    requestId: name, pieces: [{ pieceId: name, code, lot, quantity: { lengthMm: metres * 1000 }, location: "rack 1" }],
  });
  assert.equal(told.status, 200, JSON.stringify(told.body));
}

/**
 * Waits until the form shows an answer for which something holds, and gives it.
 * @param {string} fits what has to hold of `quote`
 */
export async function answered(page, fits = "true") {
  const holds = new Function("quote", `return ${fits}`);
  const until = Date.now() + LONG;
  let quote = null;
  while (Date.now() < until) {
    quote = await page.evaluate(() => {
      const form = document.querySelector("made-to-order");
      return form?.shadowRoot?.querySelector(".is-stale") ? null : (form?.quote ?? null);
    });
    if (quote && holds(quote)) return quote;
    await new Promise((done) => setTimeout(done, 40));
  }
  const said = await page.evaluate(() => document.querySelector("made-to-order")?.shadowRoot?.querySelector(".summary")?.textContent);
  throw new Error(`no answer with ${fits}; last understood: ${JSON.stringify(quote?.understood)}; the list of faults: ${said}`);
}

/** The field with a name, within the form. */
export const field = (page, id) => page.locator(`made-to-order #mto-${id}`);

/** Types a length as a buyer does, key by key. */
export async function type(page, id, words) {
  await field(page, id).fill("");
  await field(page, id).pressSequentially(words);
}
