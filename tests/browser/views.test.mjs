// The views of the middle: opened and closed, linked, opened inside, read by keyboard, saved as files, and fast with all of them.
import assert from "node:assert/strict";
import { readFileSync } from "node:fs";
import { assertAccessible, assertNoSidewaysScroll, assertQuiet, desktop, pageTest, phone } from "./harness.mjs";
import { keys, until } from "./keys.mjs";
import { door, drawer, chooseLanguage, pass, run, speed, start } from "./page.mjs";

const VIEWS = ["Levels", "Parts", "Strip chart", "Cycle", "Air", "Boiling point", "Vacuum"];
const CHARTS = VIEWS.slice(3);
/** Share of a screen that the loop covers at least. */
const LOOP = 0.18;
const narrow = { name: "narrow", viewport: { width: 320, height: 640 } };

const picker = (page, name) => page.locator(".picker").getByRole("button", { name, exact: true });
const part = (page, name) => page.locator("section.parts").getByRole("button", { name: new RegExp(`^${name},`) });
const button = (page, name) => page.getByRole("button", { name, exact: true });

/** Leaves only the named views open. */
async function show(page, ...names) {
  for (const view of VIEWS) {
    const it = picker(page, view);
    if ((await it.getAttribute("aria-pressed")) !== String(names.includes(view))) await it.click();
  }
}

/** The healthy van after some minutes. */
async function running(page) {
  await start(page, "healthy", { running: false });
  await pass(page, 200);
  await run(page);
}

/** How much is painted: pixels of a canvas; of a chart the lengths of its lines and texts that lie within it, in pixels. */
const painted = (sheet) =>
  sheet.evaluate((c) => {
    if (c.localName !== "canvas") {
      const all = c.getBoundingClientRect();
      const within = (b) => b.left >= all.left - 2 && b.right <= all.right + 2 && b.top >= all.top - 2 && b.bottom <= all.bottom + 2;
      const boxes = [...c.querySelectorAll("svg > *")].map((e) => e.getBoundingClientRect());
      return boxes.filter(within).reduce((sum, b) => sum + b.width + b.height, 0);
    }
    const { data } = c.getContext("2d").getImageData(0, 0, c.width, c.height);
    let n = 0;
    for (let k = 3; k < data.length; k += 4) if (data[k] > 0) n += 1;
    return n;
  });

pageTest("every place of the ledger has a name of its own", desktop, async (page) => {
  const rows = page.locator(".ledger tbody th");
  await page.locator(".ledger summary").click();
  const names = await rows.allInnerTexts();
  assert.ok(names.length > 12, `${names.length} places`);
  assert.deepEqual(names.filter((name, k) => names.indexOf(name) !== k), []);
});

/** What one frame of the drawing of levels writes: each text with its box, in its own pixels, and the drawing's height. */
const letters = (page) =>
  page.evaluate(async () => {
    const canvas = document.querySelector(".levels canvas");
    const context = canvas.getContext("2d");
    const scale = canvas.width / canvas.clientWidth;
    const at = (x, y) => new DOMPoint(x, y).matrixTransform(context.getTransform());
    const frame = () =>
      new Promise((done) => {
        const texts = [];
        context.clearRect = (...box) => {
          CanvasRenderingContext2D.prototype.clearRect.apply(context, box);
          if (texts.length) {
            delete context.fillText;
            delete context.clearRect;
            done(texts);
          }
        };
        context.fillText = (text, x, y) => {
          CanvasRenderingContext2D.prototype.fillText.call(context, text, x, y);
          const { width } = context.measureText(text);
          const size = Number.parseFloat(context.font.match(/([\d.]+)px/)[1]);
          const p = at(x, y);
          const left = p.x / scale - { left: 0, center: width / 2, right: width }[context.textAlign];
          // Capitals and stems are some 0.7 of the size high, the middle of which is the place.
          texts.push({ text, left, right: left + width, top: p.y / scale - 0.36 * size, bottom: p.y / scale + 0.36 * size });
        };
      });
    return { texts: await frame(), height: canvas.clientHeight };
  });

