// The page comes up: something to read, nothing to complain of, nothing in anyone's way.
import assert from "node:assert/strict";
import { assertAccessible, assertNoSidewaysScroll, assertQuiet, desktop, pageTest, phone } from "./harness.mjs";
import { address, door, keptText } from "./page.mjs";

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
  pageTest("the page comes up", window, open);
}

pageTest("the shell stands without the program, offers four doors, and runs nothing", desktop, async (page) => {
  const asked = [];
  page.on("request", (request) => asked.push(new URL(request.url()).pathname));
  // The test's own way in is left out: nobody has pressed anything.
  await page.evaluate((address) => (location.href = address), address);
  await page.getByRole("heading", { name: "A service bay for learning car A/C", exact: true }).waitFor();
  const doors = page.locator(".ways button");
  assert.deepEqual(await doors.locator("b").allInnerTexts(), ["Explore", "Charge and service", "Diagnose", "Class"]);
  await assertAccessible(page);
  await assertNoSidewaysScroll(page);
  await page.waitForTimeout(1000);
  assert.deepEqual(asked.filter((path) => /wasm$|lowside\.js$/.test(path)), [], "nothing is fetched");
  assert.equal(await page.locator("#go-on").isVisible(), false, "there is nothing to go on with");
  // By keyboard, to the running van.
  await doors.first().press("Enter");
  await page.locator(".pause").waitFor();
  assert.equal(await page.locator(".pause").getAttribute("aria-pressed"), "false", "who explores finds it running");
  await page.locator("#hose-tool").waitFor();
  await page.locator("#control-windows").click();
  await keptText(page);
  // Who comes back is offered what was left.
  await page.evaluate(() => location.reload());
  await page.locator("#go-on").waitFor();
  await assertAccessible(page);
  await page.locator("#go-on").press("Enter");
  await page.locator("#undo").waitFor();
  assert.equal(await page.locator("#control-windows").getAttribute("aria-checked"), "false", "as it was left");
  assertQuiet(page);
}, { path: "about:blank", running: false });

for (const window of [desktop, phone])
  pageTest("each door brings forward what it is for", window, async (page) => {
    await page.locator("#hose-tool").waitFor();
    const group = () => page.locator(".panel > .group legend").first().innerText();
    assert.equal(await group(), "The day");
    for (const [name, heading] of [["service", "Job cards"], ["diagnose", "The unknown vehicle"], ["class", "Class"]]) {
      await door(page, name);
      await page.getByRole("heading", { name: heading, exact: false }).first().waitFor();
      assert.equal(await page.locator(`#door-${name}`).getAttribute("aria-current"), "page");
      await assertAccessible(page);
      await assertNoSidewaysScroll(page);
    }
    await door(page, "service");
    assert.equal(await group(), "Service hose");
    await page.locator(".paper").first().press("Enter");
    const card = page.locator("section.card");
    await card.getByRole("heading", { name: "First charge" }).waitFor();
    assert.equal(await card.locator("[aria-current=step]").count(), 1);
    await assertAccessible(page);
    await assertNoSidewaysScroll(page);
    await card.getByRole("button", { name: "Put the card back" }).press("Enter");
    await page.locator(".paper").first().waitFor();
    assertQuiet(page);
  }, { path: "#s=healthy" });

pageTest("one line says what this is, at every width, and the head stays one line on a desk", desktop, async (page) => {
  await page.locator("#hose-tool").waitFor();
  for (const width of [1920, 1680, 1440, 1366, 1280, 1024, 768, 640, 390, 320]) {
    await page.setViewportSize({ width, height: 800 });
    const [line, head] = await page.evaluate(() => ["header h1 small", "header"].map((of) => document.querySelector(of).getBoundingClientRect().toJSON()));
    assert.ok(line.width > 100 && line.height > 8 && line.height < 20, `${width}: ${line.width} x ${line.height} px`);
    assert.ok(line.left >= 0 && line.right <= width && line.bottom <= head.bottom, `${width}: within the head`);
    if (width >= 1280) assert.ok(head.height < 50, `${width}: the head is ${head.height} px high`);
  }
  assert.equal(await page.locator("header h1 small").innerText(), "A service bay for learning car A/C");
  assertQuiet(page);
}, { path: "#s=healthy" });

pageTest("no figure of a gauge is under 10 px, on any layout", desktop, async (page) => {
  await page.locator(".dial").first().waitFor();
  for (const [width, height] of [[1920, 1080], [1440, 900], [1280, 720], [1024, 768], [820, 1180], [390, 844], [320, 640]]) {
    await page.setViewportSize({ width, height });
    const sizes = await page.locator(".dial svg text").evaluateAll((all) => all.map((e) => Number.parseFloat(getComputedStyle(e).fontSize) * e.getScreenCTM().a));
    assert.ok(sizes.length > 20, `${sizes.length} figures`);
    assert.ok(Math.min(...sizes) >= 10, `${width} x ${height}: ${Math.min(...sizes).toFixed(1)} px`);
  }
  assertQuiet(page);
}, { path: "#s=healthy" });

pageTest("the exploring bay has at most 45 controls, folded ones included, none of them dead", desktop, async (page) => {
  await page.locator("#hose-tool").waitFor();
  const [all, dead] = await page.evaluate(() => {
    const found = [...document.querySelectorAll("#app :is(button, select, input, textarea, summary, a[href], [role=button], [role=switch])")];
    const name = (e) => e.id || e.textContent.trim();
    return [found.map(name), found.filter((e) => e.disabled || e.getAttribute("aria-disabled") === "true").map(name)];
  });
  console.log(`${all.length} controls`);
  assert.ok(all.length <= 45, `${all.length}: ${all.join(", ")}`);
  assert.deepEqual(dead, []);
  assertQuiet(page);
}, { path: "" });
