// Links and files: a bay leaves the page and comes back the same to the bit; what is broken is told and loses nothing.
import assert from "node:assert/strict";
import { readFileSync } from "node:fs";
import { assertQuiet, desktop, pageTest } from "./harness.mjs";
import { address } from "./page.mjs";
import { until } from "./keys.mjs";

/** The take that the page keeps. */
const kept = (page) =>
  page.evaluate(async () => {
    dispatchEvent(new Event("pagehide"));
    await new Promise((done) => setTimeout(done, 100));
    return JSON.parse(localStorage.getItem("lowside.take"));
  });
const clock = async (page) => Number(await page.locator("#scrub").inputValue());
const settings = (page) => page.getByText("Settings", { exact: true }).click();

/** A few seconds of a bay with two acts, paused. */
async function something(page) {
  await page.getByRole("switch", { name: "Windows" }).click();
  await page.getByRole("slider", { name: "Outside air" }).fill("24");
  await until(page, "some seconds pass", 20, async () => (await clock(page)) >= 2);
  await page.getByRole("button", { name: /Pause/ }).click();
  const take = await kept(page);
  assert.equal(take.log.length, 2);
  return take;
}

/** Takes up what `open` opens and compares it with `take`. */
async function same(page, take, open) {
  await open();
  await page.getByRole("slider", { name: "Blower" }).waitFor();
  await until(page, "it is taken up", 20, async () => (await clock(page)) >= Math.floor(take.ticks / 10));
  const [first] = [await kept(page)];
  assert.deepEqual(first.log.slice(0, 2), take.log);
  // It may have run on since; its beginning is the same bay.
  assert.equal(await page.evaluate((text) => window.lowsideHash(text), JSON.stringify(take)), take.hash);
  assert.ok(first.ticks >= take.ticks, `${first.ticks} ticks, ${take.ticks} were sent`);
}

pageTest(
  "a link brings the bay to another browser",
  desktop,
  async (page) => {
    const take = await something(page);
    await settings(page);
    await page.locator("#copy-link").click();
    const link = (await page.locator(".notice").innerText()).match(/http\S+#\S+/)[0];
    assert.ok(link.length < 2000, `${link.length} characters`);
    const other = await (await page.context().browser().newContext(desktop)).newPage();
    try {
      await same(other, take, () => other.goto(link));
      assert.ok(!other.url().includes("#"), "the link is taken once");
    } finally {
      await other.context().close();
    }
    assertQuiet(page);
  },
  { path: "#s=healthy" },
);

pageTest(
  "a take is saved, opened again, and a broken one loses nothing",
  desktop,
  async (page) => {
    const take = await something(page);
    await settings(page);
    const [download] = await Promise.all([page.waitForEvent("download"), page.locator("#save-take").click()]);
    const text = readFileSync(await download.path(), "utf8");
    assert.equal(JSON.parse(text).hash, take.hash);
    const open = (contents) => page.locator("#open-take").setInputFiles({ name: "take.json", mimeType: "application/json", buffer: Buffer.from(contents) });
    // Broken in four ways: no take at all, a piece missing, an act that does not exist, an impossible value.
    for (const broken of ["?", text.slice(0, -20), text.replace('"windows"', '"doors"'), text.replace(/"ticks":\d+/, '"ticks":-1')]) {
      await page.locator("#language").focus();
      await open(broken);
      await page.locator(".notice").waitFor();
      assert.match(await page.locator(".notice").innerText(), /take|act|ticks/i);
      assert.equal((await kept(page)).hash, take.hash, "the bay stands as it stood");
      await page.locator("#open-take").setInputFiles([]);
    }
    await page.getByRole("button", { name: "Start over" }).click();
    await until(page, "another begins", 10, async () => (await kept(page)).log.length === 0);
    await same(page, take, () => open(text));
    assertQuiet(page);
  },
  { path: "#s=healthy" },
);

pageTest(
  "a link to nothing known opens the first bay, and a link too long says to save a file",
  desktop,
  async (page) => {
    await page.goto(new URL("#s=healthy&t=5&h=0&l=!!!", address).href);
    await page.reload();
    await page.getByRole("slider", { name: "Blower" }).waitFor();
    await page.getByRole("button", { name: /Pause/ }).click();
    const air = page.getByRole("slider", { name: "Outside air" });
    for (let n = 0; n < 60; n += 1) await air.fill(String(20 + (n % 9)));
    await settings(page);
    await page.locator("#copy-link").click();
    assert.match(await page.locator(".notice").innerText(), /file/i);
    assertQuiet(page);
  },
  { path: "#s=nowhere" },
);