/** The letters once none has moved by half a pixel for a third of a second; at the latest after a second and a half. */
async function settled(page) {
  const end = Date.now() + 1200;
  const still = (a, b) => a.text === b?.text && Math.abs(a.top - b.top) < 0.5;
  const near = (a, b) => a.texts.length === b.texts.length && a.texts.every((text, k) => still(text, b.texts[k]));
  await page.waitForTimeout(300);
  let was = await letters(page);
  for (;;) {
    await page.waitForTimeout(330);
    const now = await letters(page);
    if (near(was, now) || Date.now() > end) return now;
    was = now;
  }
}

/** Asserts that no letters of the drawing of levels touch others or run out of it; gives its texts. */
async function assertApart(page, when) {
  await page.locator(".levels").scrollIntoViewIfNeeded();
  const { texts, height } = await settled(page);
  for (const [k, a] of texts.entries()) {
    assert.ok(a.top > 0 && a.bottom < height, `${when}: "${a.text}" lies at ${a.top} of ${height} px`);
    for (const b of texts.slice(k + 1))
      assert.ok(
        a.right < b.left || b.right < a.left || a.bottom < b.top || b.bottom < a.top,
        `${when}: "${a.text}" touches "${b.text}"`,
      );
  }
  return texts.map(({ text }) => text).join(" ");
}

for (const window of [desktop, phone])
  for (const [language, tag, connect, tools] of [
    ["English", "en", "Connect", { 7: "nitrogen", 3: "recovery machine", 6: "charging cylinder", 4: "vacuum pump" }],
    ["Spanish", "es", "Conectar", { 7: "nitr\u00f3geno", 3: "recuperadora", 6: "cilindro de carga", 4: "bomba de vac\u00edo" }],
  ])
    pageTest(`the drawing of levels says what hangs on the hose, letters apart, in ${language}`, window, async (page) => {
      await chooseLanguage(page, tag);
      await page.getByRole("button", { name: connect, exact: true }).waitFor();
      for (const [value, name] of Object.entries(tools)) {
        await page.locator("#hose-tool").selectOption(value);
        await page.getByRole("button", { name: connect, exact: true }).click();
        // A long name stands in two rows.
        const texts = await assertApart(page, name);
        assert.ok(texts.includes(name), `${name}: ${texts}`);
      }
      await page.evaluate(() => (location.hash = "#s=healthy"));
      await page.locator(".notice").waitFor();
      const bare = await assertApart(page, "with nothing on the hose");
      assert.ok(!Object.values(tools).some((name) => bare.includes(name)), bare);
      // Opened to the room the loop stands at 0 psig.
      await done(page, 6000, [{ do: "open-joint", joint: "compressor-in" }, { do: "take-can" }]);
      await assertApart(page, "at the atmosphere");
      assertQuiet(page);
    });

/** Opens a link to the evacuated van with these acts at its start, so many ticks later. */
async function done(page, ticks, acts) {
  const log = Buffer.from(JSON.stringify(acts.map((act) => [0, act]))).toString("base64url");
  const link = `#s=charge-from-cans&u=psi.f.oz.us&t=${ticks}&h=0&l=${log}`;
  await page.evaluate((hash) => (location.hash = hash), link);
  await page.locator("#resuming").waitFor({ state: "attached" }).catch(() => undefined);
  await page.locator("#hose-tool").waitFor({ state: "attached" });
}

