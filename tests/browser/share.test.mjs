// How a bay leaves the page and comes back: links, files, and the lines put aside. Same acts, same bits: the hash says so.
import assert from "node:assert/strict";
import { readFileSync } from "node:fs";
import { deflateRawSync, inflateRawSync } from "node:zlib";
import { assertAccessible, assertQuiet, desktop, pageTest } from "./harness.mjs";
import { keys, until } from "./keys.mjs";
import { drawer, keptText, shut, speed, start, startOver, withPage } from "./page.mjs";

const button = (page, name) => page.getByRole("button", { name, exact: true });
const toggle = (page, name) => page.getByRole("switch", { name, exact: true });
const checked = (page, name) => toggle(page, name).getAttribute("aria-checked");
const clock = (page) => page.locator(".clock [aria-hidden]").innerText();
const settings = (page) => drawer(page, "settings");
/** The take as the browser keeps it, saved anew first. */
const kept = async (page) => JSON.parse(await keptText(page));
const until_ = async (page, what, check) => until(page, what, 15, check);
/** As a browser packs a link. */
const packed = (text) => deflateRawSync(text).toString("base64url");
/** Somebody else, who finds the bay paused as it comes. */
const other = (path, use) => withPage(desktop, use, { path, reducedMotion: "reduce" });

async function download(page, press) {
  const [file] = await Promise.all([page.waitForEvent("download"), press()]);
  return { name: file.suggestedFilename(), path: await file.path() };
}

