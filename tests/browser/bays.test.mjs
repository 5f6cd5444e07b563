// No bay is lost: what a visitor did outlives links, files, fresh starts, reloads, failures, other tabs and a whole day.
import assert from "node:assert/strict";
import { readFileSync } from "node:fs";
import { assertAccessible, assertQuiet, desktop, pageTest, phone } from "./harness.mjs";
import { keys, until } from "./keys.mjs";
import { address, drawer, keptText, run, shut, speed, start, startOver } from "./page.mjs";

const button = (page, name) => page.getByRole("button", { name, exact: true });
const toggle = (page, name) => page.getByRole("switch", { name, exact: true });
const kept = async (page) => JSON.parse(await keptText(page));
const same = (got, was, why) => assert.deepEqual([got.hash, got.ticks, got.log], [was.hash, was.ticks, was.log], why);
const back = (page) => page.getByRole("button", { name: /^Back to your bay: / });
const notice = (page, text) => page.locator(".notice", { hasText: text }).waitFor();
const paused = async (page) => [
  await page.locator(".pause").getAttribute("aria-pressed"),
  `${await page.locator("#speed").inputValue()}\u00d7`,
];
const still = ["true", "1\u00d7"];

/** A visitor's bay: something was done in it, and it stands. */
async function visit(page) {
  await button(page, "Take a can").click();
  await toggle(page, "Tap").click();
  if ((await paused(page))[0] !== "true") await page.locator(".pause").click();
  const was = await kept(page);
  assert.equal(was.log.length, 2);
  return was;
}
/** Leaves the page and comes to another address of it, as from a bookmark. */
async function visitAddress(page, path) {
  await page.goto("about:blank");
  await page.goto(new URL(path, address).href);
}
const isBack = async (page, was, why) => {
  await button(page, "Fresh can").waitFor();
  await page.locator("#hose-tool").waitFor();
  // The bay that is left may have a can on its hose too.
  await until(page, `${why}: the bay is back`, 10, async () => (await kept(page)).ticks === was.ticks);
  same(await kept(page), was, why);
};
/** Opens a file: text as it is, a take that was changed for a test without the seal it had. */
async function openFile(page, take) {
  await drawer(page, "settings");
  const text = typeof take === "string" ? take : JSON.stringify({ ...take, seal: undefined });
  await page.getByLabel("Open a saved file").setInputFiles({ name: "take.json", mimeType: "application/json", buffer: Buffer.from(text) });
}
const log = (acts) => Buffer.from(JSON.stringify(acts)).toString("base64").replaceAll("+", "-").replaceAll("/", "_").replaceAll("=", "");
/** A link to a bay of so many ticks in which these acts were done. */
const link = (was, acts, ticks = 500) => `#s=charge-from-cans&u=psi.f.oz.us&v=2&t=${ticks}&h=${was.hash}&l=${log(acts)}`;
const bays = async (page) => {
  await shut(page);
  await drawer(page, "bays");
  await page.locator(".kept li").first().waitFor();
};

pageTest("a link, good, refused or damaged, leaves the visitor's bay one press away", desktop, async (page) => {
  const was = await visit(page);
  const [can, tap] = was.log;
  const other = await (async () => {
    await visitAddress(page, "#s=before-retrofit");
    await toggle(page, "Engine").waitFor();
    assert.deepEqual(await paused(page), still, "a link opens paused at 1x");
    assert.equal(await page.locator("#bays").innerText(), "Van before its conversion, on R-12");
    return kept(page);
  })();
  assert.notEqual(other.hash, was.hash);
  await notice(page, "The bay before this one is kept.");
  await back(page).click();
  await isBack(page, was, "after a link to a start");
  assert.deepEqual(await paused(page), still, "a kept bay too");

  await visitAddress(page, link(was, [[10, can[1]]]));
  await back(page).waitFor();
  assert.equal((await kept(page)).log.length, 1);
  await page.reload();
  await until(page, "the link's bay outlives a reload", 15, async () => (await kept(page)).log?.length === 1);
  await bays(page);
  await page.getByRole("button", { name: /^Open: / }).first().click();
  await isBack(page, was, "from the list, after a link with acts and a reload");

  // The tap is opened with no can there: the bay refuses.
  for (const [what, path] of [["refused", link(was, [tap])], ["damaged", link(was, was.log).replace(/&l=.{8}/, "&l=*")]]) {
    await visitAddress(page, path);
    await notice(page, "This link could not be opened");
    await isBack(page, was, what);
    assert.deepEqual(await paused(page), still);
  }

  // Put into the address of the open page.
  for (const path of ["#s=before-retrofit", link(was, [[10, can[1]]])]) {
    await page.evaluate((path) => (location.hash = path), path);
    await back(page).click();
    await isBack(page, was, `from ${path} in the open page`);
  }
  await page.evaluate((path) => (location.hash = path), link(was, [tap]));
  await notice(page, "This link could not be opened");
  same(await kept(page), was, "refused in the open page");
  assertQuiet(page);
});

