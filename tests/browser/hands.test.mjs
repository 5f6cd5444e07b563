// What a job needs by hand: battery, plugs, belt, bolts, caps, the tool that fits; the hub turned and the can rocked. By mouse, keyboard and touch.
import assert from "node:assert/strict";
import { keys, number } from "./keys.mjs";
import { assertAccessible, assertNoSidewaysScroll, assertQuiet, desktop, pageTest, phone } from "./harness.mjs";
import { chooseLanguage, pass, start } from "./page.mjs";

const drawing = (page) => page.locator("section.parts");
const place = (page, name) => drawing(page).getByRole("button", { name }).first();
const told = (page) => page.locator(".next strong");

/** A hand that presses: the mouse, a finger, or the keyboard. */
const hands = {
  mouse: (it) => it.click(),
  finger: (it) => it.tap(),
  keyboard: async (it) => {
    await it.focus();
    await it.page().keyboard.press("Enter");
  },
};

/** The healthy van with its engine off and the drawing of parts open. */
async function parked(page) {
  const k = keys(page);
  await start(page, "healthy");
  await k.turn(false, "Engine");
  await k.view("Parts");
  return k;
}

const cold = async (page, seconds = 60) => {
  await pass(page, seconds);
  const vent = await page.locator(".readings dl > div", { hasText: "Centre vent" }).locator("dd").innerText();
  return number(vent);
};

for (const [how, window] of [["mouse", desktop], ["keyboard", desktop], ["finger", phone]]) {
  pageTest(`a clutch without its plug does not pull in, and a belt left off turns nothing, by ${how}`, window, async (page) => {
    const press = hands[how];
    const k = await parked(page);
    await press(place(page, /^Clutch plug and belt/));
    await page.locator("#plug").selectOption({ label: "pulled" });
    await k.turn(true, "Engine");
    await told(page).getByText("Put back the clutch plug").waitFor();
    const warm = await cold(page);
    assert.match(await k.reading("Clutch"), /^\s*out/);
    await page.locator("#plug").selectOption({ label: "on" });
    await cold(page, 5);
    assert.match(await k.reading("Clutch"), /^\s*in/);
    assert.ok((await cold(page)) < warm - 5, "now it cools");
    // Nobody takes a belt off a running engine.
    const belt = page.getByRole("switch", { name: "Drive belt", exact: true });
    await press(belt);
    await page.getByText("the engine is running: stop it first").first().waitFor({ state: "attached" });
    await k.turn(false, "Engine");
    await press(belt);
    await page.locator("aside.caution").getByText("Hands at belt and hub").waitFor();
    await k.turn(true, "Engine");
    await told(page).getByText("Put back the drive belt").waitFor();
    await cold(page, 5);
    assert.match(await k.reading("Clutch"), /^\s*in/, "the clutch pulls in all the same");
    const [high, low] = await Promise.all([/^High side/, /^Low side/].map((name) => page.getByRole("img", { name }).getAttribute("aria-label")));
    await pass(page, 120);
    const figures = [high, low].map((text) => number(text.match(/:\s*([\d.]+)/)[1]));
    assert.ok(figures.every(Number.isFinite), `${high} ${low}`);
    await assertNoSidewaysScroll(page);
    await assertAccessible(page);
    assertQuiet(page);
  }, { limit: 180_000 });
}

pageTest("nothing electrical works without the battery lead, and the page says why", desktop, async (page) => {
  const k = await parked(page);
  await place(page, /^Battery/).press("Enter");
  await k.turn(false, "Battery lead");
  await place(page, /^Battery: taken off/).waitFor();
  await k.tap("Engine");
  await page.getByText("the battery lead is off: nothing electrical works").first().waitFor({ state: "attached" });
  assert.equal(await page.getByRole("switch", { name: "Engine", exact: true }).getAttribute("aria-checked"), "false");
  await chooseLanguage(page, "es");
  await place(page, /^Batería: suelto/).waitFor();
  await page.getByRole("switch", { name: "Cable de la batería" }).press("Space");
  await page.getByRole("switch", { name: "Motor", exact: true }).press("Space");
  await page.locator('.panel [role=switch][aria-checked="true"]').first().waitFor();
  assertQuiet(page);
});

pageTest("the low-pressure switch is pulled, tested and bridged, and the page says what a bridge risks", desktop, async (page) => {
  const k = await parked(page);
  await place(page, /^Low-pressure switch: fitted/).press("Enter");
  const plug = page.locator("#plug");
  await plug.selectOption({ label: "pulled" });
  // At rest the low side is far above where the switch closes.
  await page.locator(".worktop .line", { hasText: "At its pins" }).getByText("conducts").waitFor();
  await place(page, /^Low-pressure switch: taken off/).waitFor();
  await plug.selectOption({ label: "bridged" });
  await page.locator("aside.caution").getByText("The low-pressure switch is bridged").waitFor();
  await k.turn(true, "Engine");
  await told(page).getByText("Put back the low-pressure switch's plug, without the wire").waitFor();
  await plug.selectOption({ label: "on" });
  assert.equal(await page.locator("aside.caution", { hasText: "bridged" }).count(), 0, "its cause is gone");
  // The cut-out's is pulled, not bridged.
  await place(page, /^High-pressure cut-out/).press("Enter");
  assert.deepEqual(await plug.locator("option").allInnerTexts(), ["on", "pulled"]);
  assertQuiet(page);
});

