// A bay is the same to the bit natively and in the browser: every committed take ends in the same state hash.
import assert from "node:assert/strict";
import { readFileSync } from "node:fs";
import { desktop, pageTest } from "./harness.mjs";

pageTest("every take ends in the same state as natively", desktop, async (page) => {
  await page.waitForFunction(() => typeof window.lowsideHash === "function");
  const takes = JSON.parse(readFileSync(process.env.LOWSIDE_BITS, "utf8"));
  assert.ok(takes.length > 0);
  for (const { name, text, native } of takes) {
    assert.match(native, /^[0-9a-f]{16,}$/, `${name}: natively no hash but an error`);
    const here = await page.evaluate((take) => window.lowsideHash(take), text);
    assert.equal(here, native, `${name}: browser and native code differ`);
  }
});
