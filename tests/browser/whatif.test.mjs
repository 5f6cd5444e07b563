// What if I had not: the visit is played again without one of its acts, as a ghost on the strip chart and a sentence.
import assert from "node:assert/strict";
import { assertAccessible, assertQuiet, desktop, pageTest, phone } from "./harness.mjs";
import { until } from "./keys.mjs";
import { pass, start } from "./page.mjs";

/** Sets a slider by its label, as a hand does in one go. */
const set = (page, name, value) =>
  page.getByLabel(name, { exact: true }).evaluate((slider, value) => {
    slider.value = value;
    for (const type of ["input", "change"]) slider.dispatchEvent(new Event(type, { bubbles: true }));
  }, String(value));

for (const window of [desktop, phone])
  pageTest(
    "an act is left out, and the page says what that would have come to",
    window,
    async (page) => {
      await start(page, "healthy");
      await pass(page, 20);
      await set(page, "Outside air", 44);
      await pass(page, 120);
      await page.locator(".picker").getByRole("button", { name: "Strip chart", exact: true }).press("Enter");
      const choice = page.locator("#leave-out");
      await choice.waitFor();
      const acts = await choice.locator("option").allInnerTexts();
      assert.equal(acts.length, 2, acts.join("; "));
      assert.match(acts[1], /^0:2\d Outside air$/);
      const drawn = () => page.locator(".strip [role=img] path, .strip [role=img] polyline").count();
      const before = await drawn();
      await choice.selectOption({ index: 1 });
      const said = page.locator(".ghost [role=status]");
      await until(page, "it is played again", 20, async () => /would read/.test(await said.innerText()));
      // Nine kelvins of a hotter day: some 30 to 80 psi at the high gauge (common practice, no source).
      const [, less] = (await said.innerText()).match(/^Without it the high side would read \d+ psig: (\d+) psi less\./);
      assert.ok(less > 20 && less < 90, less);
      await until(page, "the ghost is drawn", 5, async () => (await drawn()) >= before + 3);
      await assertAccessible(page, ".chart");
      // Undone, there is nothing left to leave out, and no ghost.
      await page.keyboard.press("Control+z");
      await until(page, "nothing is offered", 5, async () => (await page.locator(".ghost").count()) === 0);
      assertQuiet(page);
    },
    { running: false },
  );

pageTest(
  "a closed bay says nothing of what might have been",
  desktop,
  async (page) => {
    // The closed bay comes with a part of its own.
    await page.locator(".around").waitFor();
    await pass(page, 5);
    await set(page, "Outside air", 44);
    await pass(page, 20);
    await page.locator(".picker").getByRole("button", { name: "Strip chart", exact: true }).press("Enter");
    await page.locator(".chart").waitFor();
    await page.waitForTimeout(600);
    assert.equal(await page.locator("#leave-out").count(), 0);
    assertQuiet(page);
  },
  { path: "#s=healthy&w=hands", running: false },
);
