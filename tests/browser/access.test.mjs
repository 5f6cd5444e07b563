// For everyone: axe on what opens besides the drawings, in both themes and languages; a class's layout; little motion; keys at random.
import assert from "node:assert/strict";
import { assertAccessible, assertNoSidewaysScroll, assertQuiet, desktop, pageTest, phone } from "./harness.mjs";

/** How many keys at random; `cargo xtask deep` presses more. */
const KEYS = Number(process.env.LOWSIDE_KEYS ?? 5000);

const picker = (page, index) => page.locator(".picker button").nth(index);
/** Places of views in the picker. */
const [PARTS, JOB] = [1, 3];

for (const [window, colorScheme, lang] of [
  [desktop, "light", "es"],
  [desktop, "dark", "en"],
  [phone, "dark", "es"],
])
  pageTest(
    `parts, job, help and settings are accessible, ${colorScheme}, ${lang}`,
    window,
    async (page) => {
      await page.getByRole("heading", { level: 1 }).waitFor();
      for (const view of [PARTS, JOB]) if ((await picker(page, view).getAttribute("aria-pressed")) === "false") await picker(page, view).click();
      await page.locator("section.job .cards button").first().click();
      await page.locator(".steps > li").first().waitFor();
      await page.locator("#instruments-title").click();
      await page.locator("section.parts .mark").first().click();
      await assertAccessible(page);
      await page.locator("#help-button").click();
      await page.locator(".help").waitFor();
      await assertAccessible(page);
      await page.locator("#help-close").click();
      await page.locator("#settings").click();
      await page.locator(".settings .drawer").waitFor();
      await assertAccessible(page);
      await assertNoSidewaysScroll(page);
      assertQuiet(page);
    },
    { path: `?lang=${lang}#s=healthy`, colorScheme, limit: 120_000 },
  );

pageTest(
  "in front of a class: large letters on light ground, accessible",
  desktop,
  async (page) => {
    await page.locator(".readings").waitFor();
    await page.waitForTimeout(1000);
    const { seen, small, ground } = await page.evaluate(() => {
      const seen = [...document.querySelectorAll(".readings dd, .readings dt, .dial strong, .next strong, .clock")].filter((e) => e.getClientRects().length > 0);
      const small = seen.filter((e) => Number.parseFloat(getComputedStyle(e).fontSize) < 20).map((e) => `${e.tagName} ${e.textContent}`);
      return { seen: seen.length, small, ground: getComputedStyle(document.body).backgroundColor.match(/\d+/g).map(Number) };
    });
    assert.ok(seen > 10, `${seen} texts looked at`);
    assert.deepEqual(small, []);
    assert.ok(Math.min(...ground.slice(0, 3)) > 200, `the ground is ${ground}, whatever the browser prefers`);
    await assertAccessible(page);
    assertQuiet(page);
  },
  { path: "?layout=projector#s=healthy", colorScheme: "dark" },
);

pageTest(
  "who wants little motion finds the bay paused",
  desktop,
  async (page) => {
    await page.locator(".readings").waitFor();
    assert.equal(await page.locator(".pause").getAttribute("aria-pressed"), "true");
    const clock = page.locator(".clock");
    const before = await clock.textContent();
    await page.waitForTimeout(1500);
    assert.equal(await clock.textContent(), before);
    assertQuiet(page);
  },
  { path: "#s=healthy", reducedMotion: "reduce" },
);

pageTest(
  "keys at random do no harm to the page",
  desktop,
  async (page) => {
    await page.getByRole("heading", { level: 1 }).waitFor();
    const keys = ["Tab", "Tab", "Tab", "Shift+Tab", "Enter", "Space", "ArrowUp", "ArrowDown", "ArrowLeft", "ArrowRight", "PageUp", "PageDown", "Home", "End", "Escape", ..."abcdefghijklmnopqrstuvwxyz0123456789?.,+-"];
    let seed = 20261127;
    for (let pressed = 0; pressed < KEYS; pressed += 1) {
      seed = (Math.imul(seed, 1664525) + 1013904223) >>> 0;
      await page.keyboard.press(keys[Math.floor((seed / 2 ** 32) * keys.length)]);
    }
    assert.ok(await page.locator("#fail").isHidden(), "the page runs");
    const clock = page.locator(".clock");
    if ((await page.locator(".pause").getAttribute("aria-pressed")) === "true") await page.locator(".pause").click();
    const before = await clock.textContent();
    await page.waitForFunction((was) => document.querySelector(".clock").textContent !== was, before);
    assertQuiet(page);
  },
  { limit: 60_000 + 20 * KEYS },
);