pageTest("a spring lock wants its tool, a nut two wrenches; the work opens beside its place and closes by Escape", desktop, async (page) => {
  const k = keys(page);
  await start(page, "charge-from-cans");
  await k.view("Parts");
  const lock = place(page, /^Joint condenser \/ liquid line/);
  await lock.press("Enter");
  const work = page.locator(".worktop");
  await work.getByText("A garter spring holds this joint, not a nut.").waitFor();
  const [mark, box, sheet] = await Promise.all([lock.boundingBox(), work.boundingBox(), drawing(page).locator(".sheet").boundingBox()]);
  const gap = Math.max(mark.x - (box.x + box.width), box.x - (mark.x + mark.width));
  assert.ok(gap >= 0 && gap < 60, `${gap} px beside it`);
  assert.ok(box.y >= sheet.y && box.y + box.height <= sheet.y + sheet.height + 1, "and within the drawing");
  assert.ok(await k.button("Open").isDisabled(), "bare hands open nothing");
  await k.push("two wrenches");
  await k.push("Open");
  await page.getByText("a spring lock holds this joint: it does not come apart with wrenches").first().waitFor({ state: "attached" });
  await k.push("spring-lock tool");
  await k.push("Open");
  await lock.filter({ hasText: ": open" }).waitFor();
  await k.button("two wrenches").press("Escape");
  await work.waitFor({ state: "detached" });
  assertQuiet(page);
});

pageTest("an accumulator comes out and goes in by the order of work, and what is missed is told", desktop, async (page) => {
  const k = keys(page);
  await start(page, "charge-from-cans");
  await k.view("Parts");
  for (const joint of [/^Joint evaporator \/ accumulator/, /^Joint accumulator \/ suction/]) {
    await place(page, joint).press("Enter");
    await k.push("two wrenches");
    await k.push("Open");
  }
  const part = place(page, /^Accumulator/);
  await part.press("Enter");
  await page.getByText("Take off first: the plug of the low-pressure switch, the bolts").waitFor();
  assert.ok(await k.button("Take out").isDisabled());
  await place(page, /^Low-pressure switch/).press("Enter");
  await page.locator("#plug").selectOption({ label: "pulled" });
  await part.press("Enter");
  await k.turn(false, "Bolts");
  await k.push("Take out");
  await k.push("Get a new one");
  // A new one is sealed until its joints are made: uncapped it takes up damp.
  await k.turn(false, "Caps on its ends");
  await page.locator("aside.caution").getByText("Cap open ends at once").waitFor();
  await k.turn(true, "Caps on its ends");
  await k.push("Put back");
  for (const joint of [/^Joint evaporator \/ accumulator/, /^Joint accumulator \/ suction/]) {
    await place(page, joint).press("Enter");
    await k.push("Put together");
  }
  await k.turn(true, "Engine");
  await told(page).getByText("Put back the bolts").waitFor();
  await k.turn(false, "Engine");
  await place(page, /^Accumulator/).press("Enter");
  await k.turn(true, "Bolts");
  await k.turn(true, "Engine");
  await told(page).getByText("Put back the plug of the low-pressure switch").waitFor();
  assertQuiet(page);
}, { limit: 120_000 });

pageTest("after a liquid charge at rest the page asks for the hub to be turned, and the engine waits for the hand", desktop, async (page) => {
  const k = keys(page);
  await start(page, "charge-from-cans");
  await k.pick("Tool", "Charging");
  await k.push("Connect");
  await k.turn(true, "Gives");
  await k.push("Low valve (blue): open");
  await k.push("Give the dose");
  await pass(page, 120);
  await k.push("Low valve (blue): shut");
  await k.push("Take it off");
  await k.view("Parts");
  await place(page, /^Clutch plug and belt/).press("Enter");
  await k.push("Turn the hub ten times by hand");
  await page.getByText(/^The hub is being turned, \d+ s left/).waitFor();
  await k.tap("Engine");
  assert.equal(await page.getByRole("switch", { name: "Engine", exact: true }).getAttribute("aria-checked"), "false");
  await pass(page, 31);
  await k.turn(true, "Engine");
  assert.equal(await page.locator("aside.caution", { hasText: "Liquid in the compressor" }).count(), 0);
  assertQuiet(page);
}, { limit: 120_000 });

for (const window of [desktop, phone]) {
  pageTest("a can is rocked", window, async (page) => {
    const k = keys(page);
    await start(page, "charge-from-cans");
    await k.push("Take a can");
    await k.turn(true, "Water bath");
    await k.turn(true, "Rock the can");
    assert.equal(await page.getByRole("switch", { name: "Water bath", exact: true }).getAttribute("aria-checked"), "false", "it is in the hands");
    await assertAccessible(page);
    await assertNoSidewaysScroll(page);
    assertQuiet(page);
  });
}

pageTest("a caution covers nothing of the drawing", desktop, async (page) => {
  const k = keys(page);
  await start(page, "healthy");
  await k.turn(false, "Engine");
  await k.turn(true, "Engine");
  const caution = await page.locator("aside.caution").boundingBox();
  const levels = await page.locator(".levels canvas").boundingBox();
  const notes = await page.locator(".under").boundingBox();
  for (const it of [levels, notes]) assert.ok(it.y + it.height <= caution.y + 1, "it stands under it");
  await k.push("Understood");
  assertQuiet(page);
});
