// In front of a class: three bays on one clock, and faults that come about while somebody works.
import assert from "node:assert/strict";
import { assertAccessible, assertNoSidewaysScroll, assertQuiet, desktop, pageTest, phone } from "./harness.mjs";
import { number, until } from "./keys.mjs";
import { address, door, keptText, pass } from "./page.mjs";

const button = (within, name) => within.getByRole("button", { name, exact: true });
const bay = (page, letter) => page.getByRole("region", { name: `Bay ${letter}`, exact: true });
/** What the gauge of a bay shows. */
const gauge = async (page, letter, side) => number(await bay(page, letter).getByRole("img", { name: new RegExp(`^${side}`) }).locator("strong").innerText());
const highs = (page) => Promise.all(["A", "B", "C"].map((letter) => gauge(page, letter, "High side")));
/** All three stand where the clock stands, and it is written. */
const settled = async (page) => {
  await page.waitForTimeout(600);
  await until(page, "all have caught up", 15, async () => (await page.locator(".abreast .note").count()) === 0);
};
const vents = (page) => Promise.all(["A", "B", "C"].map(async (letter) => number(await bay(page, letter).locator(".vent strong").innerText())));
const paths = (page, name) => page.getByRole("img", { name }).locator("path[class^=bay-]").evaluateAll((all) => all.map((p) => p.getAttribute("d").length));

pageTest(
  "two presses and ten seconds from the page to three bays that run",
  desktop,
  async (page) => {
    await page.goto(address, { waitUntil: "commit" });
    const began = Date.now();
    await page.locator("#enter-class").click();
    await page.locator("#compare").click();
    await until(page, "three bays run, and differ", 10, async () => {
      const [a, b, c] = await highs(page);
      return b > a && c > a && (await page.locator(".abreast .note").count()) === 0;
    });
    assert.ok(Date.now() - began < 10_000, `${Date.now() - began} ms`);
    assert.equal(await page.locator(".pause").getAttribute("aria-pressed"), "false");
    console.log(`three bays run after ${Date.now() - began} ms`);
    assertQuiet(page);
  },
  { path: "" },
);

pageTest(
  "what is done once is done in all, they go back together, and the inside of each can be shown",
  desktop,
  async (page) => {
    await door(page, "class");
    await page.locator("#compare").click();
    await page.locator(".pause").click();
    await pass(page, 120);
    await settled(page);
    const running = await highs(page);
    const [a, b, c] = running;
    // A condenser that gets little air, and air in the loop, drive the high side up (common practice, no source).
    assert.ok(b > a + 20 && c > a + 8, `${running}`);
    assert.match(await bay(page, "B").locator(".what").innerText(), /severe$/);
    for (const chart of [/^Last five minutes of all three/, /^Pressure over enthalpy/]) {
      const drawn = await paths(page, chart);
      assert.ok(drawn.length === 3 && drawn.every((length) => length > 100), `${chart}: ${drawn}`);
    }
    await assertAccessible(page, ".behind");
    const clock = () => page.locator(".clock [aria-hidden]").innerText();
    const then = await clock();
    // Engine off, once: all three fall.
    await page.locator("#control-engine").press("Space");
    await pass(page, 60);
    await settled(page);
    const still = await highs(page);
    still.forEach((p, n) => assert.ok(p < running[n] - 20, `${still} after ${running}`));
    // Back to the act: all three stand where they stood.
    await page.keyboard.press("Control+z");
    await until(page, "back", 5, async () => (await clock()) === then);
    await until(page, "all are back", 5, async () => JSON.stringify(await highs(page)) === JSON.stringify(running));
    // And on again without it.
    await pass(page, 20);
    await settled(page);
    (await highs(page)).forEach((p, n) => assert.ok(p > still[n] + 15, `${p} against ${still[n]}`));

    // With the names hidden only what is opened says what it is.
    await page.getByRole("switch", { name: "Names" }).press("Space");
    await until(page, "no name is told", 5, async () => (await page.locator(".abreast .what").allInnerTexts()).every((text) => text === ""));
    assert.equal(await page.locator(".abreast select").count(), 0);
    await button(bay(page, "C"), "Inside").press("Enter");
    await bay(page, "C").getByRole("term").filter({ hasText: "Air in the loop" }).waitFor();
    assert.match(await bay(page, "C").locator(".what").innerText(), /, severe$/);
    assert.equal(await bay(page, "B").locator(".what").innerText(), "");
    await button(bay(page, "A"), "Inside").press("Enter");
    assert.equal(await bay(page, "A").getByRole("term").filter({ hasText: "Air in the loop" }).count(), 0);

    // Another difference: less than half its charge, which a high side shows as less.
    await page.getByRole("switch", { name: "Names" }).press("Space");
    await bay(page, "B").getByLabel("Fault").selectOption({ label: await page.locator("#beside-1-fault option").evaluateAll((all) => all.find((o) => /charge/i.test(o.textContent)).textContent) });
    await settled(page);
    await until(page, "it shows less", 5, async () => (await highs(page))[1] < (await highs(page))[0]);
    const [warm] = await vents(page);
    assert.ok((await vents(page))[1] > warm, "and blows warmer");
    await page.locator("#compare").click();
    assert.equal(await page.locator(".abreast").count(), 0);
    assertQuiet(page);
  },
  { path: "#s=healthy", limit: 120_000 },
);

