// Text of twice the size (WCAG 2.2, 1.4.4): the reader's own, set in the browser, which the page takes its sizes from.
import assert from "node:assert/strict";
import { assertNoSidewaysScroll, assertQuiet, pageTest, phone } from "./harness.mjs";
import { assertFits } from "./fit.mjs";
import { everyView } from "./keys.mjs";
import { wishes } from "./page.mjs";

// Chromium's own setting, twice its usual 16 px.
wishes.push("--blink-settings=defaultFontSize=32");

for (const window of [{ name: "1280", viewport: { width: 1280, height: 800 } }, phone])
  pageTest(
    "every view fits with text of twice the size",
    window,
    async (page) => {
      await page.getByRole("heading", { level: 1 }).waitFor();
      assert.equal(await page.evaluate(() => getComputedStyle(document.body).fontSize), "28px", "text is twice as large");
      for await (const view of everyView(page)) {
        await assertFits(page, view);
        await assertNoSidewaysScroll(page);
      }
      assertQuiet(page);
    },
    { path: "#s=healthy", limit: 120_000 },
  );
