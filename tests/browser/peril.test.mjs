// The worst act is asked about, by mouse and by keyboard, with what the gauges show before it; afterwards the emergency comes first.
import assert from "node:assert/strict";
import { assertAccessible, assertNoSidewaysScroll, assertQuiet, assertWhole, desktop, pageTest, phone } from "./harness.mjs";
import { keys, number, until } from "./keys.mjs";
import { drawer, run, start } from "./page.mjs";

const seconds = (clock) => clock.split(":").reduce((all, part) => 60 * all + Number(part), 0);

/** Begins the bay anew, worked in by hand. */
async function byHand(page) {
  await drawer(page, "bays");
  await page.locator("#sight").selectOption("1");
  await page.locator(".begin button").press("Enter");
  await page.locator(".sight").waitFor();
}

const at = (page) => {
  const dialog = page.getByRole("alertdialog");
  return {
    k: keys(page),
    dialog,
    bench: page.locator("section.parts"),
    joint: page.locator("section.parts").getByRole("button", { name: /^Joint condenser/ }),
    leave: dialog.getByRole("button", { name: "Leave it" }),
    sure: dialog.getByRole("button", { name: "Do it all the same" }),
    clock: () => page.locator(".clock [aria-hidden]").innerText(),
    open: page.locator("section.parts").getByRole("button", { name: "Open", exact: true }),
    next: page.getByRole("region", { name: "Next" }),
    harm: page.getByRole("complementary", { name: /^Refrigerant hit/ }),
    copy: dialog.locator(".ahead"),
    figures: async () => (await dialog.locator(".figures").innerText()).match(/side: (\S+) psig\. High side: (\S+) psig/)?.slice(1).map(Number),
    gauge: async (title) => number((await page.getByRole("img", { name: new RegExp(`^${title} side`) }).getAttribute("aria-label")).match(/:\s*([\d.]+)/)[1]),
  };
};

pageTest(
  "a joint on a running van is opened by a second press of the mouse alone",
  desktop,
  async (page) => {
    const p = at(page);
    await p.k.view("Parts");
    await p.joint.click();
    await p.bench.getByRole("button", { name: "spring-lock tool" }).click();
    // A double press is one press: the second falls on the question and does nothing.
    await p.open.dblclick();
    await p.dialog.waitFor();
    await p.dialog.getByRole("heading", { name: "Open it under pressure?" }).waitFor();
    await assertAccessible(page);
    // Time stands still, and the figures are those of the gauges.
    const before = await p.clock();
    await p.dialog.getByText("No goggles, no gloves.").waitFor();
    // What the copy has lost, the bay loses as well: held against its ledger below.
    const told = (await p.copy.innerText()).match(/^A copy of this bay, 12 s ahead: you are hurt, ([\d.]+) oz of refrigerant in the room\.$/);
    assert.ok(told, await p.copy.innerText());
    const [low, high] = await p.figures();
    await page.waitForTimeout(1500);
    assert.equal(await p.clock(), before, "bay time stands still");
    assert.ok(Math.abs(low - (await p.gauge("Low"))) <= 1 && Math.abs(high - (await p.gauge("High"))) <= 2 && high > 60, `${low} and ${high}`);
    await p.leave.click();
    await p.dialog.waitFor({ state: "hidden" });
    assert.match(await p.joint.getAttribute("aria-label"), /not looked at/, "left as it was");
    await until(page, "time goes on", 5, async () => (await p.clock()) !== before);
    assert.equal(await p.harm.count(), 0);
    await p.open.click();
    await page.waitForTimeout(450);
    await p.sure.click();
    await p.harm.waitFor();
    await p.harm.getByText("Refrigerant hit your eyes and bare hands").waitFor();
    assert.deepEqual(await p.harm.getByRole("listitem").allInnerTexts(), ["Engine off", "Shut what you can reach", "Step back, open the doors"]);
    await p.harm.getByText(/lukewarm water for 15 minutes/).waitFor();
    await p.joint.filter({ hasText: ": open" }).waitFor();
    await p.next.getByText("Step back and shut the engine off").waitFor();
    // Both are in the window, down here at the bench.
    for (const it of [p.harm, p.next]) {
      const box = await it.boundingBox();
      assert.ok(box.y >= -1 && box.y + box.height <= 901, `${JSON.stringify(box)} in 900 px`);
    }
    // Stated large: no text of the page but the clock's is larger.
    const size = (e) => e.evaluate((x) => Number.parseFloat(getComputedStyle(x).fontSize));
    assert.ok((await size(p.harm.locator("strong"))) >= 24 && (await size(p.next.locator("strong"))) >= 20);
    await assertAccessible(page);
    await assertNoSidewaysScroll(page);
    const since = seconds(before);
    while (seconds(await p.clock()) < since + 12) await page.waitForTimeout(200);
    await page.locator(".ledger summary").click();
    const lost = number(await page.locator(".ledger tr", { hasText: "Room (lost)" }).locator("td").nth(1).innerText());
    assert.ok(lost >= 0.8 * Number(told[1]) && lost < 2 * Number(told[1]), `${lost} oz, told ${told[1]}`);
    await p.k.turn(false, "Engine");
    await p.next.getByText("Stay back until it stops blowing, and help anyone who is hurt").waitFor();
    await p.harm.getByRole("button", { name: "Understood" }).click();
    await p.harm.waitFor({ state: "detached" });
    // Taken back, nobody is hurt.
    await p.k.push("Undo");
    await p.k.push("Undo");
    await p.joint.filter({ hasText: "not looked at" }).waitFor();
    assert.doesNotMatch(await p.next.innerText(), /Stay back|Step back/);
    assertQuiet(page);
  },
  { path: "#s=healthy" },
);

