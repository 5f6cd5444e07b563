// Keys: the sheet lists each, each listed one works, and single ones can be switched off.
import assert from "node:assert/strict";
import { assertQuiet, desktop, pageTest } from "./harness.mjs";
import { until } from "./keys.mjs";
import { address, speed } from "./page.mjs";

pageTest(
  "every key on the sheet works, and single ones can be switched off",
  desktop,
  async (page) => {
    const pause = page.locator(".pause");
    const paused = () => pause.getAttribute("aria-pressed");
    const clock = () => page.locator(".clock [aria-hidden]").innerText();
    const speed = () => page.locator("#speed").inputValue();
    const windows = () => page.locator("#control-windows").getAttribute("aria-checked");
    const humidity = () => page.locator("#control-humidity").inputValue();
    const said = () => page.locator("#app [role=status]").textContent();
    const help = () => page.locator(".help").count();
    /** Nothing has the focus. */
    const nowhere = () => page.evaluate(() => document.activeElement?.blur?.());
    const press = async (key) => {
      await nowhere();
      await page.keyboard.press(key);
    };
    const becomes = (what, read, want) => until(page, what, 5, async () => (await read()) === want);
    const changes = async (what, read, key) => {
      const was = await read();
      await press(key);
      await until(page, what, 5, async () => (await read()) !== was);
    };

    /** Closes the sheet of keys. The focus goes back to its button, a moment later; until then a key pressed would work that. */
    const shut = async () => {
      await page.keyboard.press("Escape");
      await page.locator("#help-button:focus").waitFor();
    };

    await page.locator("#control-windows").waitFor();
    /** What each key of the sheet is to do, by the name it has there. */
    const works = {
      Space: async () => {
        await changes("it runs", paused, "Space");
        await changes("it pauses", paused, "Space");
      },
      ".": () => changes("a second passes", clock, "."),
      "[": () => changes("slower", speed, "["),
      "]": () => changes("faster", speed, "]"),
      R: async () => {
        await press("r");
        await until(page, "the readings are read", 5, async () => /psig|gauge/.test(await said()));
      },
      "?": async () => {
        const was = await help();
        await changes("the sheet opens or closes", help, "?");
        await changes("and back", help, "?");
        assert.equal(await help(), was);
      },
      "Ctrl + Z": async () => {
        const was = await windows();
        await page.locator("#control-windows").click();
        await until(page, "the windows", 5, async () => (await windows()) !== was);
        await press("Control+z");
        await becomes("taken back", windows, was);
      },
      "Ctrl + Y": () => changes("done again", windows, "Control+y"),
      "Shift + \u2190 \u2192": async () => {
        await page.locator("#control-humidity").focus();
        await page.keyboard.press("ArrowRight");
        await becomes("a step", humidity, "45");
        await page.keyboard.press("Shift+ArrowRight");
        await becomes("a fine step", humidity, "46");
        await page.keyboard.press("Shift+ArrowLeft");
        await page.keyboard.press("ArrowLeft");
        await becomes("and back", humidity, "40");
      },
    };
    await page.locator("#help-button").click();
    const listed = await page.locator(".help kbd").allInnerTexts();
    assert.deepEqual([...listed].sort(), Object.keys(works).sort());
    // The sheet lies over the page; shut, everything below it is there again.
    await shut();
    for (const key of listed) await works[key]();

    // Off: single keys do nothing, those with Ctrl and the sliders' go on.
    const box = page.locator("#shortcuts");
    await page.locator("#help-button").click();
    await box.uncheck();
    await shut();
    const still = async () => {
      const state = async () => [await paused(), await clock(), await speed(), await help()];
      const was = await state();
      for (const key of ["Space", ".", "[", "]", "r", "?"]) await press(key);
      await page.waitForTimeout(300);
      assert.deepEqual(await state(), was);
    };
    await still();
    await works["Ctrl + Z"]();
    await works["Shift + \u2190 \u2192"]();
    await page.reload();
    await page.locator("#control-windows").waitFor();
    await still();
    await page.locator("#help-button").click();
    await box.check();
    await shut();
    await works["."]();
    assertQuiet(page);
  },
  { path: "#s=healthy", reducedMotion: "reduce" },
);

pageTest(
  "what is done before what hands ask for is here works at once, or is answered when it comes",
  desktop,
  async (page) => {
    let release;
    const held = new Promise((done) => (release = done));
    await page.route("**/part_{hands,desk}.bin", async (route) => {
      await held;
      await route.continue();
    });
    await page.goto(address);
    const attribute = (selector, name) => page.locator(selector).getAttribute(name);
    await page.locator("#control-windows").waitFor();

    // Keys work already.
    await page.keyboard.press("Space");
    await until(page, "it runs", 5, async () => (await attribute(".pause", "aria-pressed")) === "false");
    await page.keyboard.press("Space");
    await until(page, "it pauses", 5, async () => (await attribute(".pause", "aria-pressed")) === "true");
    await page.locator("#control-windows").click();
    await page.evaluate(() => document.activeElement.blur());
    const windows = (state) => async () => (await attribute("#control-windows", "aria-checked")) === state;
    await until(page, "the windows are shut", 5, windows("false"));
    // A blower step that this van lacks is refused, and there are no words yet to say so.
    await page.locator("#control-blower").evaluate((slider) => {
      slider.max = 9;
      slider.value = 9;
      slider.dispatchEvent(new Event("input", { bubbles: true }));
    });
    await page.keyboard.press("Control+z");
    await until(page, "they are open again", 5, windows("true"));
    await page.keyboard.press("?");
    await page.waitForTimeout(200);
    assert.ok((await page.locator(".coming").count()) > 0, "the part was held back");
    assert.equal(await page.locator(".help").count(), 0);

    release();
    await page.locator(".help").waitFor();
    await page.getByText(/^Not done: /).first().waitFor();
    const said = () => page.locator("#app [role=status]").textContent();
    await until(page, "what was taken back is said", 15, async () => /^Taken back/.test(await said()));
    assertQuiet(page);
  },
  { path: "about:blank", running: false, reducedMotion: "reduce" },
);
