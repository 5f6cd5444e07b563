// One thing seen in several views, cautions that come once, and the strip chart under the hand.
import assert from "node:assert/strict";
import { readFileSync } from "node:fs";
import { assertQuiet, desktop, pageTest } from "./harness.mjs";
import { keys, until } from "./keys.mjs";
import { drawer, pass } from "./page.mjs";

const picture = (sheet) => sheet.evaluate((c) => (c.localName === "canvas" ? c.toDataURL() : c.innerHTML));

pageTest(
  "a state point lights its part in the loop, the levels, its gauge and the charts, by pointer and by focus",
  desktop,
  async (page) => {
    const k = keys(page);
    await page.locator(".picker").waitFor();
    for (const view of ["Levels", "Parts", "Strip chart", "Cycle"]) await k.view(view);
    await page.locator(".pause").click();
    await pass(page, 150);
    const cycle = page.locator("section.plot");
    await cycle.locator("summary").click();
    const lit = page.locator("section.parts .part.lit");
    const dials = () => page.locator(".dial").evaluateAll((all) => all.map((d) => d.classList.contains("lit")));
    const sheets = { levels: page.locator(".levels canvas"), strip: page.locator("section.chart:not(.plot) .strip > div").last(), cycle: cycle.locator(".strip > div").last() };
    const pictures = async () => {
      // Longer than the strip chart waits between two drawings.
      await page.waitForTimeout(400);
      const all = {};
      for (const [name, sheet] of Object.entries(sheets)) all[name] = await picture(sheet);
      return all;
    };
    await page.mouse.move(2, 2);
    const dark = await pictures();
    const expects = async (how, part, gauges) => {
      await until(page, `${how}: ${part}`, 5, async () => (await lit.count()) === 1);
      assert.match(await lit.getAttribute("aria-label"), new RegExp(`^${part},`), how);
      assert.deepEqual(await dials(), gauges, how);
      const now = await pictures();
      for (const name of Object.keys(sheets)) assert.notEqual(now[name], dark[name], `${how}: ${name}`);
    };
    // By focus: a point's row.
    await cycle.getByRole("row", { name: /^discharge / }).focus();
    await expects("row of discharge", "Discharge (line|hose)", [true, false]);
    await cycle.getByRole("row", { name: /^suction / }).first().focus();
    await expects("row of suction", "Suction (line|hose)", [false, true]);
    await page.evaluate(() => document.activeElement.blur());
    await until(page, "nothing is lit", 5, async () => (await lit.count()) === 0);
    assert.deepEqual(await dials(), [false, false]);
    // By pointer: the point itself, found by sweeping along the chart.
    await sheets.cycle.scrollIntoViewIfNeeded();
    const box = await sheets.cycle.boundingBox();
    const found = new Set();
    const both = () => [true, false].every((high) => [...found].some((f) => f.endsWith(` ${high},${!high}`)));
    for (let y = 0.1; y < 0.95 && !both(); y += 0.05)
      for (let x = 0.1; x < 0.95 && !both(); x += 0.03) {
        await page.mouse.move(box.x + box.width * x, box.y + box.height * y);
        if (await lit.count()) found.add(`${(await lit.getAttribute("aria-label")).split(",")[0]} ${await dials()}`);
      }
    assert.ok(both(), `points on both sides: ${[...found].join("; ")}`);
    assertQuiet(page);
  },
  { path: "#s=healthy", limit: 120_000 },
);