for (const window of [desktop, phone])
  pageTest(
    "and by keyboard: the question takes the focus, Escape takes it back, Enter has to be pressed on purpose",
    window,
    async (page) => {
      const p = at(page);
      const focused = () => page.evaluate(() => document.activeElement?.textContent);
      await p.k.turn(false, "Low coupler");
      await p.k.turn(false, "High coupler");
      await p.k.view("Parts");
      await p.joint.press("Enter");
      await p.k.push("spring-lock tool");
      await p.k.push("Open");
      await p.dialog.getByRole("heading", { name: "Open it without knowing the pressure inside?" }).waitFor();
      await p.dialog.getByText("No gauge is connected: nobody knows the pressure inside.").waitFor();
      assert.equal(await focused(), "Leave it", "the focus goes to the question, on the way back");
      await assertAccessible(page);
      await assertWhole(page, p.dialog);
      // Shortcuts work nothing behind it.
      await page.keyboard.press("Control+z");
      await page.keyboard.press("Escape");
      await p.dialog.waitFor({ state: "hidden" });
      assert.equal(await focused(), "Open", "the focus is back where it was");
      assert.match(await p.joint.getAttribute("aria-label"), /not looked at/);
      assert.equal(await page.getByRole("switch", { name: "High coupler" }).getAttribute("aria-checked"), "false", "nothing was taken back");
      // Enter on and on leaves it.
      await page.keyboard.press("Enter");
      await p.dialog.waitFor();
      await page.keyboard.press("Enter");
      await p.dialog.waitFor({ state: "hidden" });
      await page.keyboard.press("Enter");
      await p.dialog.waitFor();
      await page.waitForTimeout(450);
      await page.keyboard.press("Tab");
      assert.equal(await focused(), "Do it all the same");
      await page.keyboard.press("Enter");
      await p.harm.waitFor();
      await p.joint.filter({ hasText: ": open" }).waitFor();
      await assertNoSidewaysScroll(page);
      assertQuiet(page);
    },
    { path: "#s=healthy" },
  );

pageTest(
  "the red valve into an open can and water too hot are asked about too, and their sliders go back",
  desktop,
  async (page) => {
    const p = at(page);
    const valve = page.getByRole("slider", { name: "High valve (red)", exact: true });
    const value = () => valve.inputValue();
    await p.k.push("Take a can");
    await p.k.turn(true, "Tap");
    await valve.focus();
    await page.keyboard.press("ArrowRight");
    await p.dialog.getByRole("heading", { name: "High-side valve open with the engine running" }).waitFor();
    await p.leave.click();
    await p.dialog.waitFor({ state: "hidden" });
    await until(page, "the slider stands where the valve does", 5, async () => (await value()) === "0");
    await p.k.turn(true, "Water bath");
    const water = page.locator("#bath-t");
    await water.focus();
    await page.keyboard.press("End");
    await p.dialog.getByRole("heading", { name: "Water above 52 \u00b0C (125 \u00b0F)" }).waitFor();
    await page.keyboard.press("Escape");
    await p.dialog.waitFor({ state: "hidden" });
    await until(page, "the water is as warm as before", 5, async () => Number(await water.inputValue()) <= 52);
    assertQuiet(page);
  },
  { path: "#s=healthy" },
);