pageTest("a link closed before it is ready, and reloads while a bay is taken up, lose nothing", desktop, async (page) => {
  const was = await visit(page);
  await visitAddress(page, link(was, [was.log[0]], 2_000_000));
  await page.locator("#resuming").waitFor();
  await visitAddress(page, "");
  await isBack(page, was, "the link was not ready");

  // Long enough to be caught being taken up.
  await openFile(page, { ...was, ticks: 400_000 });
  await page.locator("#resuming").waitFor();
  await button(page, "Back to the bay that was open").click();
  await isBack(page, was, "given up");
  await openFile(page, { ...was, ticks: 400_000 });
  await page.locator("#resuming").waitFor();
  await visitAddress(page, "");
  await isBack(page, was, "the file was not ready");
  await openFile(page, { ...was, ticks: 400_000 });
  await back(page).waitFor({ timeout: 60_000 });
  const long = await kept(page);
  assert.equal(long.ticks, 400_000);
  for (let k = 0; k < 3; k += 1) {
    await page.reload();
    await page.locator("#resuming").waitFor();
  }
  await button(page, "Fresh can").waitFor({ timeout: 60_000 });
  await page.locator("#hose-tool").waitFor();
  same(await kept(page), long, "after three reloads while it was taken up");

  // Not waited for: another bay is opened, and this one stays.
  await page.reload();
  await button(page, "Keep it for later and open another bay").click();
  await back(page).click();
  await button(page, "Fresh can").waitFor({ timeout: 60_000 });
  await page.locator("#hose-tool").waitFor();
  same(await kept(page), long, "put off");
  assertQuiet(page);
}, { limit: 240_000 });

pageTest("a bay that makes the program fail is kept, offered again and as a file", desktop, async (page) => {
  const was = await visit(page);
  await openFile(page, { ...was, ticks: 300_000 });
  await back(page).waitFor({ timeout: 60_000 });
  const long = await kept(page);
  await page.reload();
  await page.locator("#resuming").waitFor();
  // Before the replay has begun there is nothing to hold against the bay.
  await page.waitForFunction(() => document.querySelector("progress[aria-labelledby=resuming]")?.value > 0.02);
  await page.evaluate(() => window.lowsideFail()).catch(() => undefined);
  await page.getByRole("button", { name: "Reload" }).click();
  await notice(page, "Yours is kept");
  page.complaints.length = 0;
  const row = page.locator(".notice", { hasText: "Yours is kept" });
  const [file] = await Promise.all([page.waitForEvent("download"), row.getByRole("button", { name: "Save as a file" }).click()]);
  same(JSON.parse(readFileSync(await file.path(), "utf8")), long, "the file");
  await row.getByRole("button", { name: "Try again" }).click();
  await button(page, "Fresh can").waitFor({ timeout: 60_000 });
  await page.locator("#hose-tool").waitFor();
  same(await kept(page), long, "tried again");
  assertQuiet(page);
}, { limit: 180_000 });

pageTest("a bay that halts reloads to the same halt, with the same notice", desktop, async (page) => {
  // An overfull van whose suction line holds nothing and whose condenser gets no air; it halts within two minutes.
  const { scenario, ...fresh } = await kept(page);
  scenario.vehicle.suction_line.volume = "20 cm3";
  scenario.condition.condenser_air = "0 %";
  scenario.start = { charge: "1.5 kg" };
  await openFile(page, { ...fresh, scenario, log: [[0, { do: "take-can" }]], ticks: 50 });
  await notice(page, "It does not end where it says");
  await run(page);
  await speed(page, 30);
  const halted = page.locator(".notice[role=alert]", { hasText: "The bay has stopped" });
  await halted.waitFor();
  const told = await halted.innerText();
  await toggle(page, "Tap").click();
  await page.locator("[role=status]", { hasText: "the bay has stopped (" }).waitFor({ state: "attached" });
  const was = await kept(page);
  assert.equal(was.log.length, 1, "an act on a halted bay is refused");
  await page.reload();
  await halted.waitFor();
  assert.equal(await halted.innerText(), told);
  assert.equal(await page.locator(".notice", { hasText: "It does not end where it says" }).count(), 0);
  same(await kept(page), was, "after a reload");
  // As the notice says: the way back in time is open.
  await button(page, "Undo").click();
  await halted.waitFor({ state: "detached" });
  assertQuiet(page);
}, { path: "#s=healthy", running: false, limit: 120_000 });