/** Share of the screen that the loop covers: pixels of what it holds, its parts and lines, without ground, text, hoses and flags. */
const covered = (page) =>
  page.evaluate(async () => {
    const probe = document.body.appendChild(document.createElement("i"));
    const pen = document.createElement("canvas").getContext("2d");
    /** A colour of the style sheet as a canvas writes it. */
    const colour = (name) => {
      probe.style.color = `var(${name})`;
      pen.fillStyle = getComputedStyle(probe).color;
      return pen.fillStyle;
    };
    const [sheet, ...apart] = ["--sheet", "--low", "--high", "--service", "--rule"].map(colour);
    const canvas = document.querySelector(".levels canvas");
    const context = canvas.getContext("2d");
    const own = CanvasRenderingContext2D.prototype;
    context.fillText = context.strokeText = () => undefined;
    for (const [act, style] of [["fill", "fillStyle"], ["fillRect", "fillStyle"], ["stroke", "strokeStyle"]])
      context[act] = (...how) => apart.includes(context[style]) || own[act].apply(context, how);
    for (let k = 0; k < 4; k += 1) await new Promise(requestAnimationFrame);
    probe.remove();
    const { data } = context.getImageData(0, 0, canvas.width, canvas.height);
    const ground = [1, 3, 5].map((k) => Number.parseInt(sheet.slice(k, k + 2), 16));
    let n = 0;
    for (let k = 0; k < data.length; k += 4)
      if (data[k + 3] > 0 && ground.some((part, c) => Math.abs(data[k + c] - part) > 3)) n += 1;
    for (const act of ["fillText", "strokeText", "fill", "fillRect", "stroke"]) delete context[act];
    return n / (innerWidth * innerHeight * devicePixelRatio ** 2);
  });

pageTest("the loop is the hero of the screen", desktop, async (page) => {
  await running(page);
  const share = await covered(page);
  console.log(`the loop covers ${(100 * share).toFixed(1)} % of the screen`);
  assert.ok(share >= LOOP, `${share} of the screen`);
  assertQuiet(page);
});

pageTest("a flag ends each line with its gauge's figure, tied to the dial beside it", desktop, async (page) => {
  await running(page);
  const tied = (side) => page.locator(`.ties .${side}`).getAttribute("d");
  const texts = async () => (await letters(page)).texts.map(({ text }) => text);
  const readings = await page.locator(".dial strong").evaluateAll((all) => all.map((e) => Number.parseFloat(e.textContent)));
  for (const reading of readings) assert.ok((await texts()).includes(String(reading)), `${reading}: ${await texts()}`);
  await until(page, "both are tied", 5, async () => Boolean((await tied("low")) && (await tied("high"))));
  // Off its port a gauge reads no line.
  await page.getByRole("switch", { name: /^High coupler/ }).click();
  await until(page, "the high line has no flag", 5, async () => !(await tied("high")) && Boolean(await tied("low")));
  // Nor is a flag tied that has been scrolled out of sight: its line would lead over what stands above.
  await page.locator(".picker").getByRole("button", { name: "Parts", exact: true }).click();
  await until(page, "no line leads out of sight", 5, async () => !(await tied("low")));
  assertQuiet(page);
});

pageTest("the line of the outside air is dragged, one act on release", desktop, async (page) => {
  await running(page);
  const outside = page.getByLabel("Outside air", { exact: true });
  assert.equal(await outside.inputValue(), "35");
  const sheet = page.locator(".levels canvas");
  await sheet.scrollIntoViewIfNeeded();
  const box = await sheet.boundingBox();
  const { texts } = await settled(page);
  // The line lies between the marks of 88 and 112 degF, as far as its 95.
  const mark = (degrees) => texts.find(({ text }) => text === `${degrees}\u00b0`);
  const [below, above] = [mark(88), mark(112)].map(({ top, bottom }) => (top + bottom) / 2);
  const line = box.y + below + ((95 - 88) / (112 - 88)) * (above - below);
  const x = box.x + box.width / 2;
  await page.mouse.move(x, line);
  await page.mouse.down();
  await page.mouse.move(x, line - 12, { steps: 4 });
  await page.mouse.move(x, line - 24, { steps: 4 });
  await page.waitForTimeout(400);
  assert.equal(await outside.inputValue(), "35", "nothing is done while the hand holds it");
  await page.mouse.up();
  await until(page, "the day is hotter", 5, async () => Number(await outside.inputValue()) > 38);
  await button(page, "Undo").click();
  await until(page, "one act is taken back", 5, async () => (await outside.inputValue()) === "35");
  assertQuiet(page);
});

