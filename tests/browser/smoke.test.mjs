// The page comes up: something to read, nothing to complain of, nothing in anyone's way.
import assert from "node:assert/strict";
import { assertAccessible, assertNoSidewaysScroll, assertQuiet, desktop, pageTest, phone } from "./harness.mjs";

for (const window of [desktop, phone]) {
  const open = async (page) => {
    const heading = page.getByRole("heading", { level: 1 });
    await heading.waitFor();
    assert.equal(await heading.count(), 1);
    assert.match(await heading.innerText(), /\S/);
    await assertAccessible(page);
    await assertNoSidewaysScroll(page);
    assertQuiet(page);
  };
  pageTest("the page comes up", window, open, { folded: true });
}

pageTest("a phone's head unfolds by its button and folds again", phone, async (page) => {
  const [more, settings] = [page.getByRole("button", { name: "More", exact: true }), page.getByText("Settings", { exact: true })];
  const top = () => page.locator("header.top").evaluate((e) => e.offsetHeight);
  await more.waitFor();
  assert.equal(await settings.isVisible(), false);
  assert.ok((await top()) < 120, `folded it takes ${await top()} px of 844`);
  await more.click();
  await settings.waitFor();
  assert.equal(await more.getAttribute("aria-expanded"), "true");
  await assertAccessible(page);
  await assertNoSidewaysScroll(page);
  await more.click();
  await settings.waitFor({ state: "hidden" });
  assertQuiet(page);
}, { folded: true });

pageTest("a wide page has nothing to unfold", desktop, async (page) => {
  await page.getByText("Settings", { exact: true }).waitFor();
  assert.equal(await page.locator("button.more").isVisible(), false);
}, { folded: true });
