// The unknown vehicle: brought in by number, read, named, debriefed. By keyboard on a desktop, by touch on a phone.
import assert from "node:assert/strict";
import { readFileSync } from "node:fs";
import { assertAccessible, assertNoSidewaysScroll, assertQuiet, desktop, pageTest, phone } from "./harness.mjs";
import { door, drawer, keptText, pass, withPage } from "./page.mjs";

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

pageTest("what is handed in, as a file or as a line, says whose it is, which vehicle, and all that was done and said", desktop, async (page) => {
  const download = async (button) => {
    const [file] = await Promise.all([page.waitForEvent("download"), button.evaluate((b) => b.click())]);
    return { name: file.suggestedFilename(), take: JSON.parse(readFileSync(await file.path(), "utf8")) };
  };
  await bringIn(page, 26);
  await drawer(page, "settings");
  const { take: given } = await download(page.locator("#save-take"));
  assert.equal(given.learner, undefined);
  // As an instructor hands it out: with a code, and without the seal, which may be taken out.
  const { seal: _, ...parts } = given;
  const text = JSON.stringify({ ...parts, learner: "ann-b" });
  await page.locator("#open-take").setInputFiles({ name: "ann-b-vehicle-26.json", mimeType: "application/json", buffer: Buffer.from(text) });
  await page.waitForFunction(() => localStorage.getItem(`lowside/bay.${localStorage.getItem("lowside/last")}.take`)?.includes("ann-b"));
  await look(page);
  await slips(page).nth(5).waitFor();
  const handIn = page.getByRole("region", { name: "Hand in" });
  assert.equal(await handIn.count(), 0, "nothing is said yet");
  for (const box of (await page.locator(".slip input").all()).slice(0, 2)) await box.press("Space");
  await page.locator("#drill-fault").selectOption({ label: "Compressor worn" });
  await page.locator("#drill-cure").selectOption({ label: "A new compressor" });
  await press(page, "This is it: Compressor worn");
  await handIn.waitFor();
  await assertAccessible(page);

  const { name, take } = await download(handIn.getByRole("button", { name: "Save as a file" }));
  assert.equal(name, "ann-b-vehicle-26.json");
  assert.deepEqual([take.learner, take.seed, take.sight, take.hidden], ["ann-b", 26, "hands", given.hidden]);
  assert.equal(take.opened, take.ticks, "and from when on the inside was seen");
  const acts = take.log.map(([, act]) => act);
  const meters = acts.filter((act) => act.do === "read").map(({ instrument: it }) => (typeof it === "string" ? it : Object.keys(it)[0]));
  assert.deepEqual(meters, ["low-gauge", "high-gauge", "vent-thermometer", "anemometer", "clamp", "surface"]);
  const [suspected, committed] = acts.slice(-2);
  assert.deepEqual([suspected.do, suspected.fault, Number(suspected.certainty)], ["suspect", "compressor-worn", 0.6]);
  assert.deepEqual([committed.do, committed.fault, committed.evidence, committed.repair], ["commit", "compressor-worn", [1, 2], { "new-part": "compressor" }]);

  await handIn.getByRole("button", { name: "Copy a link" }).press("Enter");
  const line = (await page.locator(".notice", { hasText: "http" }).innerText()).match(/http\S+/)[0];
  assert.equal(await page.evaluate(() => navigator.clipboard.readText()), line);
  assert.ok(line.length <= 1_500, `${line.length} characters`);
  await withPage(desktop, async (there) => {
    await slips(there).nth(5).waitFor();
    const { learner, seed, sight, opened, log, ticks, hash, hidden } = JSON.parse(await keptText(there));
    assert.deepEqual({ learner, seed, sight, opened, log, ticks, hash, hidden }, {
      learner: take.learner, seed: take.seed, sight: take.sight, opened: take.opened, log: take.log, ticks: take.ticks, hash: take.hash, hidden: take.hidden,
    });
    assertQuiet(there);
  }, { path: line, reducedMotion: "reduce" });
  assertQuiet(page);
}, { limit: SUSPECTS + 60_000, permissions: ["clipboard-read", "clipboard-write"] });

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