pageTest(
  "each caution comes at its act, goes with its cause, and comes again until it is understood in this bay",
  desktop,
  async (page) => {
    const k = keys(page);
    const caution = page.locator(".caution strong");
    const count = (n, what) => until(page, what, 5, async () => (await caution.count()) === n);
    const acts = [
      ["the high valve while it runs", async () => (await k.push("High valve (red): open"), await k.sure()), () => k.push("High valve (red): shut")],
      ["a can", () => k.push(/^(Take a can|Fresh can)$/), () => page.locator("#control-removecan").press("Enter")],
      ["liquid to the suction", () => k.turn(true, "Turn over"), () => k.turn(false, "Turn over")],
      ["water too hot", async () => (await k.turn(true, "Water bath"), await page.locator("#bath-t").press("End"), await k.sure()), () => k.turn(false, "Water bath")],
      ["the belt", () => k.turn(true, "Engine"), () => k.turn(false, "Engine")],
    ];
    // Of these the can's stands while it hangs there, and is put away first.
    const eyes = async () => {
      await k.push(/^Take a can$/);
      await page.getByRole("button", { name: /^Understood/ }).press("Enter");
    };
    await page.locator(".pause").press("Enter");
    const titles = new Set();
    for (const [what, act, back] of acts) {
      if (what === "liquid to the suction") await eyes();
      if (what === "the belt") await k.turn(false, "Engine");
      await count(0, `before ${what}`);
      let title;
      // Not understood, it goes with its cause and comes again with it.
      for (const time of what === "a can" ? [1] : [1, 2]) {
        await act();
        await count(1, `${what}, time ${time}`);
        title = await caution.innerText();
        assert.ok((await page.locator(".caution p").innerText()).length > title.length + 40, "it says why and what to do");
        if (what === "the belt") continue;
        await back();
        await count(0, `after ${what}, time ${time}`);
      }
      assert.ok(!titles.has(title), `${what}: ${title} came before`);
      titles.add(title);
      if (what === "the belt" || what === "a can") continue;
      // Taken back, the act takes its caution with it.
      await act();
      await count(1, `${what} once more`);
      for (let n = 0; n < 3 && (await caution.count()) > 0; n += 1) await k.push("Undo");
      await count(0, `${what} taken back`);
      await act();
      await page.getByRole("button", { name: /^Understood/ }).press("Enter");
      await back();
      await act();
      await page.waitForTimeout(150);
      assert.equal(await caution.count(), 0, `${what}, understood`);
      await back();
    }
    // Another bay, another reader.
    assert.deepEqual(await page.evaluate(() => Object.keys(localStorage).filter((key) => /caution/.test(key))), []);
    await drawer(page, "bays");
    await page.getByLabel("Start with").selectOption("healthy-crossover");
    await page.locator("#open-start").press("Enter");
    await page.locator(".pause").press("Enter");
    await k.push(/^Take a can$/);
    await count(1, "a can in another bay");
    const text = await page.locator(".caution p").innerText();
    assert.match(text, /R-1234yf boils at \u221229\.\d \u00b0C/, "its own boiling point");
    assert.match(text, /burns \(mildly flammable, class A2L/);
    assertQuiet(page);
  },
  { path: "#s=healthy", limit: 120_000 },
);

pageTest(
  "the strip chart is zoomed, moved and read by pointer and buttons, and its files hold what is seen",
  desktop,
  async (page) => {
    const k = keys(page);
    await page.locator(".picker").waitFor();
    await k.view("Strip chart");
    await page.locator(".pause").click();
    await pass(page, 490);
    const section = page.locator("section.chart:not(.plot)");
    const sheet = section.locator(".strip > div").last();
    const read = section.locator(".read");
    const push = (name) => section.getByRole("button", { name, exact: true }).click();
    await section.locator("summary").click();
    // Lengths and moments of what is shown, in seconds, from the file and from the table.
    const seconds = (text) => text.split(":").reduce((all, part) => all * 60 + Number(part), 0);
    const csv = async () => {
      const [file] = await Promise.all([page.waitForEvent("download"), push("CSV")]);
      const rows = readFileSync(await file.path(), "utf8").trim().split("\n").map((line) => line.split(",").map((cell) => cell.replaceAll('"', "")));
      return { head: rows[0], rows: rows.slice(1) };
    };
    const shown = async () => {
      await page.waitForTimeout(300);
      const times = await section.locator("tbody th").allInnerTexts();
      return [seconds(times[0]), seconds(times.at(-1))];
    };
    await push("3 min");
    const [from, to] = await shown();
    assert.ok(Math.abs(to - from - 180) <= 25, `three minutes: ${from} to ${to}`);
    await push("Closer");
    const closer = await shown();
    assert.ok(Math.abs(closer[1] - closer[0] - 90) <= 15 && Math.abs(closer[1] - to) <= 10, `half of it, up to now: ${closer}`);
    await push("Wider");
    await push("Earlier");
    const earlier = await shown();
    assert.ok(Math.abs(earlier[1] - (to - 90)) <= 15, `half a window back: ${earlier}`);
    // Dragged to the right, it shows what was before.
    const box = await sheet.boundingBox();
    const at = (x) => [box.x + box.width * x, box.y + box.height * 0.4];
    await page.mouse.move(...at(0.4));
    await page.mouse.down();
    await page.mouse.move(...at(0.5));
    await page.mouse.move(...at(0.65));
    await page.mouse.up();
    const dragged = await shown();
    assert.ok(dragged[1] < earlier[1] - 20, `${dragged} after ${earlier}`);
    // The cursor reads what the file says of that moment.
    await page.mouse.move(...at(0.5));
    await until(page, "the cursor reads", 5, async () => (await read.innerText()) !== "");
    const [, time, low, high, vent] = (await read.innerText()).match(/^([\d:]+): low (\S+) psig, high (\S+) psig, vent (\S+) \u00b0F/);
    const { head, rows } = await csv();
    assert.ok(head.length === 7 && rows.length > 100, `${head}: ${rows.length} rows`);
    const row = rows.reduce((best, r) => (Math.abs(seconds(r[0]) - seconds(time)) < Math.abs(seconds(best[0]) - seconds(time)) ? r : best));
    assert.ok(Math.abs(seconds(row[0]) - seconds(time)) <= 2, `${row[0]} for ${time}`);
    for (const [cell, value, off] of [[1, low, 1], [2, high, 2], [3, vent, 0.5]]) assert.ok(Math.abs(Number.parseFloat(row[cell]) - Number(value)) <= off, `${head[cell]}: ${row[cell]} for ${value}`);
    await push("now");
    const now = await shown();
    assert.ok(Math.abs(now[1] - to) <= 2, "back to now");
    assertQuiet(page);
  },
  { path: "#s=healthy", limit: 120_000 },
);