pageTest("the can's tap is dragged, one act on release", desktop, async (page) => {
  const tap = page.locator("#control-tap");
  const open = () => tap.getAttribute("aria-checked");
  await button(page, "Take a can").click();
  await tap.waitFor();
  await settled(page);
  const sheet = page.locator(".levels canvas");
  await sheet.scrollIntoViewIfNeeded();
  // What can be pressed shows by the pointer; the tap beside the can is leftmost. A caution that comes makes the drawing smaller.
  const seen = () => sheet.evaluate(async (sheet) => {
    const { left, top, height } = sheet.getBoundingClientRect();
    const spots = [];
    for (let x = 4; x < 320; x += 6)
      for (let y = 6; y < height; y += 6) {
        sheet.dispatchEvent(new MouseEvent("mousemove", { clientX: left + x, clientY: top + y, bubbles: true }));
        await null;
        if (sheet.style.cursor !== "pointer") continue;
        const spot = spots.find((all) => Math.hypot(all[0][0] - x, all[0][1] - y) < 44);
        if (spot) spot.push([x, y]);
        else spots.push([[x, y]]);
      }
    return spots[0]?.length ? [0, 1].map((k) => spots[0].reduce((sum, at) => sum + at[k], 0) / spots[0].length) : null;
  });
  // The can is drawn a frame after its row stands among the controls.
  const drag = async (by, meanwhile) => {
    let spot = null;
    await until(page, "the tap is drawn", 5, async () => (await settled(page), (spot = await seen()) !== null));
    const [box, [x, y]] = [await sheet.boundingBox(), spot];
    await page.mouse.move(box.x + x, box.y + y);
    await page.mouse.down();
    await page.mouse.move(box.x + x, box.y + y + by, { steps: 6 });
    await page.waitForTimeout(300);
    await meanwhile();
    await page.mouse.up();
  };
  assert.equal(await open(), "false");
  await drag(-50, async () => assert.equal(await open(), "false", "nothing is done while the hand holds it"));
  await until(page, "the tap is open", 5, async () => (await open()) === "true");
  // Pulled further up it stays as it is, and nothing is noted.
  await drag(-50, async () => undefined);
  await drag(50, async () => assert.equal(await open(), "true"));
  await until(page, "the tap is shut", 5, async () => (await open()) === "false");
  await button(page, "Undo").click();
  await until(page, "one act is taken back", 5, async () => (await open()) === "true");
  await button(page, "Undo").click();
  await until(page, "and the other", 5, async () => (await open()) === "false");
  await button(page, "Undo").click();
  await until(page, "there was no third: the can is off", 5, async () => (await tap.count()) === 0);
  assertQuiet(page);
}, { running: false, reducedMotion: "reduce" });

pageTest("a guess is asked first, and the bay says what came", desktop, async (page) => {
  await running(page);
  await button(page, "Guess, then see").click();
  const guess = page.locator(".guess.open");
  assert.equal(await guess.locator("option").count(), 10);
  assert.equal(await guess.locator(".came").count(), 0, "no answer before the guess");
  await assertAccessible(page);
  await button(guess, "climbs").click();
  await guess.getByText(/^Right: the high side climbs, from 2\d\d psig to 2\d\d psig, because/).waitFor();
  await guess.getByText("Asked of this bay as it stands.").waitFor();
  assert.ok(await button(guess, "falls").isDisabled(), "a guess is made once");
  // Nothing happened to the bay itself, until it is done there.
  const outside = page.getByLabel("Outside air", { exact: true });
  assert.equal(await outside.inputValue(), "35");
  await button(guess, "Do it in this bay").click();
  await until(page, "the day is hotter", 5, async () => (await outside.inputValue()) === "45");
  await guess.getByRole("combobox").selectOption({ index: 4 });
  await button(guess, "climbs").click();
  await guess.getByText(/^Guess again next time: the low side stays, at \d+ psig against \d+ psig/).waitFor();
  assertQuiet(page);
});

