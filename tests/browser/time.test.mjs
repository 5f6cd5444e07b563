// Time: pause, step, speeds, waiting, scrubbing, undo and redo, and lines that part.
import assert from "node:assert/strict";
import { assertAccessible, assertQuiet, desktop, pageTest, phone } from "./harness.mjs";
import { keptText, speed, start } from "./page.mjs";

const button = (page, name) => page.getByRole("button", { name, exact: true });
const toggle = (page, name) => page.getByRole("switch", { name, exact: true });
const clock = async (page) => {
  const parts = (await page.locator(".clock [aria-hidden]").innerText()).split(":").map(Number);
  return parts.reduce((all, part) => all * 60 + part, 0);
};
const checked = (page, name) => toggle(page, name).getAttribute("aria-checked");
const until = async (page, what, check, seconds = 20) => {
  const end = Date.now() + seconds * 1000;
  while (!(await check())) {
    assert.ok(Date.now() < end, `waited ${seconds} s: ${what}`);
    await page.waitForTimeout(60);
  }
};
const healthy = (page) => start(page, "healthy");
const pause = (page) => page.getByRole("button", { name: /Pause/ }).click();
const scrub = (page, second) => page.getByRole("slider", { name: "Moment" }).fill(String(second));
const gauges = (page) =>
  page.evaluate(() => [...document.querySelectorAll(".dial")].map((d) => d.getAttribute("aria-label")).join("; "));

pageTest("any second comes back, and going on parts the lines", desktop, async (page) => {
  await healthy(page);
  await speed(page, 60);
  await until(page, "a minute", async () => (await clock(page)) >= 60);
  await pause(page);
  await button(page, "+1 s").click();
  const [end, read] = [await clock(page), await gauges(page)];
  const windows = await checked(page, "Windows");
  await toggle(page, "Windows").click();
  await button(page, "+1 s").click();
  await scrub(page, 30);
  await until(page, "it shows half a minute", async () => (await clock(page)) === 30);
  await page.getByText(`0:30 of `, { exact: false }).waitFor();
  await assertAccessible(page);
  const times = await page.evaluate(async () => {
    const slider = document.getElementById("scrub");
    const all = [];
    for (const second of [5, 55, 12, 41, 3, 59, 20, 37, 8, 50]) {
      const start = performance.now();
      slider.value = String(second);
      slider.dispatchEvent(new Event("input", { bubbles: true }));
      await new Promise((done) => requestAnimationFrame(() => requestAnimationFrame(done)));
      all.push(performance.now() - start);
    }
    return all.sort((a, b) => a - b);
  });
  console.log(`scrubbing, two frames included: median ${times[5].toFixed(0)} ms, worst ${times[9].toFixed(0)} ms`);
  assert.ok(times[5] < 1000, `a jump takes ${times[5]} ms`);
  // Back to the latest, whatever was looked at between.
  await button(page, "To the latest").click();
  await until(page, "the end is back", async () => (await clock(page)) === end + 1);
  assert.notEqual(await checked(page, "Windows"), windows, "what was done last is done");
  await scrub(page, end);
  await until(page, "the last second before", async () => (await clock(page)) === end);
  assert.ok(read.length > 40);
  // Going on from half a minute leaves the old course to choose.
  await scrub(page, 30);
  await toggle(page, "Engine").click();
  await button(page, "+1 s").click();
  assert.equal(await clock(page), 31);
  const course = page.getByLabel("Branch");
  assert.equal(await course.locator("option").count(), 2);
  await course.selectOption("1");
  await until(page, "the old course", async () => (await clock(page)) === end + 1);
  assert.equal(await checked(page, "Engine"), "true");
  assertQuiet(page);
});

pageTest("acts are taken back and done again, by button and by key", desktop, async (page) => {
  await button(page, "Take a can").click();
  await toggle(page, "Tap").click();
  await page.waitForTimeout(700);
  await button(page, "Undo").click();
  await until(page, "the tap is shut", async () => (await checked(page, "Tap")) === "false");
  await page.keyboard.press("Control+z");
  await until(page, "the can is gone", async () => (await page.locator("#control-tap").count()) === 0);
  assert.equal(await button(page, "Undo").count(), 0, "nothing is left to take back");
  await page.keyboard.press("Control+y");
  await page.keyboard.press("Control+Shift+Z");
  await until(page, "the tap is open", async () => (await checked(page, "Tap")) === "true");
  assert.equal(await button(page, "Redo").count(), 0, "nothing is left to do again");
  assertQuiet(page);
});

pageTest("the bay waits for what was asked and pauses", phone, async (page) => {
  await healthy(page);
  await page.getByLabel("Run until").selectOption("min-1");
  await page.getByText("Reached: 1 minute has passed").waitFor({ timeout: 20_000 });
  assert.equal(await clock(page), 60);
  await page.getByRole("button", { name: /Run$/ }).waitFor();
  await page.getByLabel("Run until").selectOption("steady");
  await page.getByText("Reached: the vent is steady").waitFor({ timeout: 20_000 });
  // Nothing is offered that cannot come: no can hangs here.
  assert.equal(await page.locator("#until option[value=empty]").count(), 0);
  await page.getByLabel("Run until").selectOption("min-15");
  await button(page, "Stop").click();
  await page.getByRole("button", { name: /Run$/ }).waitFor();
  await assertAccessible(page);
  assertQuiet(page);
});

pageTest("the same acts end in the same bits at every speed", desktop, async (page) => {
  const reached = [];
  for (const times of [0.5, 4, 120]) {
    await healthy(page);
    await pause(page);
    await toggle(page, "Windows").click();
    await speed(page, times);
    await until(page, "some seconds pass", async () => (await clock(page)) >= 2, 20);
    await page.getByRole("button", { name: /Pause/ }).click();
    // Where it stands is where a replay of its acts ends, whatever the speed was.
    const take = await keptText(page);
    const got = await page.evaluate((text) => window.lowsideHash(text), take);
    assert.equal(got, JSON.parse(take).hash, `the bits at ${times}`);
    // And every run brought to the same second shows the same.
    const slider = page.getByRole("slider", { name: "Moment" });
    await slider.fill("2");
    await until(page, "two seconds", async () => (await clock(page)) === 2);
    reached.push(await gauges(page));
    await page.reload();
    await page.getByRole("heading", { level: 1 }).waitFor();
  }
  assert.equal(new Set(reached).size, 1, reached.join("\n"));
});

pageTest("a reload keeps the past", desktop, async (page) => {
  await healthy(page);
  await speed(page, 60);
  await until(page, "forty seconds", async () => (await clock(page)) >= 40);
  await pause(page);
  await page.reload();
  await page.locator("#hose-tool").waitFor();
  await scrub(page, 10);
  await until(page, "ten seconds", async () => (await clock(page)) === 10);
  assertQuiet(page);
});
