// Tools, bench and job through the page's own controls, by keyboard. What is asserted is what the page shows.
import assert from "node:assert/strict";
import { keys, number, passUntil, until } from "./keys.mjs";
import { assertAccessible, assertNoSidewaysScroll, assertQuiet, desktop, pageTest, phone } from "./harness.mjs";
import { chooseLanguage, pass, speed, start } from "./page.mjs";

pageTest(
  "recovered, evacuated, held and charged, by keyboard alone",
  desktop,
  async (page) => {
    const k = keys(page);
    await start(page, "healthy");
    await k.turn(false, "Engine");
    await k.pick("Tool", "Recovery");
    await k.push("Connect");
    for (const valve of ["Low valve (blue)", "High valve (red)"]) await k.push(`${valve}: open`);
    await k.turn(true, "Machine");
    await passUntil(page, "the machine recovers most of the charge and stops itself", 3600, async () => {
      const off = (await page.getByRole("switch", { name: "Machine", exact: true }).getAttribute("aria-checked")) === "false";
      return off && number(await k.line("Recovered")) > 30;
    });
    assert.ok(number(await k.line("Recovered")) < 40, "no more than the label's 36 oz and the hoses");

    await k.pick("Tool", "Vacuum pump");
    await k.push("Connect");
    await k.turn(true, "Pump");
    await k.turn(true, "Isolation valve");
    await k.turn(true, "Vacuum gauge at");
    await passUntil(page, "the loop comes below 1500 micron", 3600, async () => number(await k.reading("Vacuum gauge")) < 1500);
    await k.turn(false, "Isolation valve");
    await pass(page, 90);
    const held = number(await k.reading("Vacuum gauge"));
    assert.ok(held < 5000, `a tight loop holds its vacuum: ${held} micron`);
    await k.turn(false, "Pump");
    for (const valve of ["Low valve (blue)", "High valve (red)"]) await k.push(`${valve}: shut`);

    await k.pick("Tool", "Charging");
    await k.push("Connect");
    // The scale comes to rest first.
    await pass(page, 60);
    const before = number(await k.reading("Scale"));
    await k.turn(true, "Gives");
    await k.push("High valve (red): open");
    await k.push("Give the dose");
    await passUntil(page, "the dose leaves the cylinder", 1800, async () => before - number(await k.reading("Scale")) > 10);
    assertQuiet(page);
    await assertAccessible(page);
  },
  { limit: 300_000 },
);

for (const window of [desktop, phone]) {
  pageTest("a joint is opened, capped and made up again", window, async (page) => {
    const k = keys(page);
    await k.view("Parts");
    const bench = page.locator("section.parts");
    const joint = bench.getByRole("button", { name: /^Joint evaporator \/ accumulator/ });
    for (const it of await bench.getByRole("button", { name: /^Joint / }).all()) assert.match(await it.getAttribute("aria-label"), /not looked at/);
    await joint.focus();
    await page.keyboard.press("Enter");
    assert.ok(await k.button("Open").isDisabled(), "bare hands open no nut");
    await k.push("two wrenches");
    await k.push("Open");
    await joint.filter({ hasText: ": open" }).waitFor();
    await k.push("Cap both ends");
    await joint.filter({ hasText: ": capped" }).waitFor();
    await k.pick("With", "old O-ring, dry");
    await k.push("Put together");
    await joint.filter({ hasText: "made: old O-ring, dry" }).waitFor();
    // What is shut is not seen, and does not come out.
    await bench.getByRole("button", { name: /^Accumulator/ }).press("Enter");
    await bench.getByText("Closed: open one of its joints to look inside.").waitFor();
    assert.ok(await k.button("Take out").isDisabled());
    await assertAccessible(page);
    await assertNoSidewaysScroll(page);
    assertQuiet(page);
  });
}

pageTest("the other low port is gone to, and a condenser is flushed, by keyboard", desktop, async (page) => {
  const k = keys(page);
  await k.view("Parts");
  const bench = page.locator("section.parts");
  const press = async (name) => {
    const it = bench.getByRole("button", { name });
    await it.focus();
    await page.keyboard.press("Enter");
  };
  // With the coupler on, nothing is changed.
  await press(/^Low port/);
  const tap = page.getByRole("switch", { name: "Low port in use", exact: true });
  await k.tap("Low port in use");
  await page.getByText("the coupler is on the port", { exact: false }).first().waitFor();
  assert.equal(await tap.getAttribute("aria-checked"), "false");
  await k.turn(false, "Low coupler");
  await k.turn(true, "Low port in use");
  // That one has its cap on still.
  assert.equal(await page.getByRole("switch", { name: "Cap", exact: true }).getAttribute("aria-checked"), "true");
  await k.turn(false, "Cap");
  await k.turn(true, "Low coupler");
  for (const [joint, tool] of [[/^Joint discharge hose \/ condenser/, "two wrenches"], [/^Joint condenser/, "spring-lock tool"]]) {
    await press(joint);
    await k.push(tool);
    await k.push("Open");
  }
  await k.turn(false, "Engine");
  await press(/^Condenser/);
  const flush = page.getByRole("button", { name: "Flush with solvent, blow dry with nitrogen", exact: true });
  assert.equal(await flush.count(), 0, "a condenser is flushed on the bench");
  assert.ok(await k.button("Take out").isDisabled(), "its bolts are in");
  await k.turn(false, "Bolts");
  await k.push("Take out");
  assert.ok(await flush.isDisabled(), "its caps are on");
  await k.turn(false, "Caps on its ends");
  await k.push("Flush with solvent, blow dry with nitrogen");
  await page.locator(".caution").getByText("Solvent", { exact: true }).waitFor();
  assertQuiet(page);
});