pageTest("a vacuum in the strip chart moves no button to another row, in either language", desktop, async (page) => {
  const pump = [{ do: "take-pump", speed: "4 cfm" }, { do: "pump", on: true }, { do: "isolation", on: true }];
  await done(page, 3000, pump);
  await picker(page, "Strip chart").click();
  const title = page.locator("#chart-title");
  for (const language of ["en", "es"]) {
    await chooseLanguage(page, language);
    await title.locator(".trace-vacuum").waitFor();
    const middles = await title.locator("button").evaluateAll((all) =>
      all.map((e) => (e.getBoundingClientRect().top + e.getBoundingClientRect().bottom) / 2),
    );
    assert.equal(middles.length, 9);
    assert.ok(Math.max(...middles) - Math.min(...middles) < 2, `${language}: ${middles}`);
  }
  assertQuiet(page);
});

for (const window of [phone, { name: "phone-sized window", viewport: phone.viewport }])
  pageTest("the buttons of the head are of one height", window, async (page) => {
    const all = page.locator(".top :is(.pause, #speed, #help-button, #bays, #settings)");
    const heights = await all.evaluateAll((all) => all.map((e) => e.getBoundingClientRect().height));
    assert.ok(heights.length >= 5, `${heights}`);
    assert.ok(Math.max(...heights) - Math.min(...heights) < 1, `${heights}`);
  });

pageTest("three views at most stand open at first, the choice is kept", desktop, async (page) => {
  await page.getByRole("heading", { level: 1 }).waitFor();
  const open = await page.locator(".picker [aria-pressed=true]").allInnerTexts();
  assert.ok(open.length <= 3 && open.includes("Levels"), open.join());
  await show(page, "Parts", "Cycle");
  await page.reload();
  await page.locator("section.parts").waitFor();
  assert.deepEqual(await page.locator(".picker [aria-pressed=true]").allInnerTexts(), ["Parts", "Cycle"]);
  assertQuiet(page);
});

for (const window of [desktop, phone, narrow])
  pageTest(
    "every view is drawn, accessible and fits",
    window,
    async (page) => {
      await running(page);
      for (const view of VIEWS) {
        await show(page, view);
        const sheet = page.locator(".middle :is(canvas, .strip > div)").last();
        await until(page, `${view} is drawn`, 10, async () => (await painted(sheet)) > 200);
        await assertNoSidewaysScroll(page);
        await assertAccessible(page);
      }
      // Closed and opened again, axes and all.
      await show(page, "Strip chart");
      await page.locator(".strip > div").first().waitFor();
      for (const sheet of await page.locator(".strip > div").all())
        await until(page, "the strip chart is drawn again", 10, async () => (await painted(sheet)) > 200);
      assertQuiet(page);
    },
    { limit: 120_000 },
  );

pageTest("a part pointed at lights up in the other drawing", desktop, async (page) => {
  await running(page);
  await show(page, "Levels", "Parts");
  const levels = page.locator(".levels canvas");
  await levels.scrollIntoViewIfNeeded();
  const box = await levels.boundingBox();
  const lit = page.locator("section.parts .part.lit");
  const found = new Set();
  for (let y = 0.1; y < 1; y += 0.08)
    for (let x = 0.16; x < 0.95; x += 0.06) {
      await page.mouse.move(box.x + box.width * x, box.y + box.height * y);
      if (await lit.count()) found.add((await lit.getAttribute("aria-label")).split(",")[0]);
    }
  for (const name of ["Condenser", "Evaporator", "Accumulator", "Compressor"]) assert.ok(found.has(name), [...found].join());
  await page.mouse.move(5, 5);
  // The other way: the drawing of levels is painted otherwise.
  await button(page, "\u2016 Pause").click();
  const picture = () => levels.evaluate((c) => c.toDataURL());
  await page.waitForTimeout(300);
  const before = await picture();
  await part(page, "Condenser").focus();
  await page.waitForTimeout(300);
  assert.notEqual(await picture(), before);
  assertQuiet(page);
});

