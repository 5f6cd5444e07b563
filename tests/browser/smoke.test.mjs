// The page comes up: something to read, nothing to complain of, nothing in anyone's way.
import assert from "node:assert/strict";
import { assertAccessible, assertNoSidewaysScroll, assertQuiet, desktop, pageTest, phone } from "./harness.mjs";

for (const window of [desktop, phone]) {
  pageTest("the page comes up", window, async (page) => {
    const heading = page.getByRole("heading", { level: 1 });
    await heading.waitFor();
    assert.equal(await heading.count(), 1);
    assert.match(await heading.innerText(), /\S/);
    await assertAccessible(page);
    await assertNoSidewaysScroll(page);
    assertQuiet(page);
  });
}