pageTest("a fresh start, starting over, a job card and a file each leave the way back, by keyboard too", desktop, async (page) => {
  const k = keys(page);
  let was = await visit(page);
  const leave = {
    "an arrow key on the list of starts": async () => {
      await drawer(page, "bays");
      await page.locator("#scenario").focus();
      await page.keyboard.press("ArrowDown");
      await page.keyboard.press("ArrowDown");
      // Choosing is not opening.
      same(await kept(page), was, "an arrow key alone changes nothing");
      await page.locator("#open-start").press("Enter");
      await until(page, "another bay", 5, async () => (await page.locator("#bays").innerText()) !== "Evacuated van");
    },
    "starting over": () => startOver(page),
    "a job card": async () => {
      await k.view("Job");
      await button(page, "Open the job").press("Enter");
      await page.locator(".steps").waitFor();
    },
    "a file": () => openFile(page, { ...was, log: was.log.slice(0, 1), ticks: 1000 }),
  };
  for (const [what, go] of Object.entries(leave)) {
    await speed(page, 60);
    await page.waitForTimeout(300);
    await page.locator(".pause").press("Enter");
    was = await kept(page);
    await go();
    await back(page).waitFor();
    assert.deepEqual(await paused(page), still, `${what} opens paused at 1x, whatever ran before`);
    await until(page, `${what} is another bay`, 10, async () => (await kept(page)).ticks !== was.ticks);
    await back(page).press("Enter");
    await isBack(page, was, what);
    await shut(page);
  }
  await assertAccessible(page, ".warns");
  assertQuiet(page);
}, { limit: 180_000 });

pageTest("the list keeps the last eight bays; one is removed when that is confirmed", desktop, async (page) => {
  for (let n = 0; n < 10; n += 1) {
    await button(page, "Take a can").click();
    for (let s = 0; s < n; s += 1) await button(page, "+1 s").click();
    await startOver(page);
    await back(page).waitFor();
  }
  const rows = page.locator(".kept li");
  await drawer(page, "bays");
  await until(page, "eight are kept", 10, async () => (await rows.count()) === 8 && /0:09/.test(await rows.first().innerText()));
  const clocks = (await rows.allInnerTexts()).map((text) => text.match(/\d+:\d\d/)[0]);
  assert.deepEqual(clocks, ["0:09", "0:08", "0:07", "0:06", "0:05", "0:04", "0:03", "0:02"], "the newest first");
  await assertAccessible(page, ".bays");
  const first = rows.first();
  await first.getByRole("button", { name: /^Remove: / }).press("Enter");
  await first.getByRole("button", { name: "Keep it" }).press("Enter");
  await first.getByRole("button", { name: /^Remove: / }).press("Enter");
  await first.getByRole("button", { name: "Remove for good" }).press("Enter");
  await until(page, "seven are left", 10, async () => (await rows.count()) === 7);
  const [file] = await Promise.all([page.waitForEvent("download"), rows.first().getByRole("button", { name: /^Save as a file: / }).click()]);
  assert.equal(JSON.parse(readFileSync(await file.path(), "utf8")).ticks, 8 * 50);
  await rows.last().getByRole("button", { name: /^Open: / }).press("Enter");
  await button(page, "Fresh can").waitFor();
  await page.locator("#hose-tool").waitFor();
  assert.equal((await kept(page)).ticks, 2 * 50);
  assertQuiet(page);
}, { reducedMotion: "reduce", limit: 120_000 });