pageTest("parts open by keyboard, show figures, and stay shut while the loop is closed", desktop, async (page) => {
  await running(page);
  await show(page, "Parts");
  const inside = page.locator(".inside");
  for (const name of ["Compressor", "Condenser", "Orifice tube", "Evaporator", "Accumulator", "Suction line", "Low hose"]) {
    const it = part(page, name);
    await it.focus();
    await page.keyboard.press("Enter");
    await inside.getByRole("heading", { name }).waitFor();
    assert.ok((await inside.locator("dd").count()) >= 3, name);
  }
  await part(page, "Accumulator").focus();
  await page.keyboard.press("Enter");
  const level = await inside.locator("div", { hasText: "Liquid level" }).locator("dd").last().innerText();
  assert.match(level, /^\d+ %$/);
  await assertAccessible(page);
  await button(page, "Close the loop").click();
  await inside.getByText(/from outside/).waitFor();
  assert.equal(await inside.locator("dd").count(), 0);
  assert.ok(await page.locator("section.parts canvas").isHidden(), "what flows inside is not seen");
  const told = await page.locator("section.parts .sheet").textContent();
  assert.doesNotMatch(told, /Btu|hp/, "nor heat and power");
  await assertAccessible(page);
  await button(page, "Close it").click();
  assert.equal(await inside.count(), 0);
  assertQuiet(page);
});