pageTest("a job card's first step is done, undone by going back, and done again", desktop, async (page) => {
  const k = keys(page);
  await k.view("Job");
  await k.push("Open the job");
  const first = page.locator(".steps > li").first();
  await first.getByText("open", { exact: true }).waitFor();
  await k.push("Sign off");
  await page.getByText(/^Not yet\. Missing: Let the first gas in/).waitFor();
  await first.locator("summary").first().press("Enter");
  await first.getByText("Follow the service hose.").waitFor();
  await k.push("Take a can");
  await k.turn(true, "Tap");
  await k.push("Low valve (blue): open");
  await k.speed(30);
  await first.getByText(/^done/).waitFor({ timeout: 20_000 });
  await k.speed(1);
  for (let n = 0; n < 3; n += 1) await k.push("Undo");
  await first.getByText("open", { exact: true }).waitFor();
  for (let n = 0; n < 3; n += 1) await k.push("Redo");
  await k.speed(30);
  await first.getByText(/^done/).waitFor({ timeout: 20_000 });
  await page.reload();
  await page.locator(".steps > li").first().getByText(/^done/).waitFor({ timeout: 20_000 });
  await chooseLanguage(page, "es");
  await page.locator(".steps").getByText("Deje entrar el primer gas", { exact: true }).waitFor();
  await assertAccessible(page);
  assertQuiet(page);
});

for (const window of [desktop, phone])
  pageTest("a step's two hints open where they stand, one inside the other", window, async (page) => {
    await page.locator(".picker").getByRole("button", { name: "Job", exact: true }).click();
    await page.getByRole("button", { name: "Open the job" }).click();
    const step = page.locator(".steps > li").first();
    const hints = step.locator("details");
    await hints.first().locator("> summary").click();
    await hints.last().locator("> summary").click();
    assert.deepEqual(await hints.evaluateAll((all) => all.map(({ open }) => open)), [true, true]);
    const [around, inside] = [await step.boundingBox(), await hints.last().locator("p").boundingBox()];
    assert.ok(inside.y >= around.y && inside.y + inside.height <= around.y + around.height + 1, "the hint stands in its step");
    assertQuiet(page);
  });

pageTest("a statement is signed and held against the bay's own record", desktop, async (page) => {
  const k = keys(page);
  await k.view("Job");
  const record = page.locator("details.record");
  assert.equal(await record.getAttribute("open"), null, "the bay's record is shut until the statement is signed");
  await record.locator("summary").click();
  await record.getByRole("table").waitFor();
  assert.equal(await record.locator(".lines").count(), 0, "it tells no answers to the statement before");
  assert.ok(await record.getByRole("button", { name: "Save as CSV" }).isDisabled());
  await record.locator("summary").click();
  const field = (name) => page.getByLabel(name, { exact: true });
  await field("Recovered, oz").fill("12");
  await field("Charged, oz").fill("0");
  await field("Compressor").focus();
  await page.keyboard.press("Space");
  await k.pick("Hold under vacuum", "held");
  await k.pick("Nothing was vented", "yes");
  await k.push("Sign the record");
  await page.getByText("Signed, but the bay\u2019s own record says otherwise: Recovered; New parts; Hold under vacuum. Not stated: Refrigerant; Oil out; Oil in; Caps on the ports").waitFor();
  assert.notEqual(await record.getAttribute("open"), null);
  await field("Recovered, oz").fill("0");
  await field("Compressor").press("Space");
  await k.pick("Hold under vacuum", "not done");
  await k.push("Sign the record");
  await page.getByText("Signed. All that is stated matches the bay\u2019s own record. Not stated: Refrigerant; Oil out; Oil in; New parts; Caps on the ports").waitFor();
  // A box that is not ticked says nothing; "no" says something, and it is wrong or right.
  for (const [said, verdict] of [["no", /^Signed\. All/], ["yes", /says otherwise: Caps on the ports/], ["not stated", /^Signed\. All.*; Caps on the ports$/]]) {
    await k.pick("Both caps are on", said);
    await k.push("Sign the record");
    await page.locator(".statement .verdict").filter({ hasText: verdict }).waitFor();
  }
  // What cannot be a number is told beside its line and signs nothing.
  const before = await page.locator(".statement .verdict").last().innerText();
  for (const typed of ["-3", "1e9", "much"]) {
    await field("Recovered, oz").fill(typed);
    await page.getByText("Recovered: write a number from 0 to 1763.7 oz").waitFor();
    assert.equal(await field("Recovered, oz").getAttribute("aria-invalid"), "true");
    await k.push("Sign the record");
    assert.equal(await page.locator(".statement .verdict").last().innerText(), before);
  }
  await field("Recovered, oz").fill("1".repeat(40));
  assert.equal((await field("Recovered, oz").inputValue()).length, 16, "no more than a number can need");
  await field("Recovered, oz").fill("0");
  await k.push("Sign the record");
  for (const kind of ["CSV", "JSON"]) {
    const coming = page.waitForEvent("download");
    await k.push(`Save as ${kind}`);
    const { createReadStream } = await import("node:fs");
    let text = "";
    for await (const piece of createReadStream(await (await coming).path(), "utf8")) text += piece;
    if (kind === "CSV") assert.match(text, /^"Recovered","0\.0 oz","0"$/m);
    else assert.deepEqual(JSON.parse(text).find(({ line }) => line === "Recovered"), { line: "Recovered", recorded: "0.0 oz", stated: "0" });
  }
  await chooseLanguage(page, "es");
  await page.getByText("Firmado. Todo lo declarado coincide", { exact: false }).waitFor();
  await assertAccessible(page);
  assertQuiet(page);
});

