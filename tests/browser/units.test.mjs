// Units: three sets, each quantity on its own, remembered, and no matter to the bay.
import assert from "node:assert/strict";
import { assertAccessible, assertQuiet, desktop, pageTest } from "./harness.mjs";
import { drawer, keptText, start } from "./page.mjs";

const reading = async (page, title) =>
  (await page.getByRole("region", { name: "Readings" }).locator("div", { hasText: title }).first().innerText()).replace(/\s+/g, " ");
const gauge = (page) => page.getByRole("img", { name: /^Low side/ }).getAttribute("aria-label");

pageTest("units are chosen as a set or one by one, and remembered", desktop, async (page) => {
  await start(page, "healthy");
  // The spoken description follows a few seconds behind, and stands while paused.
  await page.getByRole("img", { name: /^Low side.*pounds? per square inch gauge/ }).waitFor({ timeout: 10_000 });
  await page.getByRole("button", { name: /Pause/ }).click();
  const hash = async () => JSON.parse(await keptText(page)).hash;
  const before = await hash();
  assert.match(await gauge(page), /pounds? per square inch gauge/);
  await drawer(page, "settings");
  await assertAccessible(page);
  const unit = (name) => page.getByRole("button", { name, exact: true });
  await unit("SI").click();
  await page.waitForTimeout(200);
  assert.match(await gauge(page), /kilopascals? gauge/);
  assert.match(await reading(page, "Centre vent"), /\u00b0C/);
  await unit("Mixed").click();
  await page.waitForTimeout(200);
  assert.match(await gauge(page), /bars? gauge/);
  assert.match(await reading(page, "Charged by weight"), /\d g/);
  await page.getByLabel("Mass", { exact: true }).selectOption("oz");
  await page.waitForTimeout(200);
  assert.match(await reading(page, "Charged by weight"), / oz/);
  assert.match(await gauge(page), /bars? gauge/, "the pressure stays what it was");
  assert.equal(await hash(), before, "the bay knows of no units");
  await page.reload();
  await page.locator("#hose-tool").waitFor();
  assert.match(await gauge(page), /bars? gauge/);
  assert.match(await reading(page, "Charged by weight"), / oz/);
  assertQuiet(page);
});