pageTest("every chart has its table and is saved as SVG, PNG and CSV", desktop, async (page) => {
  await running(page);
  for (const view of [...CHARTS, "Strip chart"]) {
    // The browser drops the eleventh file of a burst; it counts anew after a second.
    await page.waitForTimeout(1_200);
    await show(page, view);
    const section = page.locator("section.chart");
    await section.locator("summary").click();
    await section.locator("table tbody tr").nth(1).waitFor();
    for (const [kind, right] of [
      ["SVG", (data) => /^<svg[^]*<text/.test(data.toString())],
      ["PNG", (data) => data.subarray(1, 4).toString() === "PNG" && data.length > 5_000],
      ["CSV", (data) => data.toString().split("\n").length > 10 && /^"?[\w ]+.*,/.test(data.toString())],
    ]) {
      const [download] = await Promise.all([page.waitForEvent("download"), button(section, kind).click()]);
      assert.match(download.suggestedFilename(), new RegExp(`^lowside-[a-z]+\\.${kind.toLowerCase()}$`));
      assert.ok(right(readFileSync(await download.path())), `${view} as ${kind}`);
    }
  }
  await show(page, "Cycle");
  await page.locator("section.chart summary").click();
  for (const name of ["suction", "discharge", "before the orifice", "subcooling"])
    await page.getByRole("row", { name: new RegExp(`^${name} `) }).first().waitFor();
  assertQuiet(page);
});

pageTest("the strip chart reads, moves and zooms by keyboard", desktop, async (page) => {
  await running(page);
  await show(page, "Strip chart");
  await page.locator(".strip").focus();
  const read = page.locator(".strip .read");
  for (let k = 0; k < 10; k += 1) await page.keyboard.press("ArrowLeft");
  await page.waitForTimeout(300);
  const first = await read.innerText();
  assert.match(first, /^\d+:\d\d: low \d+ psig, high \d+ psig, vent [\d.]+ \u00b0F, cabin [\d.]+ \u00b0F$/);
  for (let k = 0; k < 3; k += 1) await page.keyboard.press("+");
  await page.keyboard.press("Shift+ArrowLeft");
  await page.waitForTimeout(300);
  assert.notEqual(await read.innerText(), first);
  assert.ok(await page.getByRole("button", { name: "now", exact: true }).isEnabled());
  await page.locator(".strip").focus();
  await page.keyboard.press("End");
  await page.waitForTimeout(300);
  assert.ok(await page.getByRole("button", { name: "now", exact: true }).isDisabled());
  assertQuiet(page);
});

pageTest("the notes tell what the drawing of levels shows", desktop, async (page) => {
  const notes = page.getByRole("list", { name: "What it shows" });
  await notes.getByText(/water boils/).waitFor();
  await button(page, "Low valve (blue): open").click();
  // A vacuum behind an open hose: the second press.
  await keys(page).sure();
  await notes.getByText(/air falls in/).waitFor();
  await start(page, "healthy");
  await notes.getByText(/above the outside air/).waitFor();
  await page.getByRole("switch", { name: "Engine" }).click();
  await speed(page, 60);
  await notes.getByText(/thermometer/).waitFor({ timeout: 20_000 });
  assertQuiet(page);
});

pageTest("gauges grow large and remember the last minute", desktop, async (page) => {
  await running(page);
  const size = () => page.locator(".dial strong").first().evaluate((e) => Number.parseFloat(getComputedStyle(e).fontSize));
  assert.ok((await page.locator(".dial .memory").count()) === 2);
  await door(page, "class");
  await button(page, "Large gauges").click();
  assert.ok((await size()) >= 60, `${await size()} px`);
  await assertAccessible(page);
  await assertNoSidewaysScroll(page);
  assertQuiet(page);
});

pageTest("sounds are off until asked for, and then play", desktop, async (page) => {
  await page.addInitScript(() => {
    window.made = 0;
    // What the page asks for, not what comes of it: a machine without a sound device never gets to play.
    window.asked = [];
    window.AudioContext = class extends window.AudioContext {
      constructor(...all) {
        super(...all);
        window.made += 1;
      }
      resume() {
        window.asked.push("play");
        return super.resume();
      }
      suspend() {
        window.asked.push("rest");
        return super.suspend();
      }
    };
  });
  await page.reload();
  await running(page);
  await drawer(page, "settings");
  const sound = button(page, "Sound");
  assert.equal(await sound.getAttribute("aria-pressed"), "false");
  assert.equal(await page.evaluate(() => window.made), 0);
  await sound.click();
  await page.waitForFunction(() => window.made === 1 && window.asked.join() === "play");
  await sound.click();
  await page.waitForFunction(() => window.asked.join() === "play,rest");
  assertQuiet(page);
});

for (const name of ["Healthy compact car, running", "Healthy crossover, running", "Van before its conversion, on R-12"])
  pageTest(`the page starts with: ${name}`, desktop, async (page) => {
    await start(page, { label: name });
    await show(page, "Parts", "Cycle");
    await pass(page, 75);
    await page.locator("section.chart summary").click();
    await page.getByRole("row", { name: /^discharge / }).waitFor();
    assertQuiet(page);
  });

pageTest("whatever views open, the page itself stays where it is, head and foot in sight", desktop, async (page) => {
  const shut = () => page.locator(".picker button[aria-pressed=false]");
  const whole = async (what) => {
    await page.waitForTimeout(300);
    const stands = await page.evaluate(() => [document.documentElement.scrollTop, document.documentElement.scrollHeight - innerHeight]);
    assert.deepEqual(stands, [0, 0], `${what} moved the page, or made it taller than its window`);
  };
  await button(page, "Open the whole sheet").click();
  await page.locator(".steps").waitFor();
  await whole("the whole sheet");
  while ((await shut().count()) > 0) {
    const name = await shut().first().innerText();
    await shut().first().click();
    await settled(page);
    await whole(name);
  }
  assertQuiet(page);
}, { path: "#c=1-first-charge", running: false });
