// The page worked without a pointer: helpers that several tests share.
import assert from "node:assert/strict";
import { pass } from "./page.mjs";

/** The number that a text begins with. */
export const number = (text) => Number.parseFloat(text.replace("\u2212", "-").replace(/[\s\u202f](?=\d{3})/g, ""));

/** The page worked without a pointer: everything takes the focus and answers to keys. */
export function keys(page) {
  const press = async (locator, key) => {
    // A view that has just been opened takes the focus to itself, once.
    for (let tries = 0; tries < 3; tries += 1) {
      await locator.focus();
      if (await locator.evaluate((e) => e === document.activeElement)) return page.keyboard.press(key);
      await page.waitForTimeout(100);
    }
    assert.fail("takes the focus");
  };
  const button = (name) => page.getByRole("button", { name, exact: typeof name === "string" });
  return {
    button,
    push: (name) => press(button(name), "Enter"),
    /** Presses the second time, after a thought, where an act is asked about. */
    sure: async () => {
      const yes = button("Do it all the same");
      await yes.waitFor();
      await page.waitForTimeout(450);
      await press(yes, "Enter");
      await yes.waitFor({ state: "detached" });
    },
    /** Chooses a speed by typing it, and runs. */
    speed: async (n) => {
      await page.locator("#speed").focus();
      await page.keyboard.type(`${n}\u00d7`, { delay: 20 });
      const pause = page.locator(".pause");
      if ((await pause.getAttribute("aria-pressed")) === "true") await press(pause, "Enter");
    },
    /** Chooses an option by typing its first letters. */
    pick: async (label, text) => {
      const list = page.getByLabel(label, { exact: true });
      await list.focus();
      await page.keyboard.type(text, { delay: 20 });
      await page.keyboard.press("Enter");
    },
    turn: async (on, name) => {
      const it = page.getByRole("switch", { name, exact: true });
      if ((await it.getAttribute("aria-checked")) !== String(on)) await press(it, "Space");
      await page.waitForFunction(([el, want]) => el.getAttribute("aria-checked") === want, [await it.elementHandle(), String(on)]);
    },
    /** Chooses as `pick`, in the list that a selector finds. */
    pickAt: async (selector, text) => {
      await page.locator(selector).focus();
      await page.keyboard.type(text, { delay: 20 });
      await page.keyboard.press("Enter");
    },
    /** Picks an instrument up in the drawing of parts, puts it on a place, and lays it down again. */
    put: async (tool, place) => {
      const drawn = page.locator("section.parts");
      const tray = drawn.locator(".tray").getByRole("button", { name: tool, exact: true });
      await press(tray, "Enter");
      await press(drawn.locator(".marks").getByRole("button", { name: `${tool}, ${place}`, exact: false }).first(), "Enter");
      await press(tray, "Enter");
    },
    /** Presses a switch once, whatever comes of it. */
    tap: (name) => press(page.getByRole("switch", { name, exact: true }), "Space"),
    slide: (name, key) => press(page.getByRole("slider", { name, exact: true }), key),
    view: async (name) => {
      const it = page.locator(".picker").getByRole("button", { name, exact: true });
      if ((await it.getAttribute("aria-pressed")) !== "true") await press(it, "Enter");
    },
    line: async (name) => page.locator(".tools .line", { hasText: name }).locator("b").innerText(),
    reading: async (name) => page.locator(".readings dl > div", { hasText: name }).locator("dd").innerText(),
  };
}

/** Waits until `check` gives true, at most so many seconds. */
export async function until(page, what, seconds, check) {
  const end = Date.now() + seconds * 1000;
  while (!(await check())) {
    assert.ok(Date.now() < end, `waited ${seconds} s: ${what}`);
    await page.waitForTimeout(100);
  }
}

/** Lets bay time pass, ten seconds at a time and at most so many, until `check` gives true. */
export async function passUntil(page, what, seconds, check) {
  for (let passed = 0; !(await check()); passed += 10) {
    assert.ok(passed < seconds, `waited ${seconds} s of bay time: ${what}`);
    await pass(page, 10);
  }
}

/** Opens the views one after the other, paused, and with everything that opens beside them; gives the name of each. */
export async function* everyView(page) {
  await page.locator(".picker").waitFor();
  await page.locator("#instruments-title").press("Enter");
  await page.locator(".pause").press("Enter");
  const views = await page.locator(".picker button").all();
  for (const view of views) if ((await view.getAttribute("aria-pressed")) === "true") await view.press("Enter");
  for (const view of views) {
    await view.press("Enter");
    const job = page.locator("section.job .cards button");
    if (await job.count()) await job.first().press("Enter");
    await page.waitForTimeout(150);
    yield await view.innerText();
    await view.press("Enter");
  }
  await page.locator("#help-button").press("Enter");
  await page.locator(".help").waitFor();
  yield "help";
  await page.locator("#help-close").press("Enter");
}
