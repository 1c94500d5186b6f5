/**
 * The page that says how to ask, at both doors: it asks for nothing, runs nothing, can be read by
 * everybody and on a telephone, and every link on it leads somewhere.
 */

import assert from "node:assert/strict";
import { PRIVATE, PUBLIC, looked, scenes } from "./tools.mjs";

/** Opens the page as a browser is let to, and gives what it asked for. */
async function opened(page, door) {
  const asked = [];
  page.on("request", (request) => asked.push(request.url()));
  const answer = await page.goto(`${door}/docs`);
  assert.equal(answer.status(), 200);
  return { asked: asked.filter((url) => !url.startsWith("data:")), headers: answer.headers() };
}

const alone = (door) => async (page) => {
  const { asked, headers } = await opened(page, door);
  assert.deepEqual(asked, [`${door}/docs`]);
  assert.match(headers["content-security-policy"], /^default-src 'none'; style-src 'sha256-/);
  assert.equal(await page.locator("script, iframe, [style], [onclick]").count(), 0);
  // the style was taken, although the policy names it by its digest alone
  const radius = await page.locator("header").evaluate((head) => getComputedStyle(head).backgroundColor);
  assert.notEqual(radius, "rgba(0, 0, 0, 0)");
};

const led = (door) => async (page) => {
  await opened(page, door);
  const document = await (await fetch(`${door}/openapi.json`)).json();
  const told = await page.evaluate(() => ({
    ids: [...window.document.querySelectorAll("[id]")].map((one) => one.id),
    links: [...window.document.querySelectorAll("a")].map((link) => link.getAttribute("href")),
    text: window.document.body.textContent,
  }));
  assert.equal(new Set(told.ids).size, told.ids.length, "an id is there twice");
  const lost = told.links.filter((link) => link.startsWith("#") && !told.ids.includes(link.slice(1)));
  assert.deepEqual(lost, [], "links that lead nowhere");
  assert.deepEqual([...new Set(told.links.filter((link) => !link.startsWith("#")))], ["/openapi.json"]);
  let keys = 0;
  for (const [path, verbs] of Object.entries(document.paths)) {
    assert.ok(told.text.includes(path), path);
    for (const call of Object.values(verbs)) assert.ok(told.ids.includes(call.operationId), call.operationId);
  }
  for (const [name, schema] of Object.entries(document.components.schemas)) {
    const dts = await page.locator(`article[aria-labelledby="of-${name}"] dt > code:first-child`).allTextContents();
    assert.deepEqual([...dts].sort(), Object.keys(schema.properties ?? {}).sort(), name);
    keys += dts.length;
  }
  assert.ok(keys > 100, `${keys} keys`);
};

const read = (door) => async (page) => {
  await opened(page, door);
  await looked(page, door === PUBLIC ? "the public door" : "the private door");
};

const all = (name, door) => [
  [`${name}: it asks for nothing`, {}, alone(door)],
  [`${name}: all of the document, and every link leads somewhere`, {}, led(door)],
  [`${name}: 1280 px, light`, { bypassCSP: true, viewport: { width: 1280, height: 900 }, colorScheme: "light" }, read(door)],
  [`${name}: 320 px, dark`, { bypassCSP: true, viewport: { width: 320, height: 640 }, colorScheme: "dark" }, read(door)],
];
await scenes([...all("public", PUBLIC), ...all("private", PRIVATE)]);
