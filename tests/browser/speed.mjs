// How fast the page's own module plays each take, beside the native figure of the same run; and how smoothly the page runs with
// every view open.
import { readFileSync } from "node:fs";
import { desktop, frames, quit, run, start, withPage } from "./page.mjs";

try {
  await withPage(desktop, async (page) => {
    await page.waitForFunction(() => typeof window.lowsideHash === "function");
    // The bay on the page would take time of its own.
    await page.getByRole("button", { name: /Pause/ }).click();
    for (const { name, text, seconds, native } of JSON.parse(readFileSync(process.env.LOWSIDE_TAKES, "utf8"))) {
      const times = await page.evaluate(async (take) => {
        const run = async () => {
          const start = performance.now();
          await window.lowsideHash(take);
          return (performance.now() - start) / 1000;
        };
        await run();
        return [await run(), await run(), await run()].sort((a, b) => a - b);
      }, text);
      const here = seconds / times[1];
      console.log(
        `${name}: browser ${here.toFixed(0)}, native ${native.toFixed(0)} times real time, ratio ${(here / native).toFixed(2)} (asked: at least 0.7: ${here / native >= 0.7 ? "pass" : "miss"})`,
      );
    }
  });
  await withPage(desktop, async (page) => {
    await start(page, "healthy");
    // The list gets shorter with every one that is opened.
    const shut = page.locator(".picker [aria-pressed=false]");
    while ((await shut.count()) > 0) await shut.first().click();
    for (const speed of [1, 60]) {
      await page.locator("#speed").selectOption(String(speed));
      await run(page);
      await page.waitForTimeout(1500);
      const { rate, work } = await frames(page, 5);
      console.log(`every view open at ${speed}x: ${rate.toFixed(1)} frames a second, ${work.toFixed(1)} ms of main thread a frame`);
    }
  });
} finally {
  await quit();
}
