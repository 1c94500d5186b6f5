/**
 * A page of another origin asks the public door by itself: fifty questions by fetch, each answer read
 * and written again by JavaScript's own JSON with every digit kept, and what the door lets such a
 * page read: refusals, entity tags, ids of requests.
 */

import assert from "node:assert/strict";
import { readFileSync } from "node:fs";
import { createServer } from "node:http";
import { PRIVATE, PUBLIC, scenes } from "./tools.mjs";

const { questions } = JSON.parse(readFileSync(process.env.PENNANTRY_QUESTIONS, "utf8"));

const server = createServer((request, response) => {
  response.setHeader("Content-Type", "text/html; charset=utf-8");
  response.setHeader("Content-Security-Policy", `default-src 'none'; img-src data:; connect-src ${PUBLIC} ${PRIVATE}`);
  response.end('<!doctype html><html lang="en"><title>A shop</title><link rel="icon" href="data:,"></html>');
});
await new Promise((ready) => server.listen(0, "127.0.0.1", ready));
const SHOP = `http://127.0.0.1:${server.address().port}/`;

/** JSON without the ways in which one number can be written: 20.0 is 20. */
const plain = (text) => text.replace(/"(?:[^"\\]|\\.)*"|(-?\d+)\.0+(?=[,\]}])/g, (whole, digits) => digits ?? whole);

/** Asks from within the page, and gives what it could read. */
const ask = (page, path, options) => page.evaluate(async ([address, init]) => {
  const answer = await fetch(address, init);
  const text = await answer.text();
  const headers = Object.fromEntries(answer.headers);
  return { status: answer.status, headers, text, again: text && JSON.stringify(JSON.parse(text)) };
}, [`${PUBLIC}${path}`, options]);

const post = (body, headers = {}) => ({ method: "POST", headers: { "Content-Type": "application/json", ...headers }, body: JSON.stringify(body) });

/** Every length, and every amount with all its digits, as a text. */
function* figures(value, path = "") {
  if (value && typeof value === "object") for (const [key, inner] of Object.entries(value)) yield* figures(inner, `${path}.${key}`);
  else if (typeof value === "number" || path.endsWith(".minorUnits")) yield `${path} ${value}`;
}

const asked = async (page) => {
  await page.goto(SHOP);
  let answered = 0;
  let count = 0;
  for (const question of questions) {
    const told = await ask(page, "/v1/quotes", post(question.asked));
    assert.equal(told.again, plain(told.text), `${question.name}: a digit was lost`);
    const answer = JSON.parse(told.again);
    if (question.told.quoteId) {
      const wanted = [...figures(question.told)];
      assert.deepEqual([...figures(answer)].sort(), wanted.sort(), question.name);
      assert.deepEqual(answer, question.told, question.name);
      answered += 1;
      count += wanted.length;
    } else {
      assert.deepEqual([told.status, answer.reason, answer.violations], [400, question.told.reason, question.told.violations], question.name);
    }
    assert.ok(told.headers["x-request-id"], "the id of the request can be read");
  }
  assert.equal(questions.length, 50);
  console.log(`${answered} answers, ${count} figures`);
};

const kept = async (page) => {
  await page.goto(SHOP);
  const first = await ask(page, "/v1/catalogue", {});
  assert.match(first.headers.etag, /^"/);
  // what a browser adds by itself is not let in, and nothing is needed of it
  const open = await ask(page, "/v1/catalogue", { credentials: "omit" });
  assert.equal(open.text, first.text);
  const hold = await ask(page, "/v1/reservations", post({ token: "none" }, { "Idempotency-Key": "page-1" }));
  assert.deepEqual([hold.status, JSON.parse(hold.text).reason], [400, "INVALID_ENQUIRY"]);
  const gone = await ask(page, "/v1/reservations/nobodys", { method: "DELETE" });
  assert.equal(gone.status, 404);
};

/** The shop's own side is not for pages. */
const shut = async (page, context, faults) => {
  await page.goto(SHOP);
  const told = await page.evaluate((address) => fetch(address).then(() => "came", () => "kept out"), `${PRIVATE}/openapi.json`);
  assert.equal(told, "kept out");
  assert.match(faults.splice(0).join(), /blocked by CORS policy/);
};

// the text of what is compared, so that the comparison itself is known to tell
assert.equal(plain('{"a":20.0,"b":"1.0","c":[24.643,-0.0]}'), '{"a":20,"b":"1.0","c":[24.643,-0]}');
assert.notEqual(plain('{"a":24.643}'), JSON.stringify({ a: 24.64 }));

await scenes([
  ["fifty questions from a page of another origin", {}, asked],
  ["what such a page may read", {}, kept],
  ["the private door answers no page", {}, shut],
]);