pageTest("two tabs know of each other, and neither writes the other's bay", desktop, async (page) => {
  const first = await visit(page);
  const second = await page.context().newPage();
  await second.goto(address);
  await second.locator(".notice", { hasText: "is open in another tab" }).waitFor();
  assert.deepEqual(await paused(second), still);
  await toggle(second, "Windows").click();
  await button(second, "+1 s").click();
  const other = await kept(second);
  assert.equal(other.log.length, 1);
  // Both are left and come back, each to its own.
  await Promise.all([page.reload(), second.reload()]);
  await button(page, "Fresh can").waitFor();
  await until(second, "the second tab's own bay", 10, async () => (await button(second, "Undo").isVisible()) && (await second.locator("#hose-tool").count()) > 0);
  same(await kept(page), first, "the first tab's");
  same(await kept(second), other, "the second tab's");

  await bays(second);
  const row = second.locator(".kept li").first();
  assert.match(await row.innerText(), /Open in another tab/);
  assert.equal(await row.getByRole("button").count(), 0, "it cannot be opened or removed from here");
  await page.close();
  await second.locator("#bays").click();
  await until(second, "the first tab's bay is free", 10, async () => {
    if (!(await second.locator(".bays[open]").count())) await second.locator("#bays").click();
    if (await row.getByRole("button", { name: /^Open: / }).count()) return true;
    await second.locator("#bays").click();
    return false;
  });
  await row.getByRole("button", { name: /^Open: / }).click();
  await isBack(second, first, "in the second tab, once the first is closed");
  await back(second).click();
  await until(second, "and back", 10, async () => (await kept(second)).hash === other.hash);
  assertQuiet(page);
});

pageTest("a tab that is a copy of another does not write its bay", desktop, async (page) => {
  const was = await visit(page);
  // What a browser copies into a duplicated tab.
  const copied = await page.evaluate(() => ({ ...sessionStorage }));
  const second = await page.context().newPage();
  await second.addInitScript((all) => Object.assign(sessionStorage, all), copied);
  await second.goto(address);
  await second.locator(".notice", { hasText: "is open in another tab" }).waitFor();
  await toggle(second, "Windows").click();
  same(await kept(page), was, "the first tab's");
  await second.close();
  assertQuiet(page);
});

pageTest("a page without locks gives each tab a bay of its own", desktop, async (page) => {
  await page.context().addInitScript(() => Object.defineProperty(Navigator.prototype, "locks", { value: undefined }));
  await page.reload();
  await run(page);
  const was = await visit(page);
  const id = (page) => page.evaluate(() => localStorage.getItem("lowside/last"));
  const first = await id(page);
  const second = await page.context().newPage();
  await second.goto(address);
  await isBack(second, was, "taken up as a copy");
  await toggle(second, "Windows").click();
  assert.equal((await kept(second)).log.length, 3);
  assert.notEqual(await id(second), first);
  await page.reload();
  await isBack(page, was, "the first tab has its own again");
  assert.equal(await id(page), first);
  assertQuiet(page);
});

pageTest("without a database the way back still leads back", desktop, async (page) => {
  await page.addInitScript(() => Object.defineProperty(window, "indexedDB", { value: { open: () => { throw new DOMException("no", "SecurityError"); } } }));
  await page.reload();
  await page.locator("#hose-tool").waitFor();
  page.complaints.length = 0;
  const was = await visit(page);
  await startOver(page);
  await back(page).click();
  await isBack(page, was, "in memory");
  await page.reload();
  await isBack(page, was, "and in its slot");
  assertQuiet(page);
});

pageTest("the head has room for it on a phone", phone, async (page) => {
  await visit(page);
  await startOver(page);
  await back(page).waitFor();
  await bays(page);
  await assertAccessible(page, "header");
  await back(page).click();
  await button(page, "Fresh can").waitFor();
  assertQuiet(page);
});

// 24 h is the longest take there is. The engine is off, so that the day is quick to play.
pageTest("after a day the bay pauses and says so, and can be saved and opened again", desktop, async (page) => {
  await toggle(page, "Windows").click();
  const was = await kept(page);
  const day = 24 * 3600 * 50;
  const started = Date.now();
  await openFile(page, { ...was, ticks: day - 100 });
  await page.locator(".notice", { hasText: "It does not end where it says" }).waitFor({ timeout: 150_000 });
  console.log(`a day is played in ${((Date.now() - started) / 1000).toFixed(0)} s`);
  assert.deepEqual(await paused(page), still);
  await speed(page, 30);
  await notice(page, "as long as one can be kept");
  assert.equal((await paused(page))[0], "true");
  await button(page, "+1 s").click();
  const full = await kept(page);
  assert.equal(full.ticks, day, "not a tick more");
  await page.reload();
  await page.locator("#hose-tool").waitFor({ timeout: 120_000 });
  await page.locator("#resuming").waitFor({ state: "detached", timeout: 120_000 });
  same(await kept(page), full, "taken up again");
  assertQuiet(page);
}, { limit: 400_000 });
