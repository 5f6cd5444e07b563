// The worst act is asked about, by mouse and by keyboard, with what the gauges show before it; afterwards the emergency comes first.
import assert from "node:assert/strict";
import { assertFits } from "./fit.mjs";
import { assertAccessible, assertNoSidewaysScroll, assertQuiet, desktop, pageTest, phone } from "./harness.mjs";
import { keys, number, until } from "./keys.mjs";

const at = (page) => {
  const dialog = page.getByRole("alertdialog");
  return {
    k: keys(page),
    dialog,
    bench: page.locator("section.bench"),
    joint: page.locator("section.bench").getByRole("button", { name: /^Joint condenser/ }),
    leave: dialog.getByRole("button", { name: "Leave it" }),
    sure: dialog.getByRole("button", { name: "Do it all the same" }),
    clock: () => page.locator(".clock [aria-hidden]").innerText(),
    open: page.locator("section.bench").getByRole("button", { name: "Open", exact: true }),
    next: page.getByRole("region", { name: "Next" }),
    harm: page.getByRole("complementary", { name: "Somebody was hurt" }),
    figures: async () => (await dialog.locator(".figures").innerText()).match(/side: (\S+) psig\. High side: (\S+) psig/)?.slice(1).map(Number),
    gauge: async (title) => number((await page.getByRole("img", { name: new RegExp(`^${title} side`) }).getAttribute("aria-label")).match(/:\s*([\d.]+)/)[1]),
  };
};

pageTest(
  "a joint on a running van is opened by a second press of the mouse alone",
  desktop,
  async (page) => {
    const p = at(page);
    await p.k.view("Bench");
    await p.joint.click();
    // A double press is one press: the second falls on the question and does nothing.
    await p.open.dblclick();
    await p.dialog.waitFor();
    await p.dialog.getByRole("heading", { name: "Open it under pressure?" }).waitFor();
    await assertAccessible(page);
    // Time stands still, and the figures are those of the gauges.
    const before = await p.clock();
    const [low, high] = await p.figures();
    await page.waitForTimeout(1500);
    assert.equal(await p.clock(), before, "bay time stands still");
    assert.ok(Math.abs(low - (await p.gauge("Low"))) <= 1 && Math.abs(high - (await p.gauge("High"))) <= 2 && high > 60, `${low} and ${high}`);
    await p.leave.click();
    await p.dialog.waitFor({ state: "hidden" });
    assert.match(await p.joint.innerText(), /not looked at/, "left as it was");
    await until(page, "time goes on", 5, async () => (await p.clock()) !== before);
    assert.equal(await p.harm.count(), 0);
    await p.open.click();
    await page.waitForTimeout(450);
    await p.sure.click();
    await p.harm.waitFor();
    await p.joint.filter({ hasText: "open" }).waitFor();
    await p.next.getByText("Get away and shut the engine off").waitFor();
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
    await p.k.turn(false, "Engine");
    await p.next.getByText("Keep away until nothing blows, and help whoever is hurt").waitFor();
    await p.harm.getByRole("button", { name: "Understood" }).click();
    await p.harm.waitFor({ state: "detached" });
    // Taken back, nobody is hurt.
    await p.k.push("Undo");
    await p.k.push("Undo");
    await p.joint.filter({ hasText: "not looked at" }).waitFor();
    assert.doesNotMatch(await p.next.innerText(), /Keep away|Get away/);
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
      await p.k.view("Bench");
      await p.joint.press("Enter");
      await p.k.push("Open");
      await p.dialog.getByRole("heading", { name: "Open it without knowing what is behind it?" }).waitFor();
      await p.dialog.getByText("No gauge is connected: nobody knows what pressure stands behind it.").waitFor();
      assert.equal(await focused(), "Leave it", "the focus goes to the question, on the way back");
      await assertAccessible(page);
      await assertFits(page, "the question");
      // Shortcuts work nothing behind it.
      await page.keyboard.press("Control+z");
      await page.keyboard.press("Escape");
      await p.dialog.waitFor({ state: "hidden" });
      assert.equal(await focused(), "Open", "the focus is back where it was");
      assert.match(await p.joint.innerText(), /not looked at/);
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
      await p.joint.filter({ hasText: "open" }).waitFor();
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
