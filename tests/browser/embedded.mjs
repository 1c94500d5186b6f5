/**
 * The form in a page of another origin, with a strict content security policy, and a server of
 * some twenty lines that takes the order to confirmed: neither has a line of ours.
 */

import assert from "node:assert/strict";
import { createServer } from "node:http";
import { PRIVATE, PUBLIC, answered, post, receive, scenes, type } from "./tools.mjs";

const orders = [];
const server = createServer(async (request, response) => {
  if (request.method === "GET") {
    const given = new URL(request.url, "http://shop").searchParams.get("given") ?? 'destination="GB"';
    response.setHeader("Content-Type", "text/html; charset=utf-8");
    response.setHeader("Content-Security-Policy", `default-src 'none'; script-src ${PUBLIC}; connect-src ${PUBLIC}; img-src ${PUBLIC} data:; form-action 'self'; base-uri 'none'`);
    response.end(`<!doctype html><html lang="en"><title>A shop</title><h1>Bunting</h1>
<script type="module" src="${PUBLIC}/made-to-order.js"></script>
<form method="post" action="/order"><made-to-order name="bunting" ${given}></made-to-order>
<p><button>Order</button></p></form></html>`);
    return;
  }
  let body = "";
  for await (const part of request) body += part;
  const form = new URLSearchParams(body);
  const check = await post(`${PUBLIC}/v1/quotes/check`, { token: form.get("token") });
  const confirmed = check.body.valid && form.get("reservationId")
    ? await post(`${PRIVATE}/pennantry.v1.ReservationService/ConfirmReservation`, { reservationId: form.get("reservationId"), requestId: form.get("quoteId"), confirmation: { orderReference: "W-1" } })
    : null;
  orders.push({ form: Object.fromEntries(form), check: check.body, confirmed: confirmed?.body });
  response.end("thank you");
});
await new Promise((ready) => server.listen(0, "127.0.0.1", ready));
const SHOP = `http://127.0.0.1:${server.address().port}/`;

const ordered = async (page) => {
  for (const [code, metres] of [["kelp", 2], ["chandlers-rope", 2], ["lamp-oil", 2], ["bosun-25", 20]]) await receive(code, metres);
  await page.goto(SHOP);
  // a form is not sent without a quote
  await page.locator("made-to-order #mto-length").waitFor();
  await page.locator("button", { hasText: "Order" }).click();
  assert.equal(page.url(), SHOP);
  assert.equal(orders.length, 0);
  const quoted = page.evaluate(() => new Promise((done) => document.addEventListener("quote", (event) => event.detail.layout.flaggedMm === 2000 && done(event.detail))));
  await type(page, "length", "2 m");
  await page.locator("made-to-order input[name=mto-place][value=PLACE_HOME]").check();
  await page.locator("made-to-order input[name=mto-who][value=WHO_NO_CHILD]").check();
  assert.ok((await quoted).token);
  const quote = await answered(page, "quote.layout.flaggedMm === 2000 && quote.understood.near?.who === 'WHO_NO_CHILD'");
  await page.locator("made-to-order [data-key=hold]").click();
  await page.locator("made-to-order .clock").waitFor();
  await page.locator("form > p > button").click();
  await page.waitForURL(`${SHOP}order`);
  assert.equal(orders.length, 1);
  const [{ form, check, confirmed }] = orders;
  assert.equal(form.quoteId, quote.quoteId);
  assert.equal(form.totalMinor, quote.price.total.minorUnits);
  assert.match(form.summary, /pennants/);
  assert.deepEqual([check.valid, check.total.minorUnits], [true, form.totalMinor]);
  const reservation = confirmed.reservation ?? confirmed;
  assert.deepEqual([reservation.state, reservation.orderReference], ["RESERVATION_STATE_CONFIRMED", "W-1"]);
};

const told = async (page) => {
  await page.goto(SHOP);
  const problem = page.evaluate(() => new Promise((done) => document.addEventListener("problem", (event) => done(event.detail), { once: true })));
  await type(page, "length", "10 cm");
  const detail = await problem;
  assert.equal(detail.status, 400);
  assert.equal(detail.violations[0].field, "flaggedMm");
};

const given = async (page) => {
  const keys = [];
  page.on("request", (request) => {
    if (request.url().endsWith("/v1/quotes") && request.method() === "POST") keys.push(request.headers().authorization);
  });
  await page.goto(`${SHOP}?given=${encodeURIComponent('design="minnow" locale="de-DE" destination="de" key="pk-1"')}`);
  await type(page, "length", "2,5 m");
  const quote = await answered(page, "quote.layout.flaggedMm === 2500");
  assert.deepEqual([quote.understood.designCode, quote.understood.destination.countryCode], ["minnow", "DE"]);
  assert.ok(keys.length > 0 && keys.every((key) => key === "Bearer pk-1"), keys.join());
  assert.match(await page.locator("made-to-order .total").innerText(), /,\d\d\s£/);
  // a design that the page has fixed is not asked for
  assert.equal(await page.locator("made-to-order #mto-design").count(), 0);
};

const styled = async (page) => {
  await page.goto(SHOP);
  await page.locator("made-to-order #mto-length").waitFor();
  const ground = () => page.evaluate(() => getComputedStyle(document.querySelector("made-to-order")).backgroundColor);
  const before = await ground();
  await page.evaluate(() => document.querySelector("made-to-order").style.setProperty("--mto-paper", "rgb(1, 2, 3)"));
  assert.equal(await ground(), "rgb(1, 2, 3)");
  assert.notEqual(before, "rgb(1, 2, 3)");
};

await scenes([
  ["an order from a page of another origin to confirmed", {}, ordered],
  ["a problem is told to the page", {}, told],
  ["attributes: design, locale, destination, key", {}, given],
  ["its look follows the page's variables", {}, styled],
]);