for (const window of [phone, { name: "a class's wall", viewport: { width: 1280, height: 720 } }])
  pageTest(
    "three bays fit the window",
    window,
    async (page) => {
      await door(page, "class");
      await page.locator("#compare").press("Enter");
      await page.locator(".abreast .one").nth(2).waitFor();
      await assertNoSidewaysScroll(page);
      assertQuiet(page);
    },
    { path: "#s=healthy" },
  );

pageTest(
  "a fault is planted while the bay runs, told or in secret, and taken away",
  desktop,
  async (page) => {
    const log = async () => JSON.parse(await keptText(page)).log.map(([, act]) => act);
    await door(page, "class");
    await page.locator(".behind summary", { hasText: "Plant a fault" }).click();
    const form = page.getByRole("group", { name: "Plant a fault" });
    const vent = async () => number(await page.locator(".readings dl > div", { hasText: "Centre vent" }).locator("dd").innerText());
    await page.locator(".pause").click();
    await pass(page, 400);
    const cold = await vent();
    const label = await page.locator("#plant-fault option").evaluateAll((all) => all.find((o) => /clutch/i.test(o.textContent)).textContent);
    await form.getByLabel("Fault").selectOption({ label });
    await form.getByLabel("How much").selectOption({ label: "extreme" });
    await form.getByLabel("Begins").selectOption({ label: "in 1 min" });
    await button(form, "Plant it").press("Enter");
    await page.locator(".ticker", { hasText: `Planted: ${label}, extreme` }).waitFor({ state: "attached" });
    assert.deepEqual(await log(), [{ do: "plant-fault", fault: "clutch-slips", severity: "extreme", after: "60 s" }]);
    await pass(page, 50);
    assert.ok(Math.abs((await vent()) - cold) < 3, "it has not begun");
    await pass(page, 70);
    assert.ok((await vent()) > cold + 8, "it blows warm");
    await button(form, "Take it away").press("Enter");
    await pass(page, 90);
    assert.ok((await vent()) < cold + 8, "it is cold again");

    // A secret one is named nowhere.
    await form.getByRole("switch", { name: "Told" }).press("Space");
    await form.getByLabel("Begins").selectOption({ label: "now" });
    await button(form, "Plant it").press("Enter");
    await form.getByRole("listitem").filter({ hasText: "Something secret" }).waitFor();
    assert.equal((await log()).at(-1).secret, true);
    const told = await page.locator(".ticker, [role=status], .log, .notice").allInnerTexts();
    assert.ok(!told.some((text) => text.includes(`Planted: ${label}`)), `${told}`);
    // A switch is stuck or not: nothing grows.
    const stuck = await page.locator("#plant-fault option").evaluateAll((all) => all.find((o) => /stuck|contacts/i.test(o.textContent)).textContent);
    await form.getByLabel("Fault").selectOption({ label: stuck });
    assert.equal(await form.getByLabel("Grows").count(), 0);
    await assertAccessible(page, ".planting");
    assertQuiet(page);
  },
  { path: "?layout=projector#s=healthy", limit: 120_000 },
);

pageTest(
  "in an exam nothing is planted, and nothing stands beside the bay",
  desktop,
  async (page) => {
    await door(page, "class");
    await page.locator("#behind-title").waitFor();
    assert.equal(await page.locator("#compare").count(), 0);
    assert.equal(await page.locator("#plant-fault").count(), 0);
    assertQuiet(page);
  },
  { path: "#s=healthy&w=exam" },
);
