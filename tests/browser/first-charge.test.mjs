// The first charge from the shell to the last coupler, by mouse alone: how many presses it takes, and that nothing of the page shifts.
import assert from "node:assert/strict";
import { assertQuiet, desktop, pageTest } from "./harness.mjs";
import { until } from "./keys.mjs";
import { address } from "./page.mjs";

/** Sums the shifts of the page that no press explains, as the browser does: the most within five seconds, none a second after the one before. */
const watch = () => {
  window.shift = 0;
  window.shifts = [];
  let [sum, first, last] = [0, -1e9, -1e9];
  new PerformanceObserver((list) => {
    for (const e of list.getEntries())
      if (!e.hadRecentInput) {
        if (e.startTime - last > 1000 || e.startTime - first > 5000) [sum, first] = [0, e.startTime];
        [sum, last] = [sum + e.value, e.startTime];
        window.shift = Math.max(window.shift, sum);
        window.shifts.push(`${e.value.toFixed(4)} ${e.sources.map((s) => s.node?.className ?? `text of ${s.node?.parentElement?.outerHTML.slice(0, 60)} ${s.previousRect.x.toFixed(0)}>${s.currentRect.x.toFixed(0)},${s.previousRect.y.toFixed(0)}>${s.currentRect.y.toFixed(0)}`).join(" ")}`);
      }
  }).observe({ type: "layout-shift", buffered: true });
};

pageTest(
  "the first charge takes at most 24 presses of the mouse, and the page holds still",
  desktop,
  async (page) => {
    await page.addInitScript(watch);
    // By the address itself: the test's own way in would press a door.
    await page.evaluate((address) => (location.href = address), address);
    let presses = 0;
    /** One press of the mouse in the middle of something, or at a share of its width. */
    const press = async (selector, share = 0.5) => {
      const it = page.locator(selector).first();
      await it.waitFor();
      await it.scrollIntoViewIfNeeded();
      const { x, y, width, height } = await it.boundingBox();
      await page.mouse.click(x + width * share, y + height / 2);
      presses += 1;
    };
    const button = (name) => `role=button[name="${name}"]`;
    const toggle = (name) => `role=switch[name="${name}"]`;
    /** Presses the button that waits, and waits with it. */
    const wait = async (what) => {
      await page.locator("#wait", { hasText: what }).waitFor();
      await press("#wait");
      await page.locator(".ended", { hasText: `Reached: ${what}` }).waitFor({ timeout: 60_000 });
    };
    // The shell sends who is new to the first card.
    await press(".first a");
    await press(button("Take a can"));
    await press(toggle("Tap"));
    await press(button("Low valve (blue): open"));
    await press(toggle("Engine"));
    await press(toggle("A/C"));
    await press("#control-blower", 0.98);
    await wait("the can is empty");
    for (const _ of [2, 3]) {
      await press(button("Low valve (blue): shut"));
      await press(toggle("Tap"));
      await press(button("Fresh can"));
      await press(toggle("Tap"));
      await press(button("Low valve (blue): open"));
      await wait("the can is empty");
    }
    await press(button("Low valve (blue): shut"));
    await press(toggle("Engine"));
    await press(toggle("Low coupler"));
    await press(toggle("High coupler"));
    const done = page.locator(".in-hand.done");
    await until(page, "every step is done", 10, async () => (await done.count()) === 5).catch(async (error) => {
      throw new Error(`${error.message}: ${(await page.locator(".in-hand").allInnerTexts()).join(" | ")}`);
    });
    const { shift, shifts } = await page.evaluate(() => ({ shift: window.shift, shifts: window.shifts }));
    console.log(`${presses} presses, layout shift ${shift.toFixed(4)}`);
    assert.ok(presses <= 24, `${presses} presses`);
    assert.ok(shift < 0.02, `layout shift ${shift}: ${shifts.join("; ")}`);
    assertQuiet(page);
  },
  { path: "about:blank", running: false, limit: 240_000 },
);