pageTest(
  "a link opens the same bay with the same units for somebody else, and a long one becomes a file",
  desktop,
  async (page) => {
    await settings(page);
    await button(page, "SI").click();
    await toggle(page, "Windows").click();
    await page.locator("#vehicle-more").click();
    await page.locator("#control-rpm").press("ArrowRight");
    await speed(page, 30);
    await until_(page, "some seconds", async () => (await kept(page)).ticks > 500);
    await page.locator(".pause").click();
    const [was, windows] = [await kept(page), await checked(page, "Windows")];
    await button(page, "Copy a link").click();
    const notice = await page.locator(".notice").innerText();
    const link = notice.match(/http\S+/)[0];
    assert.match(link, /#u=[\w.]+&k=[\w-]+$/, "packed");
    assert.ok(link.length < 600, `${link.length} characters`);
    assert.equal(await page.evaluate(() => navigator.clipboard.readText()), link);
    await other(link, async (there) => {
      await toggle(there, "Windows").waitFor();
      const found = await kept(there);
      assert.deepEqual([found.hash, found.ticks, found.scenario.name, found.log], [was.hash, was.ticks, was.scenario.name, was.log]);
      assert.equal(await checked(there, "Windows"), windows);
      assert.match(await keys(there).reading("Centre vent"), /\u00b0C$/, "in the units of who sent it");
      // Starting over returns to what the link began with.
      await startOver(there);
      const again = await kept(there);
      assert.deepEqual([again.scenario.name, again.ticks, again.log], [was.scenario.name, 0, []]);
      assertQuiet(there);
    });
    // Packed by another packer it is the same link.
    const [head, letters] = link.split("&k=");
    const text = inflateRawSync(Buffer.from(letters, "base64url")).toString();
    assert.equal(JSON.parse(text)[5], was.hash);
    await other(`${head}&k=${packed(text)}`, async (there) => {
      await toggle(there, "Windows").waitFor();
      await until_(there, "the same bay", async () => (await kept(there)).hash === was.hash);
    });
    // A link to what is not there, or broken, says so.
    await other(link.replace(/&k=.{8}/, "&k=*"), async (there) => {
      await there.getByText(/^This link could not be opened/).waitFor();
      assertQuiet(there);
    });

    // Too much was done for a link.
    await page.locator("#control-humidity").evaluate((slider) => {
      // Chance by a linear congruence (Park & Miller 1988): nothing that a packer makes short.
      for (let n = 1, chance = 7; n <= 900; n += 1) {
        chance = (chance * 16_807) % 2_147_483_647;
        slider.value = 10 + (chance % 86);
        slider.dispatchEvent(new Event("input", { bubbles: true }));
      }
    });
    await until_(page, "all of it is done", async () => (await kept(page)).log.length > 900);
    const long = await kept(page);
    // Said before it is done, and by how much.
    await button(page, "Copy a link").click();
    const told = page.locator(".notice", { hasText: /would have \d[\d\s,.]* characters/ });
    await told.waitFor();
    const file = await download(page, () => button(told, "Save as a file").click());
    assert.deepEqual(JSON.parse(readFileSync(file.path, "utf8")), long);
    await other("#s=charge-from-cans", async (there) => {
      await settings(there);
      await there.getByLabel("Open a saved file").setInputFiles(file.path);
      await until_(there, "the file is open", async () => (await kept(there)).hash === long.hash);
      assert.equal((await kept(there)).log.length, long.log.length);
      assert.equal(await there.locator("#bays").innerText(), "Healthy van, running", "the head names what the file began with");
      assertQuiet(there);
    });
    assertQuiet(page);
  },
  { path: "#s=healthy", permissions: ["clipboard-read", "clipboard-write"] },
);

pageTest(
  "a broken file is told and changes nothing",
  desktop,
  async (page) => {
    await button(page, "Take a can").click();
    await toggle(page, "Tap").click();
    await page.locator(".pause").click();
    await settings(page);
    const whole = readFileSync((await download(page, () => page.locator("#save-take").click())).path, "utf8");
    const take = JSON.parse(whole);
    const [refused, later] = [structuredClone(take), structuredClone(take)];
    // The tap is opened with no can there.
    refused.log.splice(0, 1);
    later.format = 99;
    for (const [what, text] of [
      ["no take", "not a take at all"],
      ["empty", ""],
      ["cut short", whole.slice(0, whole.length / 2)],
      ["of a later format", JSON.stringify(later)],
      ["of an act that is refused", JSON.stringify(refused)],
      ["out of range", JSON.stringify({ ...take, ticks: 1e12 })],
    ]) {
      const was = await kept(page);
      await page.getByLabel("Open a saved file").setInputFiles({ name: "take.json", mimeType: "application/json", buffer: Buffer.from(text) });
      await page.locator(".notice", { hasText: "This file could not be opened" }).waitFor();
      assert.equal(await checked(page, "Tap"), "true", what);
      const now = await kept(page);
      assert.deepEqual([now.hash, now.ticks, now.log], [was.hash, was.ticks, was.log], what);
      // The next one is another message, not the last one still standing.
      await toggle(page, "Turn over").click();
      await until_(page, "the message goes with the next act", async () => (await page.locator(".notice").count()) === 0);
      if ((await page.locator(".settings[open]").count()) === 0) await settings(page);
    }
    await page.locator("[role=status]", { hasText: "could not be opened" }).waitFor({ state: "attached" });
    assertQuiet(page);
  },
);

pageTest(
  "a file of an earlier version is played again, and one kind line says that its end cannot be compared",
  desktop,
  async (page) => {
    await button(page, "Take a can").click();
    await page.locator(".pause").click();
    await settings(page);
    const whole = readFileSync((await download(page, () => page.locator("#save-take").click())).path, "utf8");
    // As it was written then: it named no physics and had no seal.
    const { physics: _, seal: __, ...parts } = JSON.parse(whole);
    const take = { ...parts, format: 1, hash: "0".repeat(16) };
    const file = { name: "take.json", mimeType: "application/json", buffer: Buffer.from(JSON.stringify(take)) };
    await page.getByLabel("Open a saved file").setInputFiles(file);
    await page.locator(".notice", { hasText: "Another version of this program recorded it" }).waitFor();
    const now = await kept(page);
    assert.deepEqual([now.format, now.ticks, now.log], [2, take.ticks, take.log]);
    assertQuiet(page);
  },
);

pageTest(
  "a file of another physics opens without the act that is refused now, names it, and stays not comparable",
  desktop,
  async (page) => {
    await toggle(page, "Windows").click();
    await page.locator(".pause").click();
    await settings(page);
    const whole = readFileSync((await download(page, () => page.locator("#save-take").click())).path, "utf8");
    const { seal: _, ...take } = JSON.parse(whole);
    take.physics = "0123456789abcdef";
    take.log.push([take.ticks, { do: "tap", on: true }]);
    const open = (text) =>
      page.getByLabel("Open a saved file").setInputFiles({ name: "take.json", mimeType: "application/json", buffer: Buffer.from(text) });
    await open(JSON.stringify(take));
    await page.locator(".notice", { hasText: "One act is not possible any more and was left out: Tap" }).waitFor();
    const now = await kept(page);
    assert.deepEqual([now.mixed, now.ticks, now.log], [true, take.ticks, take.log.slice(0, -1)]);
    assert.notEqual(now.physics, take.physics);
    // An edit in passing is found by the seal.
    if ((await page.locator(".settings[open]").count()) === 0) await settings(page);
    await open(whole.replace('"windows"', '"engine"'));
    await page.locator(".notice", { hasText: "its seal no longer fits" }).waitFor();
    assertQuiet(page);
  },
);

pageTest(
  "lines put aside and joints apart outlive a reload, and the list names what was begun with",
  desktop,
  async (page) => {
    const k = keys(page);
    const course = page.getByLabel("Branch");
    const courses = () => course.locator("option").allInnerTexts();
    // Paused, so that nothing but what is done here goes on.
    await toggle(page, "Windows").click();
    await button(page, "+1 s").click();
    await button(page, "+1 s").click();
    await toggle(page, "Engine").click();
    await button(page, "+1 s").click();
    const [first, ended] = [await kept(page), await clock(page)];
    await page.getByRole("slider", { name: "Moment" }).fill("1");
    await toggle(page, "A/C").click();
    await button(page, "+1 s").click();
    await k.view("Parts");
    const joint = page.locator("section.parts").getByRole("button", { name: /^Joint evaporator \/ accumulator/ });
    await joint.click();
    await button(page.locator("section.parts"), "two wrenches").click();
    await button(page.locator("section.parts"), "Open").click();
    // The second press.
    await page.waitForTimeout(450);
    await button(page, "Do it all the same").click();
    await joint.filter({ hasText: ": open" }).waitFor();
    await button(page, "+1 s").click();
    const [second, before] = [await kept(page), await courses()];
    assert.equal(before.length, 2);

    await page.reload();
    await joint.filter({ hasText: ": open" }).waitFor();
    assert.equal(await page.locator("section.parts path.apart").count(), 1, "drawn apart");
    assert.deepEqual(await courses(), before);
    assert.equal((await kept(page)).hash, second.hash);
    await course.selectOption({ label: before[0] });
    await until_(page, "the first line", async () => (await kept(page)).hash === first.hash);
    assert.equal(await clock(page), ended);
    assert.equal(await page.locator(".joint.apart").count(), 0);
    // And back, after another reload; a third line counts on.
    await page.reload();
    await course.waitFor();
    assert.deepEqual(await courses(), before);
    await course.selectOption({ label: before[1] });
    await until_(page, "the second line", async () => (await kept(page)).hash === second.hash);
    await page.getByRole("slider", { name: "Moment" }).fill("1");
    await toggle(page, "Windows").click();
    assert.deepEqual((await courses()).slice(0, 2), before);
    assert.match((await courses())[2], /^3:/);

    // A job card is named while it is open, and started over with.
    const list = page.getByLabel("Start with");
    const shown = async () => {
      await drawer(page, "bays");
      const name = await list.evaluate((e) => e.selectedOptions[0].textContent);
      assert.equal(await page.locator("#bays").innerText(), name, "head and list agree");
      await shut(page);
      return name;
    };
    assert.equal(await shown(), "Healthy van, running");
    await k.view("Job");
    await button(page, "Open the job").click();
    const title = await page.locator("section.job h3").first().innerText();
    assert.equal(await shown(), title);
    await assertAccessible(page, "header");
    await toggle(page, "Windows").click();
    await button(page, "+1 s").click();
    await page.reload();
    await page.locator(".steps").waitFor();
    assert.equal(await shown(), title, "after a reload too");
    await startOver(page);
    assert.equal(await shown(), title);
    assert.equal(await page.locator(".steps").count(), 1, "the card is open, from its beginning");
    assert.deepEqual([(await kept(page)).ticks, await course.count()], [0, 0]);
    await start(page, "healthy");
    assert.equal(await shown(), "Healthy van, running");
    await k.view("Job");
    assert.equal(await page.locator(".steps").count(), 0);
    assertQuiet(page);
  },
  { path: "#s=healthy", reducedMotion: "reduce" },
);

pageTest(
  "a link to a bay that is not there says so and opens the first one",
  desktop,
  async (page) => {
    await page.getByRole("slider", { name: "Blower" }).waitFor();
    await page.getByText("This link could not be opened: there is no bay called \u201cnowhere\u201d here.").first().waitFor();
    assert.equal(await page.locator("#bays").innerText(), "Healthy van, running");
    assertQuiet(page);
    for (const [path, told] of [
      [`#s=healthy&t=5&l=${"A".repeat(200_000)}`, "it has 200000 characters, and a link has at most 1500: it was changed, or two were put together"],
      [`#k=${"A".repeat(5_000)}`, "it has 5003 characters, and a link has at most 1500: it was changed, or two were put together"],
      ["#k=!!!", "it is damaged or cut short; copy it whole"],
      ["#k=AAAA", "it is damaged or cut short; copy it whole"],
      [`#k=${packed(" ".repeat(1_000_000))}`, "unpacked it is larger than 65.5 kB, the most a link may hold"],
      [`#k=${packed("[2,2]")}`, "it is of version 2, which this page cannot read; a newer page may"],
      [`#k=${packed('[1,2,"s:nowhere",null,0,"",[],{}]')}`, "there is no bay called \u201cs:nowhere\u201d here"],
      [`#k=${packed('[1,2,"s:healthy",null,0,"",[0,"explode",0],{}]')}`, "its act 1 cannot be read"],
      ["#s=healthy&t=5&l=!!!", "its list of acts cannot be read"],
      ["#s=healthy&l=W10", "its length cannot be read"],
      [`#s=healthy&t=5&l=${btoa("[[0,{")}`, "its end is missing"],
    ])
      await other(path, async (there) => {
        await there.locator(".notice", { hasText: `This link could not be opened: ${told}.` }).waitFor();
        assert.equal(await there.getByText("last visit").count(), 0);
        assertQuiet(there);
      });
  },
  { path: "#s=nowhere&t=5&l=!!!" },
);