for (const window of [desktop, phone])
  pageTest("a statement half filled in outlives its view and a reload, not its bay", window, async (page) => {
    const k = keys(page);
    const job = () => page.locator(".picker").getByRole("button", { name: "Job", exact: true });
    const field = (name) => page.locator(".statement").getByLabel(name, { exact: true });
    const fill = async () => {
      await field("Recovered, oz").fill("12.5");
      await field("Oil in, fl oz").fill("2");
      await field("Accumulator").press("Space");
      await k.pick("Both caps are on", "yes");
      await k.pick("Hold under vacuum", "held");
    };
    const stands = async (full, why) => {
      await field("Recovered, oz").waitFor();
      assert.deepEqual(
        [
          await field("Recovered, oz").inputValue(),
          await field("Charged, oz").inputValue(),
          await field("Oil in, fl oz").inputValue(),
          await field("Accumulator").isChecked(),
          await field("Compressor").isChecked(),
          await field("Both caps are on").evaluate((list) => list.selectedOptions[0].label),
          await field("Hold under vacuum").evaluate((list) => list.selectedOptions[0].label),
        ],
        full ? ["12.5", "", "2", true, false, "yes", "held"] : ["", "", "", false, false, "not stated", "not stated"],
        why,
      );
    };
    await k.view("Job");
    await stands(false, "nothing is stated at first");
    await fill();
    await job().press("Enter");
    await page.locator(".statement").first().waitFor({ state: "detached" });
    await k.view("Job");
    await stands(true, "the view was closed and opened");
    // Something to come back to: a bay in which nothing happened is begun anew.
    await k.turn(false, "Engine");
    await page.reload();
    await page.locator(".picker").waitFor();
    await k.view("Job");
    await stands(true, "the page was loaded anew");
    await start(page, "healthy");
    await k.view("Job");
    await stands(false, "another scenario");
    await page.reload();
    await page.locator(".picker").waitFor();
    await k.view("Job");
    await stands(false, "and nothing comes back");
    await fill();
    await k.push("Open the job");
    await stands(false, "a job card brings its own");
    assertQuiet(page);
  });

for (const [window, spoilt] of [[desktop, false], [phone, true]]) {
  pageTest(`the performance test ${spoilt ? "is broken off and begun again" : "passes a healthy van"}`, window, async (page) => {
    const k = keys(page);
    await start(page, "healthy");
    await k.view("Job");
    await page.getByText("A/C on: yes").waitFor();
    const test = page.locator("section.job");
    if (spoilt) {
      await k.push("Begin the test");
      await test.getByText(/^Under way/).waitFor();
      await k.turn(false, "A/C");
      await test.getByText(/^Stopped: a setting/).waitFor();
      await k.turn(true, "A/C");
    }
    await k.push("Begin the test");
    await k.speed(120);
    await test.getByText("Passed: all within the limits of this day.").waitFor({ timeout: 60_000 });
    const rows = test.locator("table").first().locator("tbody tr");
    assert.equal(await rows.count(), 3);
    for (const row of await rows.all()) assert.match(await row.innerText(), /within/);
    const [found, least, most] = (await rows.nth(1).locator("td").allInnerTexts()).map(number);
    assert.ok(least < found && found < most && least > 100, `${least} < ${found} < ${most} psig`);
    await assertAccessible(page);
    await assertNoSidewaysScroll(page);
    assertQuiet(page);
  });
}

pageTest("tools, bench and job reflow at 320 px", { ...phone, name: "narrow", viewport: { width: 320, height: 640 } }, async (page) => {
  const k = keys(page);
  await k.view("Parts");
  await k.view("Job");
  await k.push("Open the job");
  await page.locator("#instruments-title").press("Enter");
  // What the next step, which stays on top, covers half is no target there.
  await page.evaluate(() => window.scrollTo(0, 0));
  await assertNoSidewaysScroll(page);
  await assertAccessible(page);
});