pageTest(
  "goggles and gloves are put on at the question, and the harm says so",
  desktop,
  async (page) => {
    const p = at(page);
    await p.k.view("Parts");
    await p.joint.click();
    await p.bench.getByRole("button", { name: "spring-lock tool" }).click();
    await p.open.click();
    await p.dialog.getByText("No goggles, no gloves.").waitFor();
    await p.dialog.getByRole("button", { name: "Put on" }).click();
    await p.dialog.getByText("No goggles, no gloves.").waitFor({ state: "detached" });
    await page.waitForTimeout(450);
    await p.leave.click();
    await page.locator("#instruments-title").press("Enter");
    for (const what of ["Goggles", "Gloves"]) assert.equal(await page.locator(`#${what.toLowerCase()}`).getAttribute("aria-checked"), "true", what);
    await p.open.click();
    await page.waitForTimeout(450);
    await p.sure.click();
    await p.harm.getByText("Refrigerant hit your face and wrists").waitFor();
    assertQuiet(page);
  },
  { path: "#s=healthy" },
);

pageTest(
  "a caution ends with its cause, waits behind none, and comes anew in the next bay",
  desktop,
  async (page) => {
    const p = at(page);
    const caution = page.getByRole("complementary", { name: "Caution" });
    await p.k.turn(true, "Engine");
    await p.k.push("Take a can");
    await caution.getByText("Eyes and hands").waitFor();
    await caution.getByText("No goggles, no gloves.").waitFor();
    assert.match(await caution.innerText(), /boils at .*-14.9 °F|boils at −26\.1/);
    assert.ok(!/A2L/.test(await caution.innerText()), "R-134a does not burn");
    await p.k.turn(true, "Turn over");
    await caution.getByText("Liquid in the suction while the compressor runs").waitFor();
    assert.equal(await caution.count(), 1);
    await p.k.turn(false, "Turn over");
    await caution.waitFor({ state: "detached" });
    // R-1234yf is of class A2L (ASHRAE 34); in another bay the same is said anew.
    await start(page, "healthy-crossover");
    await p.k.push("Take a can");
    await caution.getByText(/R-1234yf burns \(mildly flammable, class A2L/).waitFor();
    await caution.getByRole("button", { name: "Understood" }).click();
    await caution.waitFor({ state: "detached" });
    await page.locator("#control-removecan").press("Enter");
    await p.k.push("Take a can");
    await page.waitForTimeout(300);
    assert.equal(await caution.count(), 0, "understood in this bay");
    await start(page, "healthy");
    await p.k.push("Take a can");
    await caution.getByText("Eyes and hands").waitFor();
    assertQuiet(page);
  },
  { path: "#s=charge-from-cans" },
);

for (const window of [desktop, phone])
  pageTest("the red valve into an open hose tells what a copy of the bay does, and by hand only what the gauges show", window, async (page) => {
    const p = at(page);
    await start(page, "healthy");
    await p.k.push("High valve (red): open");
    await p.dialog.getByRole("heading", { name: "High-side valve open with the engine running" }).waitFor();
    assert.match(await p.copy.innerText(), /^A copy of this bay, 12 s ahead: [\d.]+ oz of refrigerant in the room\.$/);
    await p.dialog.getByText(/follow the maker's data and local code/).waitFor();
    await assertWhole(page, p.dialog);
    await assertAccessible(page);
    await page.keyboard.press("Escape");
    await p.dialog.waitFor({ state: "hidden" });
    await byHand(page);
    await run(page);
    await page.waitForTimeout(1500);
    await p.k.push("High valve (red): open");
    await p.dialog.waitFor();
    await p.dialog.locator(".figures").waitFor();
    assert.equal(await p.copy.count(), 0, "nobody can run a closed bay ahead");
    assertQuiet(page);
  });
