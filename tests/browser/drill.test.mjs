// The unknown vehicle: brought in by number, read, named, debriefed. By keyboard on a desktop, by touch on a phone.
import assert from "node:assert/strict";
import { assertAccessible, assertNoSidewaysScroll, assertQuiet, desktop, pageTest, phone } from "./harness.mjs";
import { door, keptText, pass } from "./page.mjs";

/** How long the bays of all suspects may take, ms: many times what they take on an idle machine. */
const SUSPECTS = 240_000;

const press = (page, name) => page.getByRole("button", { name }).first().press("Enter");
const slips = (page) => page.locator(".slip");

/** Brings in the vehicle of a number. */
async function bringIn(page, number) {
  await door(page, "diagnose");
  await page.getByRole("textbox", { name: "Vehicle number" }).fill(String(number));
  await press(page, "Bring it in");
  await page.getByRole("heading", { name: `Unknown vehicle ${number}` }).waitFor();
}

/** Runs it for two minutes and takes six readings. */
async function look(page) {
  for (const name of [/^Engine/, /^A\/C/]) await page.getByRole("switch", { name }).first().press("Enter");
  await page.getByRole("slider", { name: "Blower" }).press("End");
  await pass(page, 120);
  for (const name of ["Read: low-side gauge", "Read: high-side gauge", "Read: vent thermometer", "Read: anemometer"]) {
    await press(page, name);
    await pass(page, 5);
  }
  await press(page, /^Put it on: clamp thermometer: liquid line/);
  await pass(page, 20);
  await press(page, /^Read: clamp thermometer: liquid line/);
  await pass(page, 5);
  await press(page, /^Read: hand and eye/);
}

pageTest("an unknown vehicle is read, named and debriefed, by keyboard, a reload in the middle", desktop, async (page) => {
  await bringIn(page, 26);
  const said = await page.locator(".next strong").innerText();
  assert.match(said, /^“.+”$/, "the customer speaks");
  await look(page);
  await slips(page).nth(5).waitFor();
  assert.equal(await slips(page).count(), 6);
  const shown = await slips(page).allInnerTexts();
  assert.match(shown[0], /\d+ psig/);
  assert.match(shown[4], /liquid line[^]*\d+\.\d °F/);
  // What is hidden stands nowhere before it is named: not on the page, not in what the browser keeps.
  const kept = await keptText(page);
  for (const word of ['"condition"', '"scatter"', '"instruments"']) assert.ok(!kept.includes(word), word);
  await assertAccessible(page);

  await page.reload();
  await slips(page).nth(5).waitFor();
  assert.deepEqual(await slips(page).allInnerTexts(), shown, "a reload keeps the readings");
  assert.equal(await page.locator(".next strong").innerText(), said);

  for (const box of await page.locator(".slip input").all()) await box.press("Space");
  await page.locator("#drill-fault").selectOption({ label: "Compressor worn" });
  await page.locator("#drill-cure").selectOption({ label: "A new compressor" });
  await press(page, "This is it: Compressor worn");
  await page.locator(".debrief .odds").waitFor({ timeout: SUSPECTS });
  assert.match(await page.locator(".next strong").innerText(), /^It was: Compressor worn, /);
  assert.match(await page.locator(".rubric").innerText(), /right fault[^]*35\s+35/);
  const sentences = await page.locator(".debrief .telling li").allInnerTexts();
  assert.ok(sentences.length >= 3 && sentences.every((text) => !/undefined|NaN/.test(text)), sentences.join("\n"));
  assert.ok((await page.locator(".odds .band").count()) >= 3);
  await assertAccessible(page);
  await press(page, "Bring in the next one");
  await page.getByRole("heading", { name: /^Unknown vehicle \d+$/ }).waitFor();
  assert.equal(await slips(page).count(), 0);
  assertQuiet(page);
}, { limit: SUSPECTS + 60_000 });

pageTest("on a phone a vehicle is brought in and read by touch", phone, async (page) => {
  await page.locator("#door-diagnose").tap();
  await page.getByRole("textbox", { name: "Vehicle number" }).fill("12");
  await page.getByRole("button", { name: "Bring it in" }).tap();
  await page.getByRole("button", { name: "Read: low-side gauge" }).tap();
  await slips(page).first().waitFor();
  await assertNoSidewaysScroll(page);
  await assertAccessible(page);
  assertQuiet(page);
});
